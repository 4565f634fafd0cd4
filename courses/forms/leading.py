"""Text into clean values: steps to leading, leave to lead, and what the school asks."""

from datetime import date
from typing import Any

from django import forms
from django.utils.dates import MONTHS
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from courses.models import LeadingGrant, Meeting, Person, Requirement, RequirementRecord, WalkPart
from species.forms.choices import choices_of

from .widgets import DayInput


class StepForm(forms.ModelForm):
    """A step that somebody took, at a walk or on a day."""

    class Meta:
        model = WalkPart
        fields = ["person", "step", "meeting", "walked_on", "went_well", "note"]
        widgets = {"walked_on": DayInput(), "note": forms.Textarea(attrs={"rows": 3})}
        help_texts = {"went_well": _("Leave it empty where it should be done again; the note says why.")}

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        choices_of(self, "person").queryset = Person.objects.here()
        walks = Meeting.objects.walks().standing().filter(starts_at__date__lte=today).order_by("-starts_at")
        choices_of(self, "meeting").queryset = walks

    def clean_walked_on(self) -> date:
        walked_on: date = self.cleaned_data["walked_on"]
        if walked_on > self.today:
            raise forms.ValidationError(_("This day lies ahead: confirm what was seen, not what will be."))
        return walked_on


class GrantForm(forms.ModelForm):
    """Leave to lead alone, for a region and months."""

    months = forms.TypedMultipleChoiceField(
        label=_("Months"),
        help_text=_("None: all of them."),
        choices=list(MONTHS.items()),
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = LeadingGrant
        fields = ["person", "region", "months", "valid_from", "valid_until", "reason"]
        widgets = {"valid_from": DayInput(), "valid_until": DayInput(), "reason": forms.Textarea(attrs={"rows": 2})}
        help_texts = {"region": _("Empty: everywhere.")}

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        first, last = values.get("valid_from"), values.get("valid_until")
        if first and last and last < first:
            self.add_error("valid_until", _("The last day lies before the first: change one of the two."))
        return values


class AskedForm(forms.ModelForm):
    """One requirement of the school."""

    proof = forms.ChoiceField(
        label=_("Which proof"), choices=[("", _("none")), *RequirementRecord.Kind.choices], required=False
    )

    class Meta:
        model = Requirement
        fields = [
            "key",
            "title",
            "part",
            "kind",
            "proof",
            "standard",
            "number",
            "within_months",
            "with_children",
            "order",
        ]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "standard").queryset = Standard.objects.in_use()

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("kind") == Requirement.Kind.PROOF and not values.get("proof"):
            self.add_error("proof", _("Say which proof has to be shown."))
        return values
