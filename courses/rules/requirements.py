"""What is asked of somebody who leads walks, and what is known of them. Pure.

What exists by the ten thousand in a large school is named tuples, which are made several times as fast as records.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from courses.rules.certification import State

ASSISTED_WALKS_NEEDED = 3  # common practice, no source: at least three in two seasons
ASSISTED_WITHIN_DAYS = 730
LAPSES_SOON_DAYS = 60
DAYS_IN_A_MONTH = 30.4375


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


class Proof(NamedTuple):
    """Something that was shown: valid from a day until a day (None: without end)."""

    valid_from: date
    valid_until: date | None


class Held(NamedTuple):
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


class LeaderFacts(NamedTuple):
    """What is known of one person who might lead. `induction`: by the id of a site."""

    certificates: tuple[Held, ...] = ()
    first_aid: Collection[Proof] = ()
    insurance: Collection[Proof] = ()
    assisted_on: Collection[date] = ()
    observed_on: Collection[date] = ()
    conduct: Collection[Proof] = ()
    safeguarding: Collection[Proof] = ()
    induction: Mapping[int, Collection[Proof]] = MappingProxyType({})
    leaves: Collection[Leave] = ()


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


BY_DEFAULT = (
    Asked(Requirement.CERTIFICATE),
    Asked(Requirement.FIRST_AID),
    Asked(Requirement.INSURANCE),
    Asked(Requirement.ASSISTED_WALKS, ASSISTED_WALKS_NEEDED, ASSISTED_WITHIN_DAYS),
)
"""What is asked until the school says otherwise."""


class Check(NamedTuple):
    """One requirement on one day: met or not, why, the date that goes with it, and figures where they help: walks of
    those asked, pairs that a certificate still stands for of those that it names."""

    requirement: Requirement
    met: bool
    reason: Reason
    on: date | None = None
    done: int = 0
    needed: int = 0
    within_days: int | None = None
