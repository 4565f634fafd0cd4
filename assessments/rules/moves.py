"""What one paper moved: each of its pairs before it and after it, and which answers did it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from .evidence import AnswerFacts
from .ledger import Treatment
from .names import NameBook
from .pairs import PairVerdict
from .standard import Side, StandardFacts, WindowFacts
from .standing import Standing, standing
from .treatment import Effect


class Turn(StrEnum):
    """Which way a pair went with a paper."""

    PASSED = "passed"
    LOST = "lost"
    SET_BACK = "set_back"
    CLOSER = "closer"
    FURTHER = "further"
    SAME = "same"


@dataclass(frozen=True, slots=True)
class Move:
    """One pair and what a paper did to it.

    ``clean``, ``missed``, ``neutral`` count its answers to the dangerous plant, ``recognised`` and
    ``not_recognised`` those to the edible one; ``aside`` those that do not count. ``*_before`` and ``*_after``:
    specimens still needed. ``missed_at``: the positions of the questions in which the dangerous plant was gathered.
    """

    pair: str
    turn: Turn
    clean: int
    missed: int
    neutral: int
    recognised: int
    not_recognised: int
    aside: int
    dangerous_before: int
    dangerous_after: int
    edible_before: int
    edible_after: int
    missed_at: tuple[int, ...]


def moves(
    standard: StandardFacts,
    answers: Sequence[AnswerFacts],
    windows: Sequence[WindowFacts],
    names: NameBook,
    opened_at: datetime,
    pairs: Sequence[str],
) -> tuple[Move, ...]:
    """What the paper that was opened at this moment moved, pair by pair, in the order of the standard.

    ``answers``: everything the person ever answered. What came later is left out on both sides.
    """
    until = [answer for answer in answers if answer.opened_at <= opened_at]
    before = standing(standard, [each for each in until if each.opened_at < opened_at], windows, names)
    after = standing(standard, until, windows, names)
    return tuple(_move(before.pair(each.key), each, after, opened_at) for each in after.pairs if each.key in set(pairs))


def _move(before: PairVerdict, after: PairVerdict, then: Standing, opened_at: datetime) -> Move:
    mine = {
        side: [t for t in then.ledger(species, side).treatments if t.answer.opened_at == opened_at]
        for side, species in ((Side.DANGEROUS, after.pair.mistaken), (Side.EDIBLE, after.pair.gathered))
    }
    dangerous, edible = mine[Side.DANGEROUS], mine[Side.EDIBLE]
    missed = [t for t in dangerous if t.effect is Effect.MISS]
    needs = [each.nearest.still_needed for each in (before.dangerous, after.dangerous, before.edible, after.edible)]
    return Move(
        pair=after.key,
        turn=_turn(before, after, bool(missed), needs[1] + needs[3] - needs[0] - needs[2]),
        clean=_count(dangerous, Effect.CLEAN),
        missed=len(missed),
        neutral=_count(dangerous, Effect.NEUTRAL),
        recognised=_count(edible, Effect.CLEAN),
        not_recognised=_count(edible, Effect.MISS),
        aside=_count([*dangerous, *edible], Effect.NONE),
        dangerous_before=needs[0],
        dangerous_after=needs[1],
        edible_before=needs[2],
        edible_after=needs[3],
        missed_at=tuple(sorted({t.answer.position for t in missed})),
    )


def _count(treatments: Sequence[Treatment], effect: Effect) -> int:
    return sum(treatment.effect is effect for treatment in treatments)


def _turn(before: PairVerdict, after: PairVerdict, missed: bool, more_needed: int) -> Turn:
    if before.passed != after.passed:
        return Turn.PASSED if after.passed else Turn.LOST
    if missed:
        return Turn.SET_BACK
    if more_needed == 0:
        return Turn.SAME
    return Turn.FURTHER if more_needed > 0 else Turn.CLOSER
