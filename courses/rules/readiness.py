"""Whether a person is ready to lead, requirement by requirement, each with its reason and date. Pure.

Written in plain loops: a large school asks for ten thousand people at once.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from courses.rules.certification import State

from .requirements import (
    BY_DEFAULT,
    LAPSES_SOON_DAYS,
    Asked,
    Check,
    Held,
    LeaderFacts,
    Leave,
    Occasion,
    Proof,
    Reason,
    Requirement,
)

NOT_CURRENT = {
    State.EXPIRED: Reason.LAPSED,
    State.SUSPENDED: Reason.SUSPENDED,
    State.WITHDRAWN: Reason.WITHDRAWN,
}


@dataclass(frozen=True)
class Readiness:
    """One person against every requirement."""

    checks: tuple[Check, ...]

    @property
    def ready(self) -> bool:
        return all(check.met for check in self.checks)

    @property
    def missing(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if not check.met)

    @property
    def lapsing(self) -> tuple[Check, ...]:
        """What is met today and lapses soon."""
        return tuple(check for check in self.checks if check.reason is Reason.LAPSES_SOON)


def readiness(facts: LeaderFacts, occasion: Occasion | date, asked: Sequence[Asked] = BY_DEFAULT) -> Readiness:
    """Whether somebody may lead on an occasion, or on a day anywhere, requirement by requirement in their order.

    An induction is asked only where there is a site, safeguarding only where it is set for all or children come.
    """
    there = occasion if isinstance(occasion, Occasion) else Occasion(occasion)
    return Readiness(tuple([CHECKS[each.requirement](facts, each, there) for each in asked if _is_asked(each, there)]))


def _is_asked(asked: Asked, occasion: Occasion) -> bool:
    if asked.with_children and not occasion.children_come:
        return False
    return asked.requirement is not Requirement.INDUCTION or occasion.site is not None


def _certificate(facts: LeaderFacts, asked: Asked, occasion: Occasion) -> Check:
    """The current one that lasts longest, or else the one that lasted longest."""
    best: Held | None = None
    for each in facts.certificates:
        if each.standard != asked.standard if asked.standard else not each.leads:
            continue
        if best is None or _rank(each) > _rank(best):
            best = each
    if best is None:
        return Check(Requirement.CERTIFICATE, False, Reason.NEVER_SHOWN)
    is_current = best.state is State.CURRENT
    reason = _met_until(best.valid_until, occasion.day) if is_current else NOT_CURRENT[best.state]
    return Check(Requirement.CERTIFICATE, is_current, reason, best.valid_until, best.pairs, best.pairs_named)


def _rank(held: Held) -> tuple[bool, date, int]:
    return held.state is State.CURRENT, held.valid_until, held.pairs


def _shown(requirement: Requirement, proofs: Iterable[Proof], day: date) -> Check:
    """Met until the last day of the proof that lasts longest; lapsed on the last day of the latest of the others."""
    until: date | None = None
    past: date | None = None
    for first, last in proofs:
        if last is None:
            if first <= day:
                return Check(requirement, True, Reason.MET)
        elif last < day:
            past = last if past is None or last > past else past
        elif first <= day:
            until = last if until is None or last > until else until
    if until is not None:
        return Check(requirement, True, _met_until(until, day), until)
    return Check(requirement, False, Reason.LAPSED if past else Reason.NEVER_SHOWN, past)


def walks_counting(walked_on: Iterable[date], asked: Asked, day: date) -> list[date]:
    """The walks that count on a day, in order: those before it that are not too long ago."""
    earliest = day - timedelta(days=asked.within_days) if asked.within_days is not None else date.min
    return sorted([each for each in walked_on if earliest <= each < day])


def _walks(walked_on: Iterable[date], asked: Asked, day: date) -> Check:
    """Walks are met until the one that still makes up the number is too long ago."""
    within = timedelta(days=asked.within_days) if asked.within_days is not None else None
    counting = walks_counting(walked_on, asked, day)
    done, until = len(counting), None
    if done < asked.number:
        reason = Reason.TOO_FEW
    else:
        last = counting[-asked.number] + within if within and asked.number else date.max
        reason = _met_until(last, day)
        until = last if reason is Reason.LAPSES_SOON else None
    return Check(asked.requirement, done >= asked.number, reason, until, done, asked.number, asked.within_days)


def _met_until(until: date, day: date) -> Reason:
    return Reason.LAPSES_SOON if (until - day).days <= LAPSES_SOON_DAYS else Reason.MET


def _covers(leave: Leave, occasion: Occasion) -> bool:
    in_region = not leave.region or not occasion.region or leave.region == occasion.region
    return in_region and (not leave.months or occasion.day.month in leave.months)


CHECKS: dict[Requirement, Callable[[LeaderFacts, Asked, Occasion], Check]] = {
    Requirement.CERTIFICATE: _certificate,
    Requirement.FIRST_AID: lambda facts, asked, there: _shown(asked.requirement, facts.first_aid, there.day),
    Requirement.INSURANCE: lambda facts, asked, there: _shown(asked.requirement, facts.insurance, there.day),
    Requirement.CONDUCT: lambda facts, asked, there: _shown(asked.requirement, facts.conduct, there.day),
    Requirement.SAFEGUARDING: lambda facts, asked, there: _shown(asked.requirement, facts.safeguarding, there.day),
    Requirement.INDUCTION: lambda facts, asked, there: _shown(
        asked.requirement, facts.induction.get(there.site or 0, ()), there.day
    ),
    Requirement.LEAVE_TO_LEAD: lambda facts, asked, there: _shown(
        asked.requirement, (each.proof for each in facts.leaves if _covers(each, there)), there.day
    ),
    Requirement.ASSISTED_WALKS: lambda facts, asked, there: _walks(facts.assisted_on, asked, there.day),
    Requirement.OBSERVED_WALK: lambda facts, asked, there: _walks(facts.observed_on, asked, there.day),
}
"""How each requirement is looked at."""
