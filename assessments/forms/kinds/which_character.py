"""Which of these states is it, and does it decide: one choice."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.rules.kinds.which_character import CANNOT_TELL

from .shape import KindForm


class WhichCharacter(KindForm):
    """One state, or "I cannot tell"."""

    chosen = forms.ChoiceField(
        label=_("Which of these can you see here, and does it settle which of the two it is?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose one of these."), "invalid_choice": _("Choose one of these.")},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        options = [(each["key"], f"{each['name']}: {each['shows']}") for each in self.asks.get("options", ())]
        field: Any = self.fields["chosen"]
        field.choices = [*options, (CANNOT_TELL, _("I cannot tell"))]


FORM = WhichCharacter
