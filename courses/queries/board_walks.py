"""The next walks on the readiness board, with those who could stand in where a leader is not ready."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from courses.models import Meeting, Person
from courses.rules.readiness import readiness

from .leader_facts import KnownOfLeaders, asked_of, occasion_of

WALKS_SHOWN = 12


@dataclass(frozen=True)
class WalkLine:
    """A coming walk with its leader, whether that leader is ready on the day, and who else is where not."""

    walk: Meeting
    leader_is_ready: bool
    could_lead: list[Person]


def walk_lines(people: Collection[Person], now: datetime) -> list[WalkLine]:
    """Readiness is asked for the day of each walk, since something may lapse before it."""
    rows = Meeting.objects.walks().coming(now).select_related("leader", "site__locality", "course")
    walks = list(rows.order_by("starts_at")[:WALKS_SHOWN])
    leaders = {walk.leader.pk: walk.leader for walk in walks if walk.leader}
    everybody = {person.pk: person for person in people} | leaders
    known, asked = KnownOfLeaders(list(everybody)), asked_of()

    def is_ready(person: int, walk: Meeting) -> bool:
        there = occasion_of(walk)
        return readiness(known.on(person, there.day), there, asked).ready

    lines = []
    for walk in walks:
        leader_is_ready = walk.leader_id is not None and is_ready(walk.leader_id, walk)
        others = [] if leader_is_ready else [each for pk, each in everybody.items() if is_ready(pk, walk)]
        lines.append(WalkLine(walk, leader_is_ready, others))
    return lines
