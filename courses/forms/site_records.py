"""Text into clean values: permissions, plants seen, reviews, and what went wrong."""

from datetime import date, datetime
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import Incident, SitePermission, SiteRecord, SiteReview
from courses.queries.sentences.risk import HEADING_HELP, HEADING_WORDS
from courses.rules.risk import HEADINGS

from .widgets import DayInput, MomentInput

WITHIN_A_YEAR = 366


class SitePermissionForm(forms.ModelForm):
    """Who allowed what, for which days, on which conditions."""

    class Meta:
        model = SitePermission
        fields = ["given_by", "walking", "picking", "digging", "valid_from", "valid_until", "conditions", "proof"]
        widgets = {
            "valid_from": DayInput(),
            "valid_until": DayInput(),
            "conditions": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {
            "valid_until": _("Empty: until it is taken back."),
            "proof": _("Where the letter or message can be found."),
            "digging": _("Roots and whole plants need leave of their own almost everywhere: check the local law."),
        }

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        first, last = values.get("valid_from"), values.get("valid_until")
        if first and last and last < first:
            self.add_error("valid_until", _("The last day lies before the first: change one of the two."))
        if not any(values.get(use) for use in ("walking", "picking", "digging")):
            self.add_error("walking", _("Say what was allowed: at least one of the three."))
        return values


class SiteRecordForm(forms.ModelForm):
    """A plant that was seen. `today` is the last day on which one can have been."""

    class Meta:
        model = SiteRecord
        fields = ["species", "stage", "seen_on", "note"]
        widgets = {"seen_on": DayInput()}

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_seen_on(self) -> date:
        seen_on: date = self.cleaned_data["seen_on"]
        if seen_on > self.today:
            raise forms.ValidationError(_("This day lies ahead: enter what was seen, not what will be."))
        return seen_on


class ReviewForm(forms.ModelForm):
    """A recce and its assessment of risks, heading by heading."""

    class Meta:
        model = SiteReview
        fields = ["walked_on", "review_again_by", "residual_risk", "decision", "reason"]
        widgets = {
            "walked_on": DayInput(),
            "review_again_by": DayInput(),
            "residual_risk": forms.Textarea(attrs={"rows": 2}),
            "reason": forms.Textarea(attrs={"rows": 2}),
        }
        help_texts = {
            "walked_on": _("Within about a week before the walk. Empty where nobody has walked it yet."),
            "reason": _("Needed where you change or cancel."),
        }

    def __init__(self, *args: Any, today: date, before: dict[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        for name in HEADINGS:
            self.fields[f"on_{name}"] = forms.CharField(
                label=HEADING_WORDS[name],
                help_text=HEADING_HELP.get(name, ""),
                required=False,
                initial=before.get(name, ""),
                widget=forms.Textarea(attrs={"rows": 2}),
            )
        self.order_fields(["walked_on", *(f"on_{name}" for name in HEADINGS), "residual_risk", "decision", "reason"])

    @property
    def headings(self) -> dict[str, str]:
        """What stands under each heading."""
        return {name: self.cleaned_data[f"on_{name}"].strip() for name in HEADINGS}

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("walked_on") and values["walked_on"] > self.today:
            self.add_error("walked_on", _("This day lies ahead: enter it once the route was walked."))
        if values.get("review_again_by") and values["review_again_by"] <= self.today:
            self.add_error("review_again_by", _("Choose a day ahead."))
        if values.get("decision") not in (None, SiteReview.Decision.GO) and not values.get("reason"):
            self.add_error("reason", _("Say what is changed, or why you do not go."))
        for name in ("plants", "emergency"):
            if not (values.get(f"on_{name}") or "").strip():
                self.add_error(f"on_{name}", _("Never empty: write at least what you looked for and did not find."))
        return values


class IncidentForm(forms.ModelForm):
    """What happened, by the parts played and never by name."""

    class Meta:
        model = Incident
        fields = [
            "kind", "happened_at", "account", "picked", "pair", "stage", "noticed_by", "sign", "site",
        ]  # fmt: skip
        widgets = {"happened_at": MomentInput(), "account": forms.Textarea(attrs={"rows": 5})}
        help_texts = {
            "account": _("What was picked or done, and what happened next. Name nobody: parts, not people."),
            "sign": _("What gave it away: a smell, a hair, the stem cut across."),
        }

    def __init__(self, *args: Any, now: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.now = now

    def clean_happened_at(self) -> datetime:
        happened_at: datetime = self.cleaned_data["happened_at"]
        if happened_at > self.now:
            raise forms.ValidationError(_("This lies ahead: enter when it happened."))
        return happened_at


class LessonForm(forms.ModelForm):
    """What is done differently now."""

    class Meta:
        model = Incident
        fields = ["lesson"]
        widgets = {"lesson": forms.Textarea(attrs={"rows": 3})}
