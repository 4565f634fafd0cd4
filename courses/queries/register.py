"""The register of one meeting: who is expected, who came, and how many of each."""

from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from courses.models import Attendance, Meeting, Person, Presence


@dataclass(frozen=True)
class Choice:
    """One of the four buttons of a line."""

    value: str
    label: str
    pressed: bool


@dataclass(frozen=True)
class Line:
    """One person of the register. `marked_at` is None as long as nothing was said about them."""

    person: Person
    presence: str
    marked_at: datetime | None
    is_expected: bool

    @property
    def choices(self) -> list[Choice]:
        return [Choice(each.value, str(each.label), each.value == self.presence) for each in Presence]

    @property
    def presence_label(self) -> str:
        return str(Presence(self.presence).label) if self.presence else ""


@dataclass(frozen=True)
class Count:
    """How many people a word stands for."""

    label: str
    people: int


@dataclass(frozen=True)
class Register:
    """All lines in the order of names, and whether they may be marked yet."""

    meeting: Meeting
    lines: tuple[Line, ...]
    is_open: bool

    @property
    def unmarked(self) -> int:
        return sum(1 for line in self.lines if not line.presence)

    @property
    def here(self) -> int:
        """Those who came, however late or briefly."""
        return sum(1 for line in self.lines if line.presence and line.presence != Presence.ABSENT)

    @property
    def counts(self) -> list[Count]:
        return [Count(str(each.label), sum(1 for line in self.lines if line.presence == each)) for each in Presence]


def register_is_open(meeting: Meeting, now: datetime) -> bool:
    """From the morning of the day on, unless the meeting was cancelled."""
    day = timezone.localdate(meeting.starts_at)
    return meeting.cancelled_at is None and timezone.localdate(now) >= day


def register_of(meeting: Meeting, now: datetime) -> Register:
    """The register in two queries: those with a place, and whoever was marked besides."""
    expected = {person.pk: person for person in Person.objects.with_a_place_at(meeting.pk)}
    marked = {line.person_id: line for line in meeting.register.select_related("person")}
    people = {**{pk: line.person for pk, line in marked.items()}, **expected}
    lines = [_line(person, marked.get(pk), pk in expected) for pk, person in people.items()]
    return Register(meeting, tuple(sorted(lines, key=_by_name)), register_is_open(meeting, now))


def _by_name(line: Line) -> tuple[str, int]:
    return line.person.name.casefold(), line.person.pk


def _line(person: Person, row: Attendance | None, is_expected: bool) -> Line:
    if row is None:
        return Line(person, "", None, is_expected)
    return Line(person, row.presence, row.marked_at, is_expected)
