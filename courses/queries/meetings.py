"""Meetings on one line each: when, where, what is taught, and whether the register was kept."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db.models import Exists, OuterRef
from django.utils import timezone

from courses.models import Attendance, Course, Enrolment, Meeting, Person
from courses.querysets import MeetingQuerySet


@dataclass(frozen=True)
class MeetingLine:
    """A meeting and how it stands.

    `when`: cancelled, over, now or coming. `register`: none (nobody was marked), part, or whole; "nobody"
    where nobody is expected.
    """

    meeting: Meeting
    when: str
    modules: tuple[str, ...]
    register: str

    @property
    def place(self) -> str:
        return self.meeting.site.locality.name if self.meeting.site else self.meeting.place

    @property
    def register_is_wanted(self) -> bool:
        """The meeting is over, and its register was not kept to the end."""
        return self.when == "over" and self.register in ("none", "part")

    @property
    def lacks_leader(self) -> bool:
        return self.meeting.is_walk and self.meeting.leader_id is None and self.when == "coming"


def meeting_lines(meetings: MeetingQuerySet, now: datetime) -> list[MeetingLine]:
    """Meetings in the order of time, in two queries however many."""
    rows = (
        meetings.select_related("course", "site__locality", "leader")
        .prefetch_related("modules_in_order__module")
        .annotate(has_unmarked=has_unmarked(), has_marked=has_marked())
        .order_by("starts_at", "id")
    )
    return [_line(row, now) for row in rows]


def has_unmarked() -> Exists:
    """Whether the register says nothing about somebody with a place, as a column of a query of meetings.

    Whoever joined the course after a meeting is not missing from its register.
    """
    marked = Attendance.objects.filter(meeting=OuterRef(OuterRef("pk")), person=OuterRef("person"))
    placed = Enrolment.objects.with_a_place().filter(course=OuterRef("course"), asked_at__lte=OuterRef("ends_at"))
    return Exists(placed.exclude(Exists(marked)))


def has_marked() -> Exists:
    """Whether the register says anything about anybody, as a column of a query of meetings."""
    return Exists(Attendance.objects.filter(meeting=OuterRef("pk")))


def _line(meeting: Any, now: datetime) -> MeetingLine:
    modules = tuple(row.module.title for row in meeting.modules_in_order.all())
    if meeting.has_unmarked:
        register = "part" if meeting.has_marked else "none"
    else:
        register = "whole" if meeting.has_marked else "nobody"
    return MeetingLine(meeting, meeting_when(meeting, now), modules, register)


def meeting_when(meeting: Meeting, now: datetime) -> str:
    """cancelled, over, under way ("now") or coming."""
    if meeting.cancelled_at is not None:
        return "cancelled"
    if meeting.ends_at <= now:
        return "over"
    return "now" if meeting.starts_at <= now else "coming"


def meeting_at_the_same_time(
    person: Person, starts_at: datetime, ends_at: datetime, but: int | None = None
) -> Meeting | None:
    """A meeting that somebody leads or assists at and that overlaps; None where there is none."""
    mine = Meeting.objects.standing().led_or_assisted_by(person.pk).exclude(pk=but or 0)
    found: Meeting | None = mine.filter(starts_at__lt=ends_at, ends_at__gt=starts_at).first()
    return found


def proposal_for(course: Course) -> dict[str, object]:
    """What the form for a new meeting begins with: as the last one, a week later."""
    last = course.meetings.standing().order_by("-starts_at").first()
    if last is None:
        return {"day": course.starts_on}
    starts, ends = timezone.localtime(last.starts_at), timezone.localtime(last.ends_at)
    return {
        "day": starts.date() + timedelta(days=7),
        "begins": starts.time(),
        "ends": ends.time(),
        "site": last.site_id,
        "place": last.place,
        "leader": last.leader_id,
    }
