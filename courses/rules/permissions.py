"""What the owners of a site allow on a day. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

SOON = timedelta(days=60)
"""How long before its end a permission is said to end soon (a choice, as for proofs)."""


class State(StrEnum):
    """How the permissions of a site stand."""

    NONE = "none"
    ENDED = "ended"
    SOON = "soon"
    GIVEN = "given"


@dataclass(frozen=True)
class PermissionFacts:
    """One permission: its uses, from when, until when (None: for good), and the day on which it was taken back."""

    valid_from: date
    valid_until: date | None = None
    ended_on: date | None = None
    uses: frozenset[str] = frozenset({"walking"})

    def holds_on(self, day: date) -> bool:
        """Whether it holds on a day."""
        if day < self.valid_from or (self.ended_on is not None and day >= self.ended_on):
            return False
        return self.valid_until is None or day <= self.valid_until


@dataclass(frozen=True)
class Standing:
    """How permissions stand on a day: what may be done, and until when (None: no end, or nothing holds)."""

    state: State
    uses: frozenset[str]
    until: date | None


def standing_on(permissions: Sequence[PermissionFacts], day: date) -> Standing:
    """What all permissions of a site together allow on a day. It ends soon when walking does within sixty days."""
    holding = [each for each in permissions if each.holds_on(day)]
    walking = [each for each in holding if "walking" in each.uses]
    uses = frozenset(use for each in holding for use in each.uses)
    if not walking:
        ends = [each.valid_until for each in permissions if each.valid_until is not None]
        return Standing(State.ENDED if permissions else State.NONE, uses, max(ends, default=None))
    if any(each.valid_until is None for each in walking):
        return Standing(State.GIVEN, uses, None)
    until = max(each.valid_until for each in walking if each.valid_until is not None)
    return Standing(State.SOON if until < day + SOON else State.GIVEN, uses, until)
