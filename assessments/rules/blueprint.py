"""What a paper shall hold, and the photos it may be drawn from.

Candidates are those that the person may be shown at all: confirmed, for assessment, not retired, and no
specimen of their individual ever seen by the person. Nothing here knows how easy a photo proved: papers drawn
or ordered by difficulty would make the evidence worthless.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import IntEnum
from fractions import Fraction

from .standard import PairFacts, Side
from .treatment import MOST_FROM_ONE_PLACE_AND_DAY

Cell = tuple[str, str, date]
"""A species at a locality on a day."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One photo (or set of photos shown together) of one specimen.

    ``side`` is None for a plant that is on neither side of the paper's pairs. ``uses``: how often it has been
    set so far, to anybody.
    """

    key: str
    individual: str
    species: str
    stage: str
    locality: str
    day: date
    side: Side | None
    uses: int = 0

    @property
    def cell(self) -> Cell:
        return self.species, self.locality, self.day


class Importance(IntEnum):
    """What it weighs to fall one question short of a quota, when something has to give way."""

    DANGEROUS = 1000
    STAGE = 100
    EDIBLE = 50
    REST = 10


@dataclass(frozen=True, slots=True)
class Quota:
    """At least so many questions of these species, these stages, this side; None leaves it open."""

    name: str
    at_least: int
    species: frozenset[str] | None = None
    stages: frozenset[str] | None = None
    side: Side | None = None
    importance: Importance = Importance.REST

    def takes(self, candidate: Candidate) -> bool:
        """Whether a photo counts for this quota."""
        return (
            (self.species is None or candidate.species in self.species)
            and (self.stages is None or candidate.stage in self.stages)
            and (self.side is None or candidate.side is self.side)
        )


DANGEROUS_SHARE = (Fraction(2, 5), Fraction(3, 5))
"""The share of dangerous plants in a paper lies between these; where, is drawn for each paper."""


@dataclass(frozen=True, slots=True)
class Blueprint:
    """A paper to be drawn. ``per_species`` and ``per_place_and_day`` cap single species; None lifts a cap."""

    length: int
    quotas: tuple[Quota, ...] = ()
    dangerous_share: tuple[Fraction, Fraction] | None = DANGEROUS_SHARE
    per_species: int | None = None
    per_place_and_day: int | None = MOST_FROM_ONE_PLACE_AND_DAY

    def __post_init__(self) -> None:
        if self.length < 1:
            raise ValueError("A paper has at least one question.")
        names = [quota.name for quota in self.quotas]
        if len(set(names)) < len(names):
            raise ValueError("Every quota needs a name of its own.")

    @property
    def dangerous_bounds(self) -> tuple[int, int]:
        """Fewest and most dangerous plants; rounded outwards where no whole number lies between."""
        if self.dangerous_share is None:
            return 0, self.length
        low, high = (share * self.length for share in self.dangerous_share)
        least, most = -(-low.numerator // low.denominator), high.numerator // high.denominator
        return (least, most) if least <= most else (most, least)


def pair_quotas(pairs: Iterable[PairFacts], dangerous: int, edible: int) -> tuple[Quota, ...]:
    """So many of the dangerous and of the edible species of each pair.

    One dangerous species serves all its pairs, so each species gets one quota, named after it.
    """
    asked = list(pairs)
    quotas = [
        Quota(species, dangerous, frozenset({species}), importance=Importance.DANGEROUS)
        for species in dict.fromkeys(pair.mistaken for pair in asked)
    ]
    quotas += [
        Quota(species, edible, frozenset({species}), importance=Importance.EDIBLE)
        for species in dict.fromkeys(pair.gathered for pair in asked)
    ]
    return tuple(quota for quota in quotas if quota.at_least > 0)


def stage_quotas(wanted: Mapping[tuple[str, str], int]) -> tuple[Quota, ...]:
    """So many of a species in a stage, for each (species, stage)."""
    return tuple(
        Quota(
            f"{species}, {stage}",
            count,
            frozenset({species}),
            frozenset({stage}),
            importance=Importance.STAGE,
        )
        for (species, stage), count in wanted.items()
        if count > 0
    )
