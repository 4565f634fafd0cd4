"""Whether a person is ready to lead, requirement by requirement, each with its reason and date. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from courses.rules.certification import State

ASSISTED_WALKS_NEEDED = 3  # common practice, no source: at least three in two seasons
ASSISTED_WITHIN_DAYS = 730
LAPSES_SOON_DAYS = 60


class Requirement(StrEnum):
    """What is asked of somebody who leads walks."""

    CERTIFICATE = "certificate"
    FIRST_AID = "first_aid"
    INSURANCE = "insurance"
    ASSISTED_WALKS = "assisted_walks"
    OBSERVED_WALK = "observed_walk"
    CONDUCT = "conduct"
    INDUCTION = "induction"
    SAFEGUARDING = "safeguarding"
    LEAVE_TO_LEAD = "leave_to_lead"


class Reason(StrEnum):
    """Why a requirement is met or not."""

    MET = "met"
    LAPSES_SOON = "lapses_soon"
    NEVER_SHOWN = "never_shown"
    LAPSED = "lapsed"
    SUSPENDED = "suspended"
    WITHDRAWN = "withdrawn"
    TOO_FEW = "too_few"


@dataclass(frozen=True)
class Proof:
    """Something that was shown: valid from a day until a day (None: without end)."""

    valid_from: date
    valid_until: date | None


@dataclass(frozen=True)
class Held:
    """A certificate as it stands on the day: at which standard (its key), whether that standard leads walks, and
    how many pairs it still stands for, of how many that it was issued over."""

    state: State
    valid_until: date
    standard: str = ""
    leads: bool = True
    pairs: int = 0
    pairs_named: int = 0


@dataclass(frozen=True)
class Leave:
    """Leave to lead alone: a proof for a region (empty: everywhere) and months (empty: all)."""

    proof: Proof
    region: str = ""
    months: frozenset[int] = frozenset()


@dataclass(frozen=True)
class LeaderFacts:
    """What is known of one person who might lead. `induction`: by the id of a site."""

    certificates: tuple[Held, ...] = ()
    first_aid: tuple[Proof, ...] = ()
    insurance: tuple[Proof, ...] = ()
    assisted_on: tuple[date, ...] = ()
    observed_on: tuple[date, ...] = ()
    conduct: tuple[Proof, ...] = ()
    safeguarding: tuple[Proof, ...] = ()
    induction: Mapping[int, tuple[Proof, ...]] = field(default_factory=dict)
    leaves: tuple[Leave, ...] = ()


@dataclass(frozen=True)
class Asked:
    """One requirement as the school has set it: how many walks, within how many days, and when it is asked at all.

    `standard`: the key of the standard at which a certificate is asked (empty: any that leads walks).
    """

    requirement: Requirement
    number: int = 1
    within_days: int | None = None
    with_children: bool = False
    standard: str = ""


@dataclass(frozen=True)
class Occasion:
    """What somebody is to lead: on which day, at which site (its id and region), with children or without."""

    day: date
    site: int | None = None
    region: str = ""
    children_come: bool = False


NOT_CURRENT = {
    State.EXPIRED: Reason.LAPSED,
    State.SUSPENDED: Reason.SUSPENDED,
    State.WITHDRAWN: Reason.WITHDRAWN,
}
BY_DEFAULT = (
    Asked(Requirement.CERTIFICATE),
    Asked(Requirement.FIRST_AID),
    Asked(Requirement.INSURANCE),
    Asked(Requirement.ASSISTED_WALKS, ASSISTED_WALKS_NEEDED, ASSISTED_WITHIN_DAYS),
)
"""What is asked until the school says otherwise."""


@dataclass(frozen=True)
class Check:
    """One requirement on one day: met or not, why, the date that goes with it, and figures where they help: walks of
    those asked, pairs that a certificate still stands for of those that it names."""

    requirement: Requirement
    met: bool
    reason: Reason
    on: date | None = None
    done: int = 0
    needed: int = 0
    within_days: int | None = None


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
    return Readiness(tuple(_check(facts, each, there) for each in asked if _is_asked(each, there)))


def _is_asked(asked: Asked, occasion: Occasion) -> bool:
    if asked.with_children and not occasion.children_come:
        return False
    return asked.requirement is not Requirement.INDUCTION or occasion.site is not None


def _check(facts: LeaderFacts, asked: Asked, occasion: Occasion) -> Check:
    requirement, day = asked.requirement, occasion.day
    if requirement is Requirement.CERTIFICATE:
        return _certificate(facts.certificates, asked, day)
    if requirement is Requirement.ASSISTED_WALKS:
        return _walks(requirement, facts.assisted_on, asked, day)
    if requirement is Requirement.OBSERVED_WALK:
        return _walks(requirement, facts.observed_on, asked, day)
    return _shown(requirement, _proofs(facts, requirement, occasion), day)


def _proofs(facts: LeaderFacts, requirement: Requirement, occasion: Occasion) -> tuple[Proof, ...]:
    if requirement is Requirement.INDUCTION:
        return facts.induction.get(occasion.site or 0, ())
    if requirement is Requirement.LEAVE_TO_LEAD:
        return tuple(each.proof for each in facts.leaves if _covers(each, occasion))
    plain = {
        Requirement.FIRST_AID: facts.first_aid,
        Requirement.INSURANCE: facts.insurance,
        Requirement.CONDUCT: facts.conduct,
        Requirement.SAFEGUARDING: facts.safeguarding,
    }
    return plain[requirement]


def _covers(leave: Leave, occasion: Occasion) -> bool:
    in_region = not leave.region or not occasion.region or leave.region == occasion.region
    return in_region and (not leave.months or occasion.day.month in leave.months)


def _certificate(known: tuple[Held, ...], asked: Asked, day: date) -> Check:
    held = [each for each in known if (each.standard == asked.standard if asked.standard else each.leads)]
    if not held:
        return Check(Requirement.CERTIFICATE, False, Reason.NEVER_SHOWN)
    current = [each for each in held if each.state is State.CURRENT]
    latest = max(current or held, key=lambda each: (each.valid_until, each.pairs))
    until = latest.valid_until
    reason = _met_until(until, day) if current else NOT_CURRENT[latest.state]
    return Check(Requirement.CERTIFICATE, bool(current), reason, until, latest.pairs, latest.pairs_named)


def _shown(requirement: Requirement, proofs: tuple[Proof, ...], day: date) -> Check:
    valid = [p for p in proofs if p.valid_from <= day and (p.valid_until is None or day <= p.valid_until)]
    if valid:
        if any(proof.valid_until is None for proof in valid):
            return Check(requirement, True, Reason.MET)
        until = max(proof.valid_until for proof in valid if proof.valid_until)
        return Check(requirement, True, _met_until(until, day), until)
    past = [p.valid_until for p in proofs if p.valid_until is not None and p.valid_until < day]
    if past:
        return Check(requirement, False, Reason.LAPSED, max(past))
    return Check(requirement, False, Reason.NEVER_SHOWN)


def _walks(requirement: Requirement, walked_on: tuple[date, ...], asked: Asked, day: date) -> Check:
    """Walks are met until the one that still makes up the number is too long ago."""
    before = sorted(each for each in walked_on if each < day)
    if asked.within_days is None:
        counting, until = before, None
    else:
        within = timedelta(days=asked.within_days)
        counting = [each for each in before if each >= day - within]
        until = counting[-asked.number] + within if len(counting) >= asked.number > 0 else None
    met = len(counting) >= asked.number
    reason = (_met_until(until, day) if until else Reason.MET) if met else Reason.TOO_FEW
    on = until if reason is Reason.LAPSES_SOON else None
    return Check(requirement, met, reason, on, len(counting), asked.number, asked.within_days)


def _met_until(until: date, day: date) -> Reason:
    return Reason.LAPSES_SOON if (until - day).days <= LAPSES_SOON_DAYS else Reason.MET
