"""One person's way to leading: what is missing, the steps taken with who confirmed them, leave; and, for their own
eyes, the walks to come."""

from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from courses.models import Availability, LeadingGrant, Meeting, Person, WalkPart
from courses.queries.sentences.requirements import CheckLine, check_lines
from courses.queries.sentences.ways import WayLine, way_line

from .board import LEADER
from .readiness import leader_readiness
from .ways import ways_of

WALKS_SHOWN = 60


@dataclass(frozen=True)
class Taken:
    """A step once taken: on which day, at which walk (empty: none on record), and who confirmed it (None: the walk's
    own list of assistants). `counts` is False where it should be done again; the note says why."""

    day: date
    walk: str
    confirmed_by: Person | None
    counts: bool = True
    note: str = ""


@dataclass(frozen=True)
class Step:
    """One of the steps to leading alone, in their order, and each time that it was taken, the latest first."""

    label: str
    taken: list[Taken]

    @property
    def times(self) -> int:
        """How often it was taken so that it counts."""
        return sum(each.counts for each in self.taken)


@dataclass(frozen=True)
class LeadingRecord:
    """One person on the way to leading. `begun`: whether anything of it is on record at all."""

    ready: bool
    checks: list[CheckLine]
    way: WayLine
    steps: list[Step]
    leaves: list[LeadingGrant]

    @property
    def begun(self) -> bool:
        return (
            any(step.taken for step in self.steps) or bool(self.leaves) or any(c.status != "unmet" for c in self.checks)
        )


@dataclass(frozen=True)
class OpenWalk:
    """A walk to come, and what the person said of it (None: nothing yet)."""

    walk: Meeting
    can_come: bool | None


def leading_record(person: Person, now: datetime) -> LeadingRecord:
    """All of it, in a constant number of queries."""
    today = timezone.localdate(now)
    found = leader_readiness([person.pk], today)[person.pk]
    taken = _taken(person, now)
    return LeadingRecord(
        found.ready,
        check_lines(found),
        way_line(ways_of({person: found}, LEADER, now)[person.pk], today),
        [Step(str(label), taken[value]) for value, label in WalkPart.Step.choices],
        list(LeadingGrant.objects.filter(person=person, ended_on__isnull=True).select_related("granted_by")),
    )


def walks_open_to(person: Person, now: datetime) -> list[OpenWalk]:
    """The next walks, with what this person said of each."""
    said = {row.meeting_id: row.can_come for row in Availability.objects.filter(person=person)}
    walks = Meeting.objects.walks().coming(now).select_related("site__locality").order_by("starts_at")
    return [OpenWalk(walk, said.get(walk.pk)) for walk in walks[:WALKS_SHOWN]]


def _taken(person: Person, now: datetime) -> dict[str, list[Taken]]:
    """By step each time that it was taken. Whoever was named as an assistant of a walk that stood assisted."""
    found: dict[str, list[Taken]] = {step: [] for step in WalkPart.Step.values}
    for part in WalkPart.objects.filter(person=person).select_related("meeting", "confirmed_by"):
        walk = part.meeting.title if part.meeting else ""
        found[part.step].append(Taken(part.walked_on, walk, part.confirmed_by, part.went_well, part.note))
    confirmed = {each.day for each in found[WalkPart.Step.ASSISTED]}
    for assisted in Meeting.objects.walks().over(now).filter(assistants=person):
        day = timezone.localdate(assisted.starts_at)
        if day not in confirmed:
            found[WalkPart.Step.ASSISTED].append(Taken(day, assisted.title, None))
    return {step: sorted(each, key=lambda one: one.day, reverse=True) for step, each in found.items()}
