"""The two courses of the invented school, their meetings, registers and open walks."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from random import Random
from zoneinfo import ZoneInfo

from django.conf import settings

from assessments.models import Standard
from courses.models import Attendance, Course, Enrolment, Meeting, MeetingModule, Person, Presence, Site
from courses.queries.course_plan import calendars, teachables
from courses.rules.programme import propose_programme
from species.models import Module

WEEKS = 8


def at(day: date, hour: int, minute: int = 0) -> datetime:
    """A moment of the day in the school's zone."""
    return datetime.combine(day, time(hour, minute), ZoneInfo(settings.TIME_ZONE))


def run_course(
    key: str,
    title: str,
    summary: str,
    first: date,
    standard: Standard,
    tutors: Sequence[Person],
    sites: Sequence[Site],
    capacity: int,
    leader: Person | None,
) -> Course:
    """A course of eight weekly meetings, each with the module that its week shows best."""
    days = [first + timedelta(weeks=week) for week in range(WEEKS)]
    course = Course.objects.create(
        key=key,
        title=title,
        summary=summary,
        standard=standard,
        starts_on=first,
        ends_on=days[-1],
        capacity=capacity,
        bring="Boots, a hand lens, water, something waterproof to write on. Nothing to pick into before week two.",
    )
    course.tutors.set(tutors)
    modules = {module.key: module for module in Module.objects.all()}
    for week, (day, fit) in enumerate(zip(days, propose_programme(teachables(), calendars(), days), strict=True)):
        meeting = Meeting.objects.create(
            course=course,
            title=modules[fit.module].title,
            starts_at=at(day, 10),
            ends_at=at(day, 13),
            site=sites[week % len(sites)],
            leader=leader,
            note="Each meeting starts with last week's dangerous pair, shown without naming it.",
        )
        MeetingModule.objects.create(meeting=meeting, module=modules[fit.module], order=1)
    return course


def enrol_people(course: Course, people: Sequence[Person], asked_at: datetime, waiting: Sequence[Person] = ()) -> None:
    """Places in the order asked for, then the waiting list."""
    for number, person in enumerate([*people, *waiting]):
        Enrolment.objects.create(
            course=course, person=person, asked_at=asked_at + timedelta(hours=number), waiting=person in waiting
        )


def keep_registers(course: Course, marked_by: Person, now: datetime, random: Random) -> None:
    """The registers of the meetings that are over, but for the last one, which somebody has still to take."""
    over = list(course.meetings.over(now))
    still_to_take = over[-1:] if course.ends_on >= now.date() else []
    people = [row.person for row in course.enrolments.with_a_place().select_related("person")]
    lines = [
        Attendance(
            meeting=meeting,
            person=person,
            marked_by=marked_by,
            marked_at=meeting.starts_at,
            presence=random.choices(
                [Presence.PRESENT, Presence.LATE, Presence.LEFT_EARLY, Presence.ABSENT], [85, 6, 3, 6]
            )[0],
        )
        for meeting in over
        if meeting not in still_to_take
        for person in people
    ]
    Attendance.objects.bulk_create(lines)


def next_weekday(day: date, weekday: int) -> date:
    """The first such weekday after a day; Monday is 0."""
    return day + timedelta(days=(weekday - day.weekday() - 1) % 7 + 1)
