"""Text of the certificate pages into clean values."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import CertificateEvent, Person, RequirementRecord


class ApplyForm(forms.Form):
    """The statement that goes with an application."""

    statement = forms.BooleanField(
        label=_("The answers were my own, given alone, and what I say of myself is true."),
        error_messages={"required": _("Without this statement the school cannot decide: tick it if it is true.")},
    )


class DeclineForm(forms.Form):
    """Why an application is declined."""

    reason = forms.CharField(
        label=_("Reason, as the person will read it"),
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Say why: the person has a right to the reason.")},
    )


class EventForm(forms.Form):
    """What happens to a certificate, and why."""

    kind = forms.ChoiceField(label=_("What happens"), choices=CertificateEvent.Kind.choices, widget=forms.RadioSelect)
    reason = forms.CharField(
        label=_("Reason, as the holder will read it"),
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Say why: the holder has a right to the reason.")},
    )


class RequirementForm(forms.ModelForm):
    """A proof that somebody showed."""

    class Meta:
        model = RequirementRecord
        fields = ["person", "kind", "valid_from", "valid_until", "note"]
        widgets = {
            "valid_from": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "valid_until": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["person"].queryset = Person.objects.here()  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        first, last = cleaned.get("valid_from"), cleaned.get("valid_until")
        if first and last and last < first:
            self.add_error("valid_until", _("This day lies before the first one: look at both dates."))
        return cleaned
