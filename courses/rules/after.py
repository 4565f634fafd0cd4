"""Which pairs a course did not teach, and why. Pure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum


class Reason(StrEnum):
    """Why a pair was not taught, the plainest first."""

    NOT_PLANNED = "not_planned"
    CANCELLED = "cancelled"
    NOT_TAUGHT = "not_taught"
    NOT_SHOWING = "not_showing"


@dataclass(frozen=True)
class TaughtFacts:
    """One pair on the plan of one meeting, and what became of it. `showed`: whether its dangerous plant did."""

    pair: str
    was_cancelled: bool = False
    was_held: bool = True
    was_left_out: bool = False
    showed: bool = True
    because: str = ""

    @property
    def was_taught(self) -> bool:
        return self.was_held and not self.was_cancelled and not self.was_left_out and self.showed

    @property
    def reason(self) -> Reason:
        if self.was_cancelled:
            return Reason.CANCELLED
        if self.was_left_out:
            return Reason.NOT_TAUGHT
        return Reason.NOT_SHOWING


@dataclass(frozen=True)
class Untaught:
    """A pair that no meeting taught."""

    pair: str
    reason: Reason
    because: str


def untaught(pairs: Iterable[str], facts: Sequence[TaughtFacts]) -> tuple[Untaught, ...]:
    """The pairs that no meeting taught, in their order. What is still to come counts as neither."""
    found = []
    for pair in pairs:
        mine = [each for each in facts if each.pair == pair]
        if any(each.was_taught for each in mine) or any(not each.was_held and not each.was_cancelled for each in mine):
            continue
        last = mine[-1] if mine else None
        found.append(Untaught(pair, last.reason if last else Reason.NOT_PLANNED, last.because if last else ""))
    return tuple(found)
