"""Text into clean values: one meeting, and somebody who came to it."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta
from typing import Any

from django import forms
from django.db.models import Q, QuerySet
from django.forms.utils import from_current_timezone
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as __
from django.utils.translation import gettext_lazy as _

from assessments.models import SpotTest
from courses.models import Meeting, Person
from courses.queries.meetings import meeting_at_the_same_time
from courses.queries.sites import permission_on
from courses.rules.permissions import State
from species.forms.choices import choices_of
from species.models import Module

from .widgets import ClockInput, DayInput

MODULE_ROWS = 4
ASSISTANT_ROWS = 3


class MeetingForm(forms.ModelForm):
    """When, where, what is taught, who leads. The course comes with the meeting and is not chosen here.

    Clean values beside the model's own: `starts_at`, `ends_at`, `chosen_modules` and `chosen_assistants`,
    both lists in order.
    """

    day = forms.DateField(label=_("Day"), widget=DayInput())
    begins = forms.TimeField(label=_("Begins"), widget=ClockInput())
    ends = forms.TimeField(label=_("Ends"), widget=ClockInput())

    class Meta:
        model = Meeting
        fields = [
            "title",
            "site",
            "without_permission",
            "place",
            "is_walk",
            "leader",
            "most_people",
            "children_come",
            "wet_site",
            "wet_plan",
            "wet_told_by",
            "spot_test",
            "note",
        ]
        widgets = {
            "note": forms.Textarea(attrs={"rows": 4}),
            "wet_plan": forms.Textarea(attrs={"rows": 2}),
            "without_permission": forms.TextInput(),
            "wet_told_by": ClockInput(),
        }
        help_texts = {
            "without_permission": _("Only where no permission is on record for that day: say why you go all the same."),
            "wet_told_by": _("Everybody is told by this hour whether the plan changes."),
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        meeting: Meeting = kwargs["instance"]
        kwargs["initial"] = {**_as_shown(meeting), **(kwargs.get("initial") or {})}
        super().__init__(*args, **kwargs)
        recent = Q(held_at__date__gte=today - timedelta(days=60)) | Q(pk=meeting.spot_test_id)
        choices_of(self, "spot_test").queryset = SpotTest.objects.filter(recent)
        people = Person.objects.filter(Q(left_on__isnull=True) | Q(pk=meeting.leader_id))
        choices_of(self, "leader").queryset = people
        choices_of(self, "leader").empty_label = str(_("nobody yet"))
        shown = self.initial
        helpers = Person.objects.filter(Q(left_on__isnull=True) | Q(walks_assisted=meeting.pk)).distinct()
        self.assistant_names = _add_rows(self, "assistant", _("Assistant %(number)d"), helpers, ASSISTANT_ROWS, shown)
        self.module_names = _add_rows(self, "module", _("Module %(number)d"), Module.objects.all(), MODULE_ROWS, shown)

        first = ["title", "day", "begins", "ends", "site", "without_permission", "place", "is_walk", "leader"]
        wet = ["wet_site", "wet_plan", "wet_told_by"]
        self.order_fields([*first, *self.assistant_names, *self.module_names, *wet, "note", "spot_test"])

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        self._clean_times(values)
        self._clean_place(values)
        values["chosen_modules"] = self._chosen(self.module_names, values)
        values["chosen_assistants"] = self._chosen(self.assistant_names, values)
        self._clean_permission(values)
        self._clean_double_booking(values)
        if values.get("leader") in values["chosen_assistants"]:
            self.add_error("leader", _("The leader is named as an assistant too: choose one of the two."))
        return values

    def _clean_times(self, values: dict[str, Any]) -> None:
        day, begins, ends = values.get("day"), values.get("begins"), values.get("ends")
        if not (day and begins and ends):
            return
        if ends <= begins:
            self.add_error("ends", _("The end lies before the beginning: change one of the two."))
            return
        course = self.instance.course
        if course and not course.starts_on <= day <= course.ends_on:
            words = {"first": date_format(course.starts_on), "last": date_format(course.ends_on)}
            sentence = __("The course runs from %(first)s to %(last)s: choose a day in it, or change the course.")
            self.add_error("day", sentence % words)
            return
        try:
            values["starts_at"] = self.instance.starts_at = from_current_timezone(datetime.combine(day, begins))
            values["ends_at"] = self.instance.ends_at = from_current_timezone(datetime.combine(day, ends))
        except forms.ValidationError as refusal:  # the hour that the change of the clocks skips or repeats
            self.add_error("begins", refusal)

    def _clean_place(self, values: dict[str, Any]) -> None:
        if values.get("site") and values.get("place"):
            self.add_error("place", _("A site is chosen already: leave this empty, or choose no site."))
        elif not values.get("site") and not values.get("place") and "place" not in self.errors:
            self.add_error("site", _("People must know where: choose a site, or write a place below."))

    def _clean_permission(self, values: dict[str, Any]) -> None:
        site, day = values.get("site"), values.get("day")
        if site is None or day is None or values.get("without_permission"):
            return
        if permission_on(site.permissions.all(), day).state in (State.NONE, State.ENDED):
            sentence = _("No permission for this day is on record: write one down, or say below why you go.")
            self.add_error("site", sentence)

    def _clean_double_booking(self, values: dict[str, Any]) -> None:
        starts, ends = values.get("starts_at"), values.get("ends_at")
        if not (starts and ends):
            return
        named = {"leader": values.get("leader")}
        named |= {name: values.get(name) for name in self.assistant_names}
        for name, person in named.items():
            if person is None:
                continue
            clash = meeting_at_the_same_time(person, starts, ends, self.instance.pk)
            if clash is not None:
                words = {"name": person.name, "title": clash.title}
                self.add_error(name, __("%(name)s is at “%(title)s” then: choose somebody else, or move one.") % words)

    def _chosen(self, names: Iterable[str], values: dict[str, Any]) -> list[Any]:
        chosen: list[Any] = []
        for name in names:
            each = values.get(name)
            if each is not None and each in chosen:
                self.add_error(name, __("%(what)s is chosen already: leave this empty.") % {"what": each})
            elif each is not None:
                chosen.append(each)
        return chosen


class AlsoHereForm(forms.Form):
    """Somebody who came and is not on the register."""

    person = forms.ModelChoiceField(label=_("Somebody else is here"), queryset=Person.objects.none())

    def __init__(self, *args: Any, listed: Iterable[int], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "person").queryset = Person.objects.here().exclude(pk__in=list(listed))


def _add_rows(
    form: forms.BaseForm, name: str, label: Any, rows: QuerySet[Any], at_least: int, shown: Mapping[str, Any]
) -> list[str]:
    """Select boxes one under another, so that the order is plain and no script is needed; gives their names.

    There are never fewer of them than choices shown, so that saving loses none.
    """
    count = max(at_least, sum(1 for key in shown if key.startswith(f"{name}_")))
    names = [f"{name}_{number}" for number in range(1, count + 1)]
    for number, each in enumerate(names, start=1):
        form.fields[each] = forms.ModelChoiceField(
            label=str(label) % {"number": number}, queryset=rows, required=False, empty_label=str(_("none"))
        )
    return names


def _as_shown(meeting: Meeting) -> dict[str, Any]:
    """What the fields beside the model's own show for a meeting that exists."""
    if not meeting.pk:
        return {}
    starts, ends = timezone.localtime(meeting.starts_at), timezone.localtime(meeting.ends_at)
    shown: dict[str, Any] = {"day": starts.date(), "begins": starts.time(), "ends": ends.time()}
    for number, row in enumerate(meeting.modules_in_order.all(), start=1):
        shown[f"module_{number}"] = row.module_id
    for number, person in enumerate(meeting.assistants.all(), start=1):
        shown[f"assistant_{number}"] = person.pk
    return shown
