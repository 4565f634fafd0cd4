"""Text into clean values: what somebody looks for on the readiness board."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.queries.board import LAPSING, LEADER, NOT_YET, READY, BoardAsk, BoardChoices
from courses.rules.requirements import LAPSES_SOON_DAYS

STATES = [
    ("", _("everybody")),
    (READY, _("who is ready")),
    (NOT_YET, _("who is not yet")),
    (LAPSING, _("what lapses within %(days)s days") % {"days": LAPSES_SOON_DAYS}),
]


class BoardForm(forms.Form):
    """The filters of the board, read from its address. What is not among the choices is no filter."""

    q = forms.CharField(label=_("Name"), required=False)

    def __init__(self, *args: Any, choices: BoardChoices, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offered: dict[str, tuple[Any, list[tuple[str, Any]]]] = {
            "part": (_("As a"), choices.parts),
            "state": (_("Show"), STATES),
            "missing": (_("What is missing"), [("", _("no matter what")), *choices.requirements]),
            "pair": (_("May lead among"), [("", _("any pair")), *choices.pairs]),
        }
        for name, (label, values) in offered.items():
            if values:
                self.fields[name] = forms.ChoiceField(label=label, choices=values, required=False)

    @property
    def ask(self) -> BoardAsk:
        """What is looked for."""
        self.is_valid()
        said = self.cleaned_data
        return BoardAsk(
            said.get("part") or LEADER,
            said.get("state", ""),
            said.get("missing", ""),
            said.get("pair", ""),
            said.get("q", ""),
        )

    @property
    def narrows(self) -> bool:
        """Whether anything is left out."""
        return self.ask != BoardAsk(self.ask.part)
