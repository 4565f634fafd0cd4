"""Text into clean values: a site, and the locality under it."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import Site
from species.forms.choices import choices_of
from species.models import Locality


class LocalityForm(forms.ModelForm):
    """The place itself. Its exact position is for the school alone."""

    class Meta:
        model = Locality
        fields = ["name", "latitude", "longitude", "days_late", "habitat"]
        widgets = {
            "latitude": forms.NumberInput(attrs={"step": "0.00001", "min": -90, "max": 90}),
            "longitude": forms.NumberInput(attrs={"step": "0.00001", "min": -180, "max": 180}),
        }
        help_texts = {
            "days_late": _("How many days plants show later here than in the region; with a minus, earlier."),
        }


class SiteForm(forms.ModelForm):
    """How the school uses the place: the way there, permission, hazards, where the ambulance comes."""

    class Meta:
        model = Site
        fields = [
            "access", "meeting_point", "facilities", "region", "group_size", "hazards", "emergency_place",
            "access_gate", "nearest_road", "hospital", "phone_signal", "who_calls",
        ]  # fmt: skip
        widgets = {
            "access": forms.Textarea(attrs={"rows": 3}),
            "hazards": forms.Textarea(attrs={"rows": 4}),
            "emergency_place": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {
            "group_size": _("Common: ten or twelve adults to one leader, six with children, fewer by water."),
            "hazards": _("Ground, water, tide, livestock, roads, and the dangerous plants that grow here."),
            "emergency_place": _("As it would be read out on the telephone: gate, nearest road, grid reference."),
        }


class KnownLocalityForm(forms.Form):
    """A place of the photo bank that is not a site yet."""

    locality = forms.ModelChoiceField(
        label=_("A place that the photo bank knows"), queryset=Locality.objects.none(), required=False,
        empty_label=_("a new place, named below"),
    )  # fmt: skip

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "locality").queryset = Locality.objects.filter(site__isnull=True)
