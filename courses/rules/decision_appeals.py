"""Appeals against decisions about certificates: until when, who decides, and what follows. Pure.

ISO/IEC 17024, 9.8, by what we remember of it: an appeal is decided by nobody who was involved in the decision that
it speaks against, nobody is worse off for appealing, and the outcome is given with reasons. An appeal about a single
question is another matter (`assessments.rules.appeals`).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from assessments.rules.appeals import last_day

from .certification import DeciderFacts, State


class Decision(StrEnum):
    """The decisions that can be appealed: those that take something from somebody."""

    DECLINED = "declined"
    SUSPENDED = "suspended"
    NARROWED = "narrowed"
    WITHDRAWN = "withdrawn"


class Outcome(StrEnum):
    """How an appeal ends."""

    UPHELD = "upheld"
    DISMISSED = "dismissed"
    TAKEN_BACK = "taken_back"


class Bar(StrEnum):
    """Why somebody may not decide an appeal against a decision."""

    APPEALED = "appealed"
    MAY_NOT_DECIDE = "may_not_decide"
    DECIDED_IT = "decided_it"
    TIED = "tied"  # taught or assessed the person, or declared a conflict of interest


NEVER_EXCUSED = frozenset({Bar.APPEALED, Bar.MAY_NOT_DECIDE})


@dataclass(frozen=True)
class Eligibility:
    """Whether somebody may decide: not if there are `bars`. `exception`: what is set aside, and recorded."""

    bars: tuple[Bar, ...] = ()
    exception: tuple[Bar, ...] = ()

    @property
    def may_decide(self) -> bool:
        return not self.bars


def bars_of(facts: DeciderFacts, *, decided_it: bool) -> frozenset[Bar]:
    """What keeps a decider from deciding, before anything is set aside for want of somebody else."""
    found = {
        Bar.APPEALED: facts.is_holder,
        Bar.MAY_NOT_DECIDE: not facts.may_decide,
        Bar.DECIDED_IT: decided_it,
        Bar.TIED: facts.taught or facts.assessed or facts.has_conflict,
    }
    return frozenset(bar for bar, holds in found.items() if holds)


def eligibilities(bars: Mapping[int, frozenset[Bar]]) -> dict[int, Eligibility]:
    """Who of all deciders (by any key) may decide one appeal.

    Whoever has no part in it. Where there is nobody of that kind, those who are tied to the person but did not take
    the decision; where there is nobody of that kind either, whoever took it. Nobody ever decides their own appeal.
    """
    excused = _excused([each for each in bars.values() if not each & NEVER_EXCUSED])
    return {
        key: Eligibility((), _in_order(found)) if found <= excused else Eligibility(_in_order(found))
        for key, found in bars.items()
    }


def _excused(possible: list[frozenset[Bar]]) -> frozenset[Bar]:
    """What has to be set aside so that anybody can decide at all."""
    for step in (frozenset[Bar](), frozenset({Bar.TIED})):
        if any(found <= step for found in possible):
            return step
    return frozenset({Bar.TIED, Bar.DECIDED_IT})


def _in_order(bars: frozenset[Bar]) -> tuple[Bar, ...]:
    return tuple(bar for bar in Bar if bar in bars)


class Refusal(StrEnum):
    """Why a decision cannot be appealed."""

    TOO_LATE = "too_late"
    ALREADY = "already"


def appeal_refusal(decided_on: date, days: int, today: date, *, appealed: bool) -> Refusal | None:
    """Why a decision of a day cannot be appealed today, or None. `days`: how many the standard gives for it."""
    if appealed:
        return Refusal.ALREADY
    return Refusal.TOO_LATE if today > last_day(decided_on, days) else None


class Follows(StrEnum):
    """What an appeal that is upheld leads to, beside its record."""

    LIFTED = "lifted"  # the suspension ends
    APPLICATION = "application"  # the person's application stands before the organisers again
    NOTHING = "nothing"  # what was appealed is over already


def what_follows(decision: Decision, state: State | None) -> Follows:
    """What upholding does today. `state`: of the certificate, None for an application that was declined.

    What was narrowed or withdrawn stays so, as the status lists say it for ever: a new certificate takes its place
    if the evidence carries one, and that is decided like any other.
    """
    if decision is Decision.SUSPENDED:
        return Follows.LIFTED if state is State.SUSPENDED else Follows.NOTHING
    return Follows.APPLICATION
