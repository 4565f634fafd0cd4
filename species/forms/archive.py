"""What goes into an archive, as asked for on a page."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.queries.archive_people import Determiner
from species.queries.archive_specimens import Scope

from .choices import options_of

SPECIES, PUBLIC, OWN = "species", "specimens", "own"
_KINDS = [
    (SPECIES, gettext_lazy("The plants: names, hazards, parts used and months")),
    (PUBLIC, gettext_lazy("Specimens for everybody: those for teaching, places blurred")),
]
_OWN_KIND = (OWN, gettext_lazy("Specimens for the school itself: exact places, all names, notes"))


class ArchiveForm(forms.Form):
    """One archive. What only the school itself may have is offered only to those who keep its archives."""

    kind = forms.ChoiceField(label=gettext_lazy("What is to be in it?"), widget=forms.RadioSelect)
    publisher = forms.CharField(
        label=gettext_lazy("Name of the school, as it is to stand in the archive"), max_length=120
    )
    pictures = forms.BooleanField(
        label=gettext_lazy("With the pictures"),
        help_text=gettext_lazy("For everybody: only those under an open licence, such as CC BY 4.0."),
        required=False,
    )
    agreed = forms.MultipleChoiceField(
        label=gettext_lazy("Who agreed to be named with what they determined?"),
        help_text=gettext_lazy("All others stay without a name. Ask before you tick."),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    assessment = forms.BooleanField(
        label=gettext_lazy("Also what serves for tests (for the school itself only)"), required=False
    )
    sure = forms.BooleanField(
        label=gettext_lazy("Yes: pictures of tests leave in this archive, and I answer for where they go"),
        required=False,
    )

    def __init__(self, *args: Any, people: list[Determiner], may_own: bool, asks_again: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        options_of(self, "kind").choices = [*_KINDS, _OWN_KIND] if may_own else _KINDS
        options_of(self, "agreed").choices = [(each.id, each.name) for each in people]
        if not people:
            del self.fields["agreed"]
        if not may_own:
            del self.fields["assessment"]
        if not asks_again:
            del self.fields["sure"]

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("assessment") and values.get("kind") != OWN:
            self.add_error("assessment", _("What serves for tests never goes into an archive for others."))
        return values

    @property
    def scope(self) -> Scope:
        """What goes out, by a form that was found sound."""
        values = self.cleaned_data
        return Scope(
            is_own=values["kind"] == OWN,
            with_pictures=values["pictures"],
            with_assessment=values.get("assessment", False),
            agreed=frozenset(values.get("agreed", ())),
        )
