"""What a standard asks for, as values: the bars of both sides, the pairs, the windows, the live run.

The numbers of the two default standards are choices of the school, argued in its account of the decision
rule; pairs, stages and species come from the database.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from species.rules.vocabulary import Danger

Number = Fraction | Decimal | int | float | str
"""A number that is to be taken as it is written: 0.2 is one fifth, not the nearest binary fraction."""


def exact(value: Number) -> Fraction:
    """The value as an exact fraction; a float is read through its shortest decimal form."""
    return Fraction(str(value)) if isinstance(value, float) else Fraction(value)


class Side(StrEnum):
    """The two sides of a pair: the species that is mistaken, and the one that is gathered."""

    DANGEROUS = "dangerous"
    EDIBLE = "edible"


@dataclass(frozen=True, slots=True)
class SideBar:
    """The bar of one side: the share tolerated (``limit``), the ratio c, and the chance of a false pass.

    The claim tested is "a share of ``limit`` or more". Raises ValueError for numbers that make no test.
    """

    limit: Fraction
    ratio: Fraction
    alpha: Fraction

    def __post_init__(self) -> None:
        if not 0 < self.limit < 1:
            raise ValueError(f"The limit must lie between 0 and 1, not {self.limit}.")
        if not self.ratio > 1:
            raise ValueError(f"The ratio must be above 1, not {self.ratio}.")
        if not 0 < self.alpha < 1:
            raise ValueError(f"Alpha must lie between 0 and 1, not {self.alpha}.")

    @classmethod
    def of(cls, limit: Number, ratio: Number, alpha: Number) -> "SideBar":
        """A bar from numbers as they are written, for instance ``SideBar.of("0.20", 10, "0.10")``."""
        return cls(exact(limit), exact(ratio), exact(alpha))

    @property
    def expected(self) -> Fraction:
        """p1 = limit / c: the share for which the test is sharpest."""
        return self.limit / self.ratio


@dataclass(frozen=True, slots=True)
class PairFacts:
    """One lookalike pair as a standard asks for it.

    ``required_stages``: stages of the mistaken species that must be shown. ``edible_stages``: stages of the
    gathered species in which a specimen enters its ledger; None means every stage, an empty tuple none.
    """

    key: str
    gathered: str
    mistaken: str
    danger: Danger = Danger.DANGEROUS
    required_stages: tuple[str, ...] = ()
    edible_stages: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class WindowFacts:
    """One window of evidence: from its opening until the period ends. ``number`` starts at 1.

    A specimen enters when ``opened_at <= shown_at < closes_at``.
    """

    number: int
    opened_at: datetime
    closes_at: datetime

    def holds(self, moment: datetime) -> bool:
        """Whether a specimen shown at this moment enters the window."""
        return self.opened_at <= moment < self.closes_at


@dataclass(frozen=True, slots=True)
class StandardFacts:
    """One version of a standard.

    ``live_not_required`` names the dangerous species that need no live run, each with its reason.
    ``taken_for`` adds, per dangerous species, edible species it is mistaken for in dangerous pairs outside
    this standard: naming a plant as one of those is naming it as an edible species all the same.
    Only pairs whose danger is *dangerous* decide anything.
    """

    key: str
    name: str
    version: int
    dangerous: SideBar
    edible: SideBar
    window_weights: tuple[Fraction, ...]
    live_run: int
    live_occasions: int
    valid_months: int
    period_months: int = 24
    stage_clean: int = 4
    pairs: tuple[PairFacts, ...] = ()
    recognise_only: frozenset[str] = frozenset()
    live_not_required: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    taken_for: Mapping[str, frozenset[str]] = field(default_factory=lambda: MappingProxyType({}))
    drawings_count: bool = False

    def __post_init__(self) -> None:
        if not self.window_weights or min(self.window_weights) <= 0:
            raise ValueError("A standard needs at least one window, and every weight above 0.")
        if sum(self.window_weights) > 1:
            raise ValueError("The weights of the windows may not add up to more than 1.")

    @property
    def dangerous_pairs(self) -> tuple[PairFacts, ...]:
        """The pairs that decide, in the order of the standard."""
        return tuple(pair for pair in self.pairs if pair.danger == Danger.DANGEROUS)

    def species(self, side: Side) -> tuple[str, ...]:
        """The species of one side, each once, in the order of the pairs."""
        chosen = (p.mistaken if side is Side.DANGEROUS else p.gathered for p in self.dangerous_pairs)
        return tuple(dict.fromkeys(chosen))

    def pairs_of(self, species: str) -> tuple[PairFacts, ...]:
        """The dangerous pairs that a species belongs to, on either side."""
        return tuple(p for p in self.dangerous_pairs if species in (p.gathered, p.mistaken))

    def taken_as(self, dangerous: str) -> frozenset[str]:
        """The edible species that a dangerous one is taken for."""
        here = {p.gathered for p in self.dangerous_pairs if p.mistaken == dangerous}
        return frozenset(here) | self.taken_for.get(dangerous, frozenset())

    def bar(self, side: Side) -> SideBar:
        """The bar of a side."""
        return self.dangerous if side is Side.DANGEROUS else self.edible


@dataclass(frozen=True, slots=True)
class Bars:
    """The numbers of a default standard, without its pairs."""

    dangerous: SideBar
    edible: SideBar
    window_weights: tuple[Fraction, ...]
    live_run: int
    live_occasions: int
    stage_clean: int
    valid_months: int
    period_months: int


WEIGHTS = (Fraction(8, 10), Fraction(1, 10), Fraction(1, 10))

PARTICIPANT = Bars(
    dangerous=SideBar.of("0.20", 10, "0.10"),
    edible=SideBar.of("0.50", 5, "0.10"),
    window_weights=WEIGHTS,
    live_run=3,
    live_occasions=2,
    stage_clean=4,
    valid_months=24,
    period_months=24,
)
WALK_LEADER = Bars(
    dangerous=SideBar.of("0.10", 10, "0.05"),
    edible=SideBar.of("0.30", 5, "0.05"),
    window_weights=WEIGHTS,
    live_run=8,
    live_occasions=3,
    stage_clean=4,
    valid_months=12,
    period_months=24,
)
