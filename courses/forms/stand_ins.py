"""Text into clean values: who stands in."""

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import Person, Role
from species.forms.choices import choices_of


class StandInForm(forms.Form):
    """Who takes the meeting over. Those who are tutors of the school today are offered."""

    person = forms.ModelChoiceField(label=_("Who stands in"), queryset=Person.objects.none())
    reason = forms.CharField(label=_("What they should know"), max_length=200, required=False)

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "person").queryset = Person.objects.here().with_role(Role.TUTOR, today).order_by("name")
