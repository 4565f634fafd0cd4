"""The fields that forms of papers are made of: moments, counts, pairs, lowered quotas, people."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.queries.paper_outlook import MOST_QUESTIONS
from assessments.queries.people import people_called

MOMENT = {"type": "datetime-local"}


def moment_input() -> forms.DateTimeInput:
    """A day and a time, with the browser's own picker."""
    return forms.DateTimeInput(attrs=MOMENT, format="%Y-%m-%dT%H:%M")


def count_field(label: Any, most: int = MOST_QUESTIONS, **more: Any) -> forms.IntegerField:
    """How many, or nothing; `more` as for the field."""
    more.setdefault("widget", forms.NumberInput(attrs={"inputmode": "numeric"}))
    return forms.IntegerField(label=label, min_value=0, max_value=most, required=False, **more)


class PairsField(forms.ModelMultipleChoiceField):
    """Pairs by the names of both sides."""

    widget = forms.CheckboxSelectMultiple

    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.gathered.common_name} – {obj.mistaken.common_name}"


class LoweredField(forms.CharField):
    """Quotas that ask for less than the plan would, as the page carries them from one request to the next."""

    widget = forms.HiddenInput

    def prepare_value(self, value: Any) -> Any:
        return written(value) if isinstance(value, Mapping) else value

    def to_python(self, value: Any) -> Any:
        found = {}
        for each in str(value or "").split(";"):
            name, _equals, number = each.rpartition("=")
            if name and number.isdecimal():
                found[name] = int(number)
        return found


def written(lowered: Mapping[str, int]) -> str:
    """Lowered quotas as `LoweredField` reads them."""
    return ";".join(f"{name}={number}" for name, number in lowered.items())


class PeopleField(forms.CharField):
    """Users by name or e-mail address, one to a line."""

    widget = forms.Textarea(attrs={"rows": 5})

    def clean(self, value: Any) -> Any:
        found = people_called(super().clean(value).splitlines())
        if found.unknown:
            raise forms.ValidationError(
                _("Nobody here is called %(who)s: write the e-mail address.") % {"who": ", ".join(found.unknown)}
            )
        if found.unclear:
            raise forms.ValidationError(
                _("More than one person is called %(who)s: write the e-mail address.")
                % {"who": ", ".join(found.unclear)}
            )
        return found.people


def people_field() -> PeopleField:
    """Who sits a paper."""
    return PeopleField(
        label=gettext_lazy("Who sits it"), help_text=gettext_lazy("One name or e-mail address to a line.")
    )
