"""The shortest way from what somebody has shown to being ready to lead: what to do, and on which days. Pure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from .readiness import Readiness, walks_counting
from .requirements import Asked, LeaderFacts, Reason, Requirement


class Move(StrEnum):
    """Something that brings somebody nearer."""

    PASS_PAIRS = "pass_pairs"
    APPLY = "apply"
    AWAIT_DECISION = "await_decision"
    SETTLE_DOUBT = "settle_doubt"
    SHOW = "show"
    WALK_THE_SITE = "walk_the_site"
    TAKE_PART = "take_part"
    GET_LEAVE = "get_leave"


@dataclass(frozen=True)
class Ahead:
    """What lies ahead of somebody.

    walks: the days of walks to come to which they could go, in order. pairs_left: dangerous pairs at the leader
    standard still to be passed, of `pairs` (None: there is no such standard). applied: whether they asked for the
    certificate and wait.
    """

    walks: tuple[date, ...] = ()
    pairs_left: int | None = None
    pairs: int = 0
    applied: bool = False


@dataclass(frozen=True)
class NextMove:
    """One move for one requirement: how many are lacking (of how many), and the soonest days that would do."""

    move: Move
    requirement: Requirement
    lacking: int = 0
    of: int = 0
    days: tuple[date, ...] = ()

    @property
    def is_long(self) -> bool:
        """Whether nobody can name a day on which this will be done."""
        if self.move is Move.TAKE_PART:
            return len(self.days) < self.lacking
        return self.move in (Move.PASS_PAIRS, Move.APPLY, Move.AWAIT_DECISION, Move.SETTLE_DOUBT)


@dataclass(frozen=True)
class Way:
    """All moves in the order in which they are made, and the first day on which somebody could be ready by them.

    None where a move takes as long as it takes: pairs to be passed, a decision of somebody else, walks not planned.
    """

    moves: tuple[NextMove, ...]
    ready_from: date | None


def way(found: Readiness, facts: LeaderFacts, asked: Sequence[Asked], ahead: Ahead, day: date) -> Way:
    """The shortest way for somebody who stands so on a day. Somebody who is ready has nothing before them."""
    as_asked = {each.requirement: each for each in asked}
    moves: list[NextMove] = []
    after = day
    for check in sorted(found.missing, key=lambda each: ORDER.index(each.requirement)):
        requirement = check.requirement
        if requirement is Requirement.CERTIFICATE:
            moves.append(_towards_a_certificate(check.reason, ahead))
        elif requirement in WALKED:
            walked = facts.assisted_on if requirement is Requirement.ASSISTED_WALKS else facts.observed_on
            coming = [each for each in ahead.walks if each >= after]
            lacking, days = walks_lacking(walked, as_asked[requirement], coming, day)
            moves.append(NextMove(Move.TAKE_PART, requirement, lacking, check.needed, days))
            after = days[-1] + timedelta(days=1) if days else after
        else:
            moves.append(NextMove(OTHERWISE.get(requirement, Move.SHOW), requirement))
    if any(each.is_long for each in moves):
        return Way(tuple(moves), None)
    return Way(tuple(moves), after)


def walks_lacking(
    walked: Iterable[date], asked: Asked, coming: Iterable[date], day: date
) -> tuple[int, tuple[date, ...]]:
    """How many walks are lacking, and the soonest days on which they could be taken.

    A walk counts from the day after it. What was walked long ago stops counting while one waits for the next, so
    more may be needed than are lacking today; where too few are planned the days are all that there are.
    """
    before, taken = list(walked), list[date]()

    def still_lacking() -> int:
        on = taken[-1] + timedelta(days=1) if taken else day
        return asked.number - len(walks_counting([*before, *taken], asked, on))

    for each in coming:
        if still_lacking() <= 0:
            break
        taken.append(each)
    return len(taken) + max(still_lacking(), 0), tuple(taken)


def _towards_a_certificate(reason: Reason, ahead: Ahead) -> NextMove:
    move = Move.PASS_PAIRS
    if reason is Reason.SUSPENDED:
        move = Move.SETTLE_DOUBT
    elif ahead.applied and not ahead.pairs_left:
        move = Move.AWAIT_DECISION
    elif ahead.pairs_left == 0:
        move = Move.APPLY
    return NextMove(move, Requirement.CERTIFICATE, ahead.pairs_left or 0, ahead.pairs)


WALKED = frozenset({Requirement.ASSISTED_WALKS, Requirement.OBSERVED_WALK})
OTHERWISE = {Requirement.INDUCTION: Move.WALK_THE_SITE, Requirement.LEAVE_TO_LEAD: Move.GET_LEAVE}
ORDER = (
    Requirement.CERTIFICATE,
    Requirement.FIRST_AID,
    Requirement.INSURANCE,
    Requirement.CONDUCT,
    Requirement.SAFEGUARDING,
    Requirement.INDUCTION,
    Requirement.ASSISTED_WALKS,
    Requirement.OBSERVED_WALK,
    Requirement.LEAVE_TO_LEAD,
)
"""The longest first, then what is shown, then the walks in the order of the steps to leading alone."""
