"""Whether a person is ready to lead, requirement by requirement, each with its reason and date. Pure."""

from dataclasses import dataclass
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
    """A certificate at the leader standard, as it stands on the day."""

    state: State
    valid_until: date


@dataclass(frozen=True)
class LeaderFacts:
    """What is known of one person who might lead."""

    certificates: tuple[Held, ...] = ()
    first_aid: tuple[Proof, ...] = ()
    insurance: tuple[Proof, ...] = ()
    assisted_on: tuple[date, ...] = ()


@dataclass(frozen=True)
class Check:
    """One requirement on one day: met or not, why, the date that goes with it, and figures where they help."""

    requirement: Requirement
    met: bool
    reason: Reason
    on: date | None = None
    done: int = 0
    needed: int = 0


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


def readiness(facts: LeaderFacts, day: date) -> Readiness:
    """Whether somebody may lead on this day."""
    return Readiness(
        (
            _certificate(facts.certificates, day),
            _shown(Requirement.FIRST_AID, facts.first_aid, day),
            _shown(Requirement.INSURANCE, facts.insurance, day),
            _assisted(facts.assisted_on, day),
        )
    )


def _certificate(held: tuple[Held, ...], day: date) -> Check:
    if not held:
        return Check(Requirement.CERTIFICATE, False, Reason.NEVER_SHOWN)
    current = [each for each in held if each.state is State.CURRENT]
    if current:
        until = max(each.valid_until for each in current)
        return Check(Requirement.CERTIFICATE, True, _met_until(until, day), until)
    latest = max(held, key=lambda each: each.valid_until)
    reasons = {
        State.EXPIRED: Reason.LAPSED,
        State.SUSPENDED: Reason.SUSPENDED,
        State.WITHDRAWN: Reason.WITHDRAWN,
    }
    return Check(Requirement.CERTIFICATE, False, reasons[latest.state], latest.valid_until)


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


def _assisted(assisted_on: tuple[date, ...], day: date) -> Check:
    earliest = day - timedelta(days=ASSISTED_WITHIN_DAYS)
    done = sum(1 for each in assisted_on if earliest <= each < day)
    met = done >= ASSISTED_WALKS_NEEDED
    return Check(
        Requirement.ASSISTED_WALKS, met, Reason.MET if met else Reason.TOO_FEW, done=done, needed=ASSISTED_WALKS_NEEDED
    )


def _met_until(until: date, day: date) -> Reason:
    return Reason.LAPSES_SOON if (until - day).days <= LAPSES_SOON_DAYS else Reason.MET
