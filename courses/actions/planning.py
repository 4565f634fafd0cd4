"""Making the meetings of a course from a draft, and a course from last year's."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from django.db import transaction
from django.utils import timezone

from courses.actions.courses import free_key
from courses.models import Course, Meeting, MeetingModule, Person, Site
from species.models import Module


class NothingDrafted(Exception):
    """There is no day left for a meeting."""


@dataclass(frozen=True)
class Times:
    """When meetings begin and end, where they are, and who leads them."""

    begins: time
    ends: time
    site: Site | None
    place: str = ""
    leader: Person | None = None


def make_meetings(course: Course, drafted: Sequence[tuple[date, Module]], times: Times, now: datetime) -> list[Meeting]:
    """All meetings of a draft, or none. Raises NothingDrafted."""
    if not drafted:
        raise NothingDrafted
    with transaction.atomic():
        made = [
            Meeting.objects.create(
                course=course,
                title=module.title,
                starts_at=_moment(day, times.begins),
                ends_at=_moment(day, times.ends),
                site=times.site,
                place="" if times.site else times.place,
                leader=times.leader,
                changed_at=now,
            )
            for day, module in drafted
        ]
        MeetingModule.objects.bulk_create(
            MeetingModule(meeting=meeting, module=module, order=1)
            for meeting, (_day, module) in zip(made, drafted, strict=True)
        )
    return made


def copy_course(course: Course, *, title: str, starts_on: date, now: datetime) -> Course:
    """Last year's course on new days: the same meetings, as many days after the first as they were.

    Cancelled meetings, leaders, people, papers and spot tests stay behind; days to skip are chosen anew.
    """
    shift = starts_on - course.starts_on
    with transaction.atomic():
        made = Course.objects.create(
            key=free_key(title),
            title=title,
            summary=course.summary,
            standard=course.standard,
            starts_on=starts_on,
            ends_on=course.ends_on + shift,
            capacity=course.capacity,
            bring=course.bring,
            effort=course.effort,
            price=course.price,
            who_may_come=course.who_may_come,
            place_rule=course.place_rule,
            copied_from=course,
        )
        made.tutors.set(course.tutors.all())
        for meeting in course.meetings.standing().prefetch_related("modules_in_order"):
            _copy_meeting(meeting, made, shift, now)
    return made


def _copy_meeting(meeting: Meeting, course: Course, shift: timedelta, now: datetime) -> None:
    starts, ends = timezone.localtime(meeting.starts_at), timezone.localtime(meeting.ends_at)
    made = Meeting.objects.create(
        course=course,
        title=meeting.title,
        # by the clock on the wall: ten in the morning stays ten in the morning when the clocks have changed
        starts_at=_moment(starts.date() + shift, starts.time()),
        ends_at=_moment(ends.date() + shift, ends.time()),
        site=meeting.site,
        place=meeting.place,
        is_walk=meeting.is_walk,
        wet_site=meeting.wet_site,
        wet_plan=meeting.wet_plan,
        wet_told_by=meeting.wet_told_by,
        most_people=meeting.most_people,
        note=meeting.note,
        changed_at=now,
    )
    MeetingModule.objects.bulk_create(
        MeetingModule(meeting=made, module_id=row.module_id, order=row.order) for row in meeting.modules_in_order.all()
    )


def _moment(day: date, clock: time) -> datetime:
    return timezone.make_aware(datetime.combine(day, clock))
