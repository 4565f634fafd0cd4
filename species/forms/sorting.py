"""What is said of a specimen when it leaves the tray, into clean values."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.forms.upload import DayInput
from species.models.bank import USE_WORDS
from species.models.flora import STAGE_WORDS
from species.queries.names import known_names
from species.queries.tray import MetBefore, Tile

PARTS = [
    gettext_lazy("whole plant"), gettext_lazy("leaf"), gettext_lazy("stem"), gettext_lazy("base of the stem"),
    gettext_lazy("flower"), gettext_lazy("flower head"), gettext_lazy("fruit"), gettext_lazy("seed"),
    gettext_lazy("bud"), gettext_lazy("bark"), gettext_lazy("twig"), gettext_lazy("root"),
]  # fmt: skip
"""Offered, never forced."""


class SortForm(forms.Form):
    """Everything that has to be said before anybody is taught or tested with a specimen."""

    said = forms.CharField(
        label=gettext_lazy("What is it?"),
        help_text=gettext_lazy("Your name for it is the first of two. Leave it empty if you cannot tell."),
        max_length=160,
        required=False,
        widget=forms.TextInput(attrs={"list": "plant-names", "autocomplete": "off", "spellcheck": "false"}),
    )
    characters = forms.CharField(
        label=gettext_lazy("Which characters decided?"), required=False, widget=forms.Textarea(attrs={"rows": 2})
    )
    stage = forms.ChoiceField(label=gettext_lazy("What is showing?"), choices=[("", "…"), *STAGE_WORDS])
    form = forms.CharField(
        label=gettext_lazy("What is unusual about the plant"), max_length=60, required=False, empty_value="typical"
    )
    use = forms.ChoiceField(
        label=gettext_lazy("What for?"),
        help_text=gettext_lazy("Teaching pictures are public. What has served for teaching never serves for a test."),
        choices=USE_WORDS,
        widget=forms.RadioSelect,
    )
    seen_on = forms.DateField(label=gettext_lazy("Day of the find"), widget=DayInput())
    locality = forms.CharField(
        label=gettext_lazy("Place"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"list": "places", "autocomplete": "off"}),
    )
    met_before = forms.ChoiceField(label=gettext_lazy("Was this very plant met before?"), required=False)
    photographer = forms.CharField(label=gettext_lazy("Photographer"), max_length=120, required=False)
    rights_holder = forms.CharField(label=gettext_lazy("Whose pictures are they?"), max_length=120)
    licence = forms.CharField(
        label=gettext_lazy("Licence"),
        help_text=gettext_lazy("Under which they may be shown, for instance CC BY 4.0, or: for this school alone."),
        max_length=200,
    )

    def __init__(
        self, *args: Any, today: date, tiles: Sequence[Tile], met_before: Sequence[MetBefore], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.today, self.tiles = today, tiles
        self.before = {str(each.individual.pk): each.individual for each in met_before}
        place = self.fields["met_before"]
        assert isinstance(place, forms.ChoiceField)
        place.choices = [("", _("no, or nobody knows")), *((str(m.individual.pk), _met(m)) for m in met_before)]
        if not met_before:
            del self.fields["met_before"]
        for number, tile in enumerate(tiles, start=1):
            self.fields[part_name(tile.key)] = forms.CharField(
                label=_("Part that picture %(number)s shows") % {"number": number},
                max_length=60,
                widget=forms.TextInput(attrs={"list": "parts", "autocomplete": "off"}),
                initial=tile.picture.part,
            )

    def clean_seen_on(self) -> date:
        day: date = self.cleaned_data["seen_on"]
        if day > self.today:
            raise forms.ValidationError(_("This day lies ahead; when was the plant found?"))
        return day

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        values["species"], values["said"] = None, " ".join(values.get("said", "").split())
        if values["said"]:
            names = known_names()
            values["species"] = names.called(values["said"])
            if values["species"] is None:
                near = ", ".join(names.nearest(values["said"]))
                sentence = _("No plant of the school is called “%(said)s”.") % {"said": values["said"]}
                nearest = _("Nearest: %(near)s.") % {"near": near} if near else ""
                self.add_error("said", f"{sentence} {nearest}".strip())
        values["parts"] = {tile.key: values.get(part_name(tile.key), "") for tile in self.tiles}
        values["met_before"] = self.before.get(values.get("met_before") or "")
        return values


def part_name(photo_key: str) -> str:
    """The name of the field for the part that one picture shows."""
    return f"part-{photo_key}"


def _met(found: MetBefore) -> str:
    return _("yes: %(plant)s, %(day)s, %(stage)s") % {
        "plant": found.individual,
        "day": date_format(found.day),
        "stage": found.stage or _("stage not said"),
    }
