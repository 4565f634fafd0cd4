"""Meetings to come with less room than their course has places: told to those who run it; nobody is stopped."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count

from courses.models import Course, Meeting
from courses.rules.room import Bound, room_for


@dataclass(frozen=True)
class Crowded:
    """One meeting: how many it takes, and whether its leaders are what bounds it (`named` of them at `group_size`)."""

    meeting: Meeting
    most: int
    by_leaders: bool
    named: int
    group_size: int | None


def crowded_meetings(course: Course, now: datetime) -> list[Crowded]:
    """Meetings of the course to come that take fewer than its places, in the order of time; one query."""
    rows = course.meetings.coming(now).select_related("site__locality").annotate(helpers=Count("assistants"))
    found = []
    for row in rows.order_by("starts_at", "id"):
        size = row.site.group_size if row.site else None
        named = row.helpers + (row.leader_id is not None)
        room = room_for(row.most_people, size, named)
        if room is not None and room.most < course.capacity:
            found.append(Crowded(row, room.most, room.bound is Bound.LEADERS, named, size))
    return found
