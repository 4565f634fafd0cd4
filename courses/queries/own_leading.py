"""What somebody sees of their own way to leading: the steps, what is missing, and the walks to come."""

from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from courses.models import Availability, LeadingGrant, Meeting, Person, WalkPart
from courses.queries.sentences.requirements import CheckLine, check_lines
from courses.queries.sentences.ways import WayLine, way_line

from .board import LEADER
from .readiness import leader_readiness
from .ways import ways_of


@dataclass(frozen=True)
class Step:
    """One of the steps to leading alone, in their order, and how often it was taken."""

    label: str
    times: int


@dataclass(frozen=True)
class OpenWalk:
    """A walk to come, and what the person said of it (None: nothing yet)."""

    walk: Meeting
    can_come: bool | None


@dataclass(frozen=True)
class OwnLeading:
    """One's own way to leading."""

    ready: bool
    checks: list[CheckLine]
    way: WayLine
    steps: list[Step]
    leaves: list[LeadingGrant]
    walks: list[OpenWalk]


def own_leading(person: Person, now: datetime) -> OwnLeading:
    """All of it, in a constant number of queries."""
    today = timezone.localdate(now)
    found = leader_readiness([person.pk], today)[person.pk]
    taken = [part.step for part in WalkPart.objects.filter(person=person, went_well=True)]
    assisted = Meeting.objects.walks().over(now).filter(assistants=person).count()
    times = {step: taken.count(step) for step in WalkPart.Step.values}
    times[WalkPart.Step.ASSISTED] += assisted
    said = {row.meeting_id: row.can_come for row in Availability.objects.filter(person=person)}
    walks = Meeting.objects.walks().coming(now).select_related("site__locality").order_by("starts_at")
    return OwnLeading(
        found.ready,
        check_lines(found),
        way_line(ways_of({person: found}, LEADER, now)[person.pk]),
        [Step(str(label), times[value]) for value, label in WalkPart.Step.choices],
        list(LeadingGrant.objects.filter(person=person, ended_on__isnull=True)),
        [OpenWalk(walk, said.get(walk.pk)) for walk in walks[:60]],
    )
