"""Text into clean values: drafting the meetings of a course, and a course from last year's."""

from datetime import date
from typing import Any

from django import forms
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as __
from django.utils.translation import gettext_lazy as _

from courses.models import Course, Person, Site

from .widgets import ClockInput, DayInput


class DraftForm(forms.Form):
    """On which weekday, when and where; how many weeks; which days are left out (one a line)."""

    weekday = forms.TypedChoiceField(label=_("Weekday"), choices=list(WEEKDAYS.items()), coerce=int)
    weeks = forms.IntegerField(label=_("How many meetings"), min_value=1, max_value=30)
    begins = forms.TimeField(label=_("Begins"), widget=ClockInput())
    ends = forms.TimeField(label=_("Ends"), widget=ClockInput())
    site = forms.ModelChoiceField(label=_("Site"), queryset=Site.objects.select_related("locality"), required=False)
    place = forms.CharField(label=_("Place, if no site"), max_length=200, required=False)
    leader = forms.ModelChoiceField(label=_("Leader"), queryset=Person.objects.here(), required=False)
    skipped = forms.CharField(
        label=_("Days to leave out"),
        help_text=_("One a line, for instance 2026-05-04: holidays, a fair, the tide."),
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def __init__(self, *args: Any, course: Course, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.course = course

    def clean_skipped(self) -> list[date]:
        days = []
        for number, line in enumerate(filter(str.strip, self.cleaned_data["skipped"].splitlines()), start=1):
            try:
                days.append(date.fromisoformat(line.strip()))
            except ValueError as error:
                words = {"line": number, "text": line.strip()}
                sentence = __("Line %(line)s: “%(text)s” is no day. Write it as year, month, day: 2026-05-04.")
                raise forms.ValidationError(sentence % words) from error
        return days

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        begins, ends = values.get("begins"), values.get("ends")
        if begins and ends and ends <= begins:
            self.add_error("ends", _("The end lies before the beginning: change one of the two."))
        if not values.get("site") and not values.get("place") and "site" not in self.errors:
            self.add_error("site", _("People must know where: choose a site, or write a place below."))
        return values


class CopyForm(forms.Form):
    """What the new course is called and when it begins."""

    title = forms.CharField(label=_("Title"), max_length=120)
    starts_on = forms.DateField(label=_("First day"), widget=DayInput())

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_starts_on(self) -> date:
        starts_on: date = self.cleaned_data["starts_on"]
        if starts_on <= self.today:
            raise forms.ValidationError(_("Choose a day ahead: nobody can come to what has begun."))
        return starts_on
