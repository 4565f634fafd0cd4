"""Text into clean values: steps to leading, leave to lead, and what the school asks."""

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import NON_FIELD_ERRORS
from django.utils import timezone
from django.utils.dates import MONTHS
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from courses.models import LeadingGrant, Meeting, Person, Requirement, RequirementRecord, Site, WalkPart
from species.forms.choices import choices_of, options_of

from .widgets import DayInput


class WalkField(forms.ModelChoiceField):
    """A choice among walks: many are called the same, so each is told with its day."""

    def label_from_instance(self, walk: Meeting) -> str:
        return f"{date_format(timezone.localdate(walk.starts_at), 'DATE_FORMAT')}: {walk.title}"


class StepForm(forms.ModelForm):
    """A step that somebody took, at a walk or on a day."""

    class Meta:
        model = WalkPart
        fields = ["person", "step", "meeting", "walked_on", "went_well", "note"]
        field_classes = {"meeting": WalkField}
        widgets = {"walked_on": DayInput(), "note": forms.Textarea(attrs={"rows": 3})}
        help_texts = {
            "walked_on": _("Empty: the day of the walk chosen above."),
            "went_well": _("Leave it empty where it should be done again; the note says why."),
        }
        error_messages = {
            NON_FIELD_ERRORS: {"unique_together": _("This step at this walk is written down already.")},
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        choices_of(self, "person").queryset = Person.objects.here()
        walks = Meeting.objects.walks().standing().filter(starts_at__date__lte=today).order_by("-starts_at")
        choices_of(self, "meeting").queryset = walks
        self.fields["walked_on"].required = False

    def clean(self) -> dict[str, Any]:
        """One day: that of the walk, or the one that was typed. Two that differ are one slip of the two."""
        values = super().clean() or {}
        walk, typed = values.get("meeting"), values.get("walked_on")
        of_the_walk = timezone.localdate(walk.starts_at) if walk else None
        if "walked_on" in self.errors:
            return values
        if typed and of_the_walk and typed != of_the_walk:
            on = date_format(of_the_walk, "DATE_FORMAT")
            words = _("That walk was on %(day)s: leave the day empty, or choose another walk.")
            self.add_error("walked_on", words % {"day": on})
        elif typed and typed > self.today:
            self.add_error("walked_on", _("This day lies ahead: confirm what was seen, not what will be."))
        elif not (typed or of_the_walk):
            self.add_error("walked_on", _("Say on which day, or choose a walk above."))
        values["walked_on"] = typed or of_the_walk
        return values


class GrantForm(forms.ModelForm):
    """Leave to lead alone, for a region and months."""

    region = forms.ChoiceField(label=_("Region"), required=False)
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

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "person").queryset = Person.objects.here()
        # a region is a word that sites carry: one that no site carries would give leave for nowhere
        regions = Site.objects.exclude(region="").order_by("region").values_list("region", flat=True).distinct()
        options_of(self, "region").choices = [("", _("everywhere")), *((each, each) for each in regions)]

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
        fields = ["title", "part", "kind", "proof", "standard", "number", "within_months", "with_children", "order"]
        help_texts = {
            "number": _("Where walks are asked: how many of them."),
            "within_months": _("Where walks are asked. Empty: no matter how long ago."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "standard").queryset = Standard.objects.in_use()

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("kind") == Requirement.Kind.PROOF and not values.get("proof"):
            self.add_error("proof", _("Say which proof has to be shown."))
        return values
