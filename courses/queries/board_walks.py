"""The next walks on the readiness board, with those who could stand in where a leader is not ready."""

from dataclasses import dataclass
from datetime import datetime

from courses.models import Meeting, Person
from courses.rules.readiness import readiness

from .leader_facts import asked_of, occasion_of
from .readiness import OnTheWay
from .walks import candidates_of

WALKS_SHOWN = 12


@dataclass(frozen=True)
class WalkLine:
    """A coming walk with its leader, whether that leader is ready on the day, and the names of others where not."""

    walk: Meeting
    leader_is_ready: bool
    could_lead: list[str]


def walk_lines(everybody: OnTheWay, now: datetime) -> list[WalkLine]:
    """Ready is who meets what is asked on the day of the walk and tells every pair apart that can be met there.

    Pairs are looked up only of those who meet what is asked, and of the leaders; a constant number of queries.
    """
    rows = Meeting.objects.walks().coming(now).select_related("leader", "site__locality", "course")
    walks = list(rows.order_by("starts_at")[:WALKS_SHOWN])
    known, asked = everybody.known, asked_of()
    wanted = {walk.leader_id for walk in walks if walk.leader_id}
    for there in {occasion_of(walk) for walk in walks}:
        wanted |= {pk for pk in everybody.names if readiness(known.on(pk, there.day), there, asked).ready}
    lines, _pairs = candidates_of(walks, now, Person.objects.filter(pk__in=wanted).order_by("name"))
    found = []
    for walk in walks:
        ready = {line.person.pk: line.person.name for line in lines[walk.pk] if line.is_ready}
        others = [name for pk, name in ready.items() if pk in everybody.names]
        found.append(WalkLine(walk, walk.leader_id in ready, [] if walk.leader_id in ready else others))
    return found
