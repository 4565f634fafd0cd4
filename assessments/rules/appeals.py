"""Appeals: "this question is wrong". How far one is, who may decide it, what may be decided, what changes by it.

An appeal speaks about a whole specimen. Upheld, the specimen counts for nobody and in neither direction, or it is
named anew; evidence itself is never touched, and appealing weighs nothing in anybody's standing.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from .figures import PairFigures, StandingFigures


class Ground(StrEnum):
    """What is held to be wrong with a question."""

    WRONG_PLANT = "wrong_plant"
    POOR_PHOTO = "poor_photo"
    TWO_RIGHT = "two_right"
    OTHER = "other"


class Step(StrEnum):
    """What happens to an appeal."""

    RECEIVED = "received"
    TAKEN_UP = "taken_up"
    NAMES_ASKED = "names_asked"
    VOIDED = "voided"
    NAMED_ANEW = "named_anew"
    DISMISSED = "dismissed"
    WITHDRAWN = "withdrawn"


OUTCOMES = (Step.VOIDED, Step.NAMED_ANEW, Step.DISMISSED)
"""The steps that decide."""
UPHELD = frozenset({Step.VOIDED, Step.NAMED_ANEW})
ENDS = frozenset({*OUTCOMES, Step.WITHDRAWN})
"""The steps after which nothing follows."""


class State(StrEnum):
    """How far an appeal is."""

    RECEIVED = "received"
    LOOKED_AT = "looked_at"
    DECIDED = "decided"
    WITHDRAWN = "withdrawn"


def state_of(steps: Collection[str]) -> State:
    """How far an appeal is, from the kinds of its steps in any order."""
    if Step.WITHDRAWN in steps:
        return State.WITHDRAWN
    if any(outcome in steps for outcome in OUTCOMES):
        return State.DECIDED
    return State.LOOKED_AT if {Step.TAKEN_UP, Step.NAMES_ASKED} & set(steps) else State.RECEIVED


def last_day(begins: date, days: int) -> date:
    """The last day of a time of so many days, itself included."""
    return begins + timedelta(days=days)


class Bar(StrEnum):
    """Why somebody may not decide an appeal."""

    APPEALED = "appealed"
    MAY_NOT_DECIDE = "may_not_decide"
    SET_THE_TEST = "set_the_test"
    NAMED_THE_PLANT = "named_the_plant"
    ASSESSED_THE_PERSON = "assessed_the_person"


NEVER_EXCUSED = frozenset({Bar.APPEALED, Bar.MAY_NOT_DECIDE})


@dataclass(frozen=True, slots=True)
class Eligibility:
    """Whether somebody may decide: not if there are `bars`.

    `exception` holds the bars that are set aside because the school has nobody else who decides appeals at all;
    it is recorded with a reason.
    """

    bars: tuple[Bar, ...] = ()
    exception: tuple[Bar, ...] = ()

    @property
    def may_decide(self) -> bool:
        return not self.bars


def eligibility(bars: Collection[Bar], *, is_only_one: bool) -> Eligibility:
    """Whether somebody with these bars may decide. Nobody ever decides their own appeal."""
    found = tuple(bar for bar in Bar if bar in bars)
    if is_only_one and not NEVER_EXCUSED & set(found):
        return Eligibility((), found)
    return Eligibility(found)


@dataclass(frozen=True, slots=True)
class NewNames:
    """What became of asking for two new names.

    `people` gave one; `agreed`: two of them, and the specimen as a whole, agree; `is_other`: on another plant
    than the one that the answer was held against.
    """

    people: int = 0
    agreed: bool = False
    is_other: bool = False


def outcomes_open(new_names: NewNames | None) -> tuple[Step, ...]:
    """What may be decided now; `new_names` is None while nobody was asked to name the plant anew.

    Voiding is always open. Once new names were asked for, the rest waits until two people agree.
    """
    if new_names is None:
        return (Step.VOIDED, Step.DISMISSED)
    if not new_names.agreed:
        return (Step.VOIDED,)
    return (Step.NAMED_ANEW, Step.VOIDED) if new_names.is_other else (Step.VOIDED, Step.DISMISSED)


@dataclass(frozen=True, slots=True)
class PairChange:
    """One pair of one person before and after."""

    before: PairFigures
    after: PairFigures


def changes(before: StandingFigures, after: StandingFigures) -> tuple[PairChange, ...]:
    """The pairs of one person under one standard that are no longer what they were, in the order of the standard."""
    now = {pair.key: pair for pair in after.pairs}
    return tuple(PairChange(pair, now[pair.key]) for pair in before.pairs if now[pair.key] != pair)
