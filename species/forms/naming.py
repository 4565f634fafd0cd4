"""Text of the naming pages into clean values."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models import Species, Specimen
from species.queries.flora import nearest_to, species_matching
from species.rules.names import is_same_name

CANNOT_TELL = "?"


class NamingForm(forms.Form):
    """One opinion of what a specimen is."""

    said = forms.CharField(
        label=gettext_lazy("What is it? Common or scientific name"),
        max_length=160,
        required=False,
        widget=forms.TextInput(attrs={"list": "plant-names", "autocomplete": "off", "spellcheck": "false"}),
    )
    cannot_tell = forms.BooleanField(label=gettext_lazy("I cannot tell from this"), required=False)
    characters = forms.CharField(
        label=gettext_lazy("Which characters decided?"),
        help_text=gettext_lazy("A name without characters counts as one voice all the same, but helps nobody."),
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        said = " ".join(values.get("said", "").split())
        if values.get("cannot_tell"):
            return {**values, "said": CANNOT_TELL, "species": None}
        if not said:
            self.add_error("said", _("Write a name, or tick that you cannot tell."))
            return values
        species = species_called(said)
        if species is None:
            near = ", ".join(nearest_to(said))
            sentence = _("No plant of the school is called “%(said)s”.") % {"said": said}
            self.add_error("said", f"{sentence} {_('Nearest: %(near)s.') % {'near': near} if near else ''}".strip())
        return {**values, "said": said, "species": species}


def species_called(text: str) -> Species | None:
    """The one species that bears this name, scientific or common; None where none or several do."""
    found = [
        row
        for row in species_matching(text)
        if is_same_name(row.name, text) or any(is_same_name(each.name, text) for each in row.common_names.all())
    ]
    return found[0] if len(found) == 1 else None


class OutsiderForm(forms.Form):
    """Somebody outside the school who is asked to name specimens."""

    name = forms.CharField(label=gettext_lazy("Name"), max_length=120)
    email = forms.EmailField(label=gettext_lazy("E-mail"))
    specimens = forms.ModelMultipleChoiceField(
        Specimen.objects.none(), label=gettext_lazy("Specimens"), widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        waiting = Specimen.objects.in_the_bank().exclude(settlement="confirmed").filter(photos__isnull=False)
        self.fields["specimens"].queryset = waiting.distinct().order_by("added_at")  # type: ignore[attr-defined]
