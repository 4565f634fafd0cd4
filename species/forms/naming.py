"""Text of the naming pages into clean values."""

from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models import Specimen
from species.queries.names import known_names

CANNOT_TELL = "?"


class NamingForm(forms.Form):
    """One opinion of what a specimen is."""

    said = forms.CharField(
        label=gettext_lazy("What is it?"),
        help_text=gettext_lazy("Common or scientific name; if you cannot tell, tick so below."),
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
        names = known_names()
        species = names.called(said)
        if species is None:
            near = ", ".join(names.nearest(said))
            sentence = _("No plant of the school is called “%(said)s”.") % {"said": said}
            self.add_error("said", f"{sentence} {_('Nearest: %(near)s.') % {'near': near} if near else ''}".strip())
        return {**values, "said": said, "species": species}


class SpecimensField(forms.ModelMultipleChoiceField):
    """Specimens to choose from, told apart by what was showing, when and where; never by a name."""

    def label_from_instance(self, specimen: Specimen) -> str:
        stage = specimen.get_stage_display() or _("stage not said")
        return f"{stage}, {date_format(specimen.seen_on)}, {specimen.individual.locality}"


class OutsiderForm(forms.Form):
    """Somebody outside the school who is asked to name specimens."""

    name = forms.CharField(label=gettext_lazy("Name"), max_length=120)
    email = forms.EmailField(label=gettext_lazy("E-mail"))
    specimens = SpecimensField(
        Specimen.objects.none(), label=gettext_lazy("Specimens"), widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        waiting = Specimen.objects.in_the_bank().exclude(settlement="confirmed").filter(photos__isnull=False)
        field = self.fields["specimens"]
        assert isinstance(field, SpecimensField)
        field.queryset = waiting.select_related("individual__locality").distinct().order_by("added_at")
