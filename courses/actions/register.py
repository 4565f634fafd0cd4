"""Keeping the register."""

from datetime import datetime

from courses.models import Attendance, Meeting, Person, Presence
from courses.queries.register import register_is_open


class RegisterClosed(Exception):
    """The meeting was cancelled, or its day has not come: there is nobody to mark."""


def mark_presence(meeting: Meeting, person: Person, presence: Presence, *, by: Person, now: datetime) -> Attendance:
    """One line of the register; marking again changes the line. Raises RegisterClosed."""
    if not register_is_open(meeting, now):
        raise RegisterClosed
    line, _made = Attendance.objects.update_or_create(
        meeting=meeting,
        person=person,
        defaults={"presence": presence, "marked_by": by, "marked_at": now},
    )
    return line
