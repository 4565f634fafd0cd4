"""Text into clean values: people, roles, invitations."""

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import Course, Invitation, Person, Role
from species.forms.choices import choices_of

from .widgets import DayInput


class PersonForm(forms.ModelForm):
    """What the school knows of a person. `today` is the day up to which somebody can have left."""

    class Meta:
        model = Person
        fields = ["name", "family_name", "phone", "note", "left_on"]
        widgets = {
            "phone": forms.TextInput(attrs={"type": "tel", "inputmode": "tel"}),
            "note": forms.Textarea(attrs={"rows": 3}),
            "left_on": DayInput(),
        }
        help_texts = {
            "family_name": _("Asked for when somebody checks a certificate by its number."),
            "note": _(
                "Organisers read this, and the person with everything that is held of them. Nothing about health "
                "belongs here."
            ),
            "left_on": _("From then on the person cannot sign in and holds no role. Their records stay."),
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_left_on(self) -> date | None:
        left_on: date | None = self.cleaned_data["left_on"]
        if left_on and left_on > self.today:
            raise forms.ValidationError(_("This day lies ahead: enter it when the person has left."))
        return left_on


class RoleForm(forms.Form):
    """A role to give, and why."""

    role = forms.ChoiceField(label=_("Role"), choices=Role.choices)
    reason = forms.CharField(label=_("Why"), max_length=200, required=False)


class FoundingForm(forms.Form):
    """Why somebody is trusted to assess before anybody could hold a certificate."""

    reason = forms.CharField(
        label=_("Why this person is trusted"),
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=_(
            "It holds from today on and cannot be taken back. Name and reason are printed in the technical report. Who "
            "can hold a certificate should rather be tested like everybody else."
        ),
    )


class InvitationForm(forms.ModelForm):
    """Whom to invite, as what, and perhaps into which course."""

    class Meta:
        model = Invitation
        fields = ["name", "email", "role", "course"]
        widgets = {"name": forms.TextInput(attrs={"autocomplete": "off"})}
        help_texts = {
            "course": _("Whoever accepts has a place in this course, or a turn on its waiting list when it is full.")
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        course = choices_of(self, "course")
        course.queryset = Course.objects.not_over(today)
        course.empty_label = str(_("no course"))

    def clean(self) -> dict[str, object]:
        values = super().clean() or {}
        if values.get("course") and values.get("role") != Role.PARTICIPANT:
            self.add_error("course", _("Only participants are invited into a course: choose no course."))
        return values
