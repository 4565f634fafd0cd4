"""Corrections of a specimen into clean values."""

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.forms.upload import DayInput
from species.models.flora import STAGE_WORDS


class MendForm(forms.Form):
    """What was showing, and when."""

    stage = forms.ChoiceField(label=gettext_lazy("What is showing?"), choices=[("", "…"), *STAGE_WORDS])
    seen_on = forms.DateField(label=gettext_lazy("Day of the find"), widget=DayInput())
    form = forms.CharField(
        label=gettext_lazy("What is unusual about the plant"), max_length=60, required=False, empty_value="typical"
    )

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_seen_on(self) -> date:
        day: date = self.cleaned_data["seen_on"]
        if day > self.today:
            raise forms.ValidationError(_("This day lies ahead; when was the plant found?"))
        return day


class RetireForm(forms.Form):
    """Why a specimen is taken out of the bank."""

    why = forms.CharField(label=gettext_lazy("Why?"), max_length=200)
