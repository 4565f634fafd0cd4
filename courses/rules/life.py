"""The life of a certificate after its issue: which step may follow, and why not. Pure: facts in, a reason out.

Nothing here moves the last day of validity; a renewal is another certificate, on evidence of its own.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from .certification import DeciderFacts, Obstacle, State, impartiality_of, state_of

RENEWAL_DAYS = 90  # how long before its last day the renewal of a certificate may be asked for


class Step(StrEnum):
    """What can happen to a certificate that was issued."""

    SUSPENDED = "suspended"
    LIFTED = "lifted"
    NARROWED = "narrowed"
    RENEWED = "renewed"
    WITHDRAWN = "withdrawn"


class StepRefusal(StrEnum):
    """Why a step is not taken."""

    IS_WITHDRAWN = "is_withdrawn"
    IS_EXPIRED = "is_expired"
    IS_SUSPENDED = "is_suspended"
    IS_NOT_SUSPENDED = "is_not_suspended"
    WAS_RENEWED = "was_renewed"
    TOO_EARLY_TO_RENEW = "too_early_to_renew"
    OTHER_STANDARD = "other_standard"
    NO_REASON = "no_reason"
    MAY_NOT = "may_not"
    IS_THE_HOLDER = "is_the_holder"
    HAD_A_HAND = "had_a_hand"
    LEAVES_NOTHING = "leaves_nothing"
    TAKES_NOTHING = "takes_nothing"
    ADDS_PAIRS = "adds_pairs"


FOR_ANY_DECIDER = frozenset({Step.SUSPENDED})
"""Steps that whoever decides at all may take at once, however they stand to the holder: they protect."""

POSSIBLE_IN: dict[Step, frozenset[State]] = {
    Step.SUSPENDED: frozenset({State.CURRENT}),
    Step.LIFTED: frozenset({State.SUSPENDED}),
    Step.NARROWED: frozenset({State.CURRENT, State.SUSPENDED}),
    Step.RENEWED: frozenset({State.CURRENT, State.EXPIRED}),
    Step.WITHDRAWN: frozenset({State.CURRENT, State.SUSPENDED, State.EXPIRED}),
}

IN_THE_WAY = {
    State.WITHDRAWN: StepRefusal.IS_WITHDRAWN,
    State.EXPIRED: StepRefusal.IS_EXPIRED,
    State.SUSPENDED: StepRefusal.IS_SUSPENDED,
    State.CURRENT: StepRefusal.IS_NOT_SUSPENDED,
}


@dataclass(frozen=True)
class Happened:
    """One step of the past. `keeps`: the keys of the pairs that a narrowing leaves."""

    step: str
    keeps: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Life:
    """A certificate on a day: its state, the pairs that it still stands for, and whether another took its place."""

    state: State
    pairs: frozenset[str]
    valid_until: date
    was_renewed: bool


def life_of(valid_from: date, valid_until: date, named: Collection[str], past: Iterable[Happened], today: date) -> Life:
    """Where a certificate stands on a day. `named`: the keys of the pairs it was issued over; `past`: in order."""
    steps = tuple(past)
    left = frozenset(named)
    for each in steps:
        if each.step == Step.NARROWED:
            left &= each.keeps
    state = state_of(valid_from, valid_until, tuple(each.step for each in steps), today)
    return Life(state, left, valid_until, any(each.step == Step.RENEWED for each in steps))


def step_refusal(life: Life, step: Step, keeps: Collection[str] = ()) -> StepRefusal | None:
    """Why this step cannot follow, or None. `keeps` matters to a narrowing alone: the pairs that it would leave."""
    if life.state not in POSSIBLE_IN[step]:
        return IN_THE_WAY[life.state]
    if step is Step.NARROWED:
        return _narrowing(life.pairs, frozenset(keeps))
    return None


def who_refusal(by: DeciderFacts, step: Step) -> StepRefusal | None:
    """Why somebody may not take this step, or None: it asks as much of them as deciding on an application does.

    Suspending alone is open to every decider but the holder.
    """
    bars = impartiality_of(by).bars
    if Obstacle.DECIDER_IS_THE_HOLDER in bars:
        return StepRefusal.IS_THE_HOLDER
    if Obstacle.DECIDER_MAY_NOT_DECIDE in bars:
        return StepRefusal.MAY_NOT
    return StepRefusal.HAD_A_HAND if bars and step not in FOR_ANY_DECIDER else None


def _narrowing(left: frozenset[str], keeps: frozenset[str]) -> StepRefusal | None:
    if not keeps:
        return StepRefusal.LEAVES_NOTHING
    if keeps - left:
        return StepRefusal.ADDS_PAIRS
    return StepRefusal.TAKES_NOTHING if keeps == left else None


def renewal_refusal(life: Life, today: date, *, same_standard: bool) -> StepRefusal | None:
    """Why the renewal of a certificate cannot be asked for on a day, or None."""
    if life.was_renewed:
        return StepRefusal.WAS_RENEWED
    if not same_standard:
        return StepRefusal.OTHER_STANDARD
    refused = step_refusal(life, Step.RENEWED)
    if refused is None and today < life.valid_until - timedelta(days=RENEWAL_DAYS):
        return StepRefusal.TOO_EARLY_TO_RENEW
    return refused
