"""The next walks on the readiness board, with those who could stand in where a leader is not ready."""

from dataclasses import dataclass
from datetime import datetime

from courses.models import Meeting
from courses.rules.readiness import readiness

from .leader_facts import asked_of, occasion_of
from .readiness import OnTheWay

WALKS_SHOWN = 12


@dataclass(frozen=True)
class WalkLine:
    """A coming walk with its leader, whether that leader is ready on the day, and the names of others where not."""

    walk: Meeting
    leader_is_ready: bool
    could_lead: list[str]


def walk_lines(everybody: OnTheWay, now: datetime) -> list[WalkLine]:
    """Readiness is asked for the day of each walk, since something may lapse before it; two queries."""
    rows = Meeting.objects.walks().coming(now).select_related("leader", "site__locality", "course")
    asked = asked_of()

    def is_ready(person: int, walk: Meeting) -> bool:
        there = occasion_of(walk)
        return readiness(everybody.known.on(person, there.day), there, asked).ready

    lines = []
    for walk in rows.order_by("starts_at")[:WALKS_SHOWN]:
        leader_is_ready = walk.leader_id is not None and is_ready(walk.leader_id, walk)
        others = [name for pk, name in everybody.names.items() if not leader_is_ready and is_ready(pk, walk)]
        lines.append(WalkLine(walk, leader_is_ready, sorted(others)))
    return lines
