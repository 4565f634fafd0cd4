"""Text into clean values: a course, and somebody to enrol in it."""

from datetime import date
from typing import Any

from django import forms
from django.db.models import Q
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as __
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from courses.models import Course, Person, Role
from species.forms.choices import choices_of

from .widgets import DayInput


class CourseForm(forms.ModelForm):
    """A course: what is taught, when, by whom, for how many."""

    tutors = forms.ModelMultipleChoiceField(
        label=_("Tutors"), queryset=Person.objects.none(), widget=forms.CheckboxSelectMultiple
    )

    class Meta:
        model = Course
        fields = [
            "title",
            "summary",
            "standard",
            "starts_on",
            "ends_on",
            "capacity",
            "place_rule",
            "tutors",
            "effort",
            "who_may_come",
            "bring",
            "price",
            "is_public",
        ]
        widgets = {
            "summary": forms.Textarea(attrs={"rows": 4}),
            "bring": forms.Textarea(attrs={"rows": 3}),
            "effort": forms.Textarea(attrs={"rows": 2}),
            "who_may_come": forms.Textarea(attrs={"rows": 2}),
            "starts_on": DayInput(),
            "ends_on": DayInput(),
            "capacity": forms.NumberInput(attrs={"inputmode": "numeric", "min": 1}),
        }
        help_texts = {
            "capacity": _("Common outdoors: one leader to ten or twelve adults, fewer by water."),
            "is_public": _("Then anybody can read about it and ask, without an account."),
            "place_rule": _("Empty: first come, first served."),
            "effort": _("For instance: four kilometres on field paths, one stile, in any weather."),
            "standard": _("What the tests of this course count towards."),
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # Who teaches it now, and the version of the standard it was begun under, stay on offer.
        tutors = Q(pk__in=Person.objects.here().with_role(Role.TUTOR, today).values("pk"))
        if self.instance.pk:
            tutors |= Q(pk__in=self.instance.tutors.values("pk"))
        standards = Q(pk__in=Standard.objects.in_use().values("pk")) | Q(pk=self.instance.standard_id)
        choices_of(self, "tutors").queryset = Person.objects.filter(tutors)
        choices_of(self, "standard").queryset = Standard.objects.filter(standards)

    def clean_capacity(self) -> int:
        capacity: int = self.cleaned_data["capacity"]
        taken = self.instance.enrolments.with_a_place().count() if self.instance.pk else 0
        if capacity < taken:
            raise forms.ValidationError(places_taken(taken))
        return capacity

    def clean(self) -> dict[str, object]:
        values = super().clean() or {}
        first, last = values.get("starts_on"), values.get("ends_on")
        if isinstance(first, date) and isinstance(last, date):
            if last < first:
                self.add_error("ends_on", _("The last day lies before the first: change one of the two."))
            elif self.instance.pk:
                self._name_meetings_outside(first, last)
        return values

    def _name_meetings_outside(self, first: date, last: date) -> None:
        for meeting in self.instance.meetings.standing():
            day = timezone.localdate(meeting.starts_at)
            if not first <= day <= last:
                sentence = __("%(title)s on %(day)s would lie outside the course: move or cancel it first.")
                words = {"title": meeting.title, "day": date_format(day, "DATE_FORMAT")}
                self.add_error("starts_on" if day < first else "ends_on", sentence % words)


def places_taken(taken: int) -> str:
    """Why a course cannot have fewer places than are taken."""
    return __("%(taken)d places are taken: give at least as many, or end enrolments first.") % {"taken": taken}


class EnrolForm(forms.Form):
    """Somebody of the school who is not in the course yet."""

    person = forms.ModelChoiceField(label=_("Person"), queryset=Person.objects.none())

    def __init__(self, *args: Any, course: Course, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        inside = course.enrolments.standing().values("person")
        tutors = course.tutors.values("pk")
        choices_of(self, "person").queryset = Person.objects.here().exclude(pk__in=inside).exclude(pk__in=tutors)
