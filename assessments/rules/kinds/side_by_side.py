"""Two plants: which would you gather, both, or neither. With one of two edible, guessing has another chance of a
miss, so a right answer proves nothing; gathering the dangerous one is a miss all the same."""

from random import Random

from assessments.rules.evidence import Decision
from assessments.rules.standard import Side

from .shape import Asks, Kind, Put, Subject, Truth

FIRST, SECOND, BOTH, NEITHER, LEAVE = "first", "second", "both", "neither", "leave"
GATHERED = {FIRST: (True, False), SECOND: (False, True), BOTH: (True, True), NEITHER: (False, False)}


def ask(subject: Subject, chance: Random) -> Put | None:
    """The plant and another one of the pair. Whether that is of the same side is tossed for, so that "both" and
    "neither" are right as often as they should be."""
    same = chance.random() < 0.5
    wanted = [each for each in subject.partners if (each.side is subject.plant.side) is same]
    partner = next(iter([*wanted, *subject.partners]), None)
    return Put(subject.about, partner) if partner else None


def decisions(chosen: str) -> tuple[Decision | None, ...]:
    """What is said of either plant."""
    if chosen == LEAVE:
        return Decision.LEAVE, Decision.LEAVE
    taken = GATHERED.get(chosen)
    if taken is None:
        return None, None
    return tuple(Decision.GATHER if each else Decision.REFUSE for each in taken)


def is_right(_asks: Asks, chosen: str, truth: Truth) -> bool | None:
    """Whether just the edible plants would be gathered."""
    if len(truth.sides) != 2 or None in truth.sides:
        return None
    return GATHERED.get(chosen) == tuple(side is Side.EDIBLE for side in truth.sides)


KIND = Kind(
    key="side_by_side",
    counts=False,
    asks_name=False,
    asks_decision=True,
    ask=ask,
    decisions=decisions,
    is_right=is_right,
)
