"""What a standard asks of people before anybody sits: the chance to pass, the specimens, the bank, the weeks.

Every rate is a "what if": nobody has measured how often trained gatherers miss. Counts only; required stages enter
the least number of specimens, the live run is for the walks. The first window's weight is used throughout.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import ceil

from .evalue import clean_needed
from .planning import Load, TimeToPass, all_within, least_specimens, load, specimens_for_all, time_to_pass
from .standard import Side, SideBar, StandardFacts

HORIZON = 1500
"""Specimens of one species beyond which nothing is calculated: no school shows anybody so many."""
MISS_RATES = (0.0, 0.01, 0.02, 0.05, 0.1, 0.2)
REFUSAL_RATES = (0.0, 0.05, 0.1, 0.2, 0.3)
BANK_RATES = (0.0, 0.005, 0.01, 0.02, 0.03)
SENSIBLE_RATE = 0.01
"""The bank is laid out for somebody who misses one dangerous plant in a hundred; a choice."""
LOADS = ((0.0, 0.0), (0.01, 0.05), (0.02, 0.1))
"""Misses and refusals of the people whose questions are counted; a choice."""
HALF, MOST = 0.5, 0.9

timing = lru_cache(maxsize=512)(time_to_pass)


class TooManySpecimens(ValueError):
    """The numbers ask for more specimens of one species than are calculated; ``needed`` says how many."""

    def __init__(self, side: Side, needed: int) -> None:
        super().__init__(f"{needed} specimens of one species.")
        self.side, self.needed = side, needed


@dataclass(frozen=True, slots=True)
class RateLine:
    """One true rate: the chance to pass within each mark and ever (within the horizon), and after how many.

    ``mean`` is of those who pass; ``median`` and ``nine_in_ten`` of all people, None where not so many ever pass.
    """

    rate: float
    within: tuple[float, ...]
    ever: float
    mean: float | None
    median: int | None
    nine_in_ten: int | None


@dataclass(frozen=True, slots=True)
class SideOutlook:
    """One side. ``needed``: clean specimens with 0 to 3 misses; ``marks``: specimens in all with 0 to 2 misses."""

    side: Side
    bar: SideBar
    weight: Fraction
    species: tuple[str, ...]
    needed: tuple[int, ...]
    marks: tuple[int, ...]
    rates: tuple[RateLine, ...]

    def timing(self, rate: float) -> TimeToPass:
        """When somebody with this rate passes one ledger of this side."""
        return timing(rate, self.bar, self.weight, HORIZON)


@dataclass(frozen=True, slots=True)
class TogetherLine:
    """The chance to pass every dangerous species, within each mark, and ever; independent species."""

    rate: float
    within: tuple[float, ...]
    ever: float


@dataclass(frozen=True, slots=True)
class BankLine:
    """Unseen specimens of each dangerous species so that half, and nine in ten, of such people pass all."""

    rate: float
    half: int | None
    nine_in_ten: int | None


@dataclass(frozen=True, slots=True)
class LoadLine:
    """What one person answers in all, on average of those who pass; None where nobody does."""

    miss_rate: float
    refusal_rate: float
    load: Load | None


@dataclass(frozen=True, slots=True)
class Outlook:
    """A standard before anybody sits it. ``least``: specimens without a miss, per dangerous species."""

    facts: StandardFacts
    dangerous: SideOutlook
    edible: SideOutlook
    least: Mapping[str, int]
    together: tuple[TogetherLine, ...]
    bank: tuple[BankLine, ...]
    loads: tuple[LoadLine, ...]

    @property
    def wanted(self) -> int | None:
        """Specimens of each dangerous species in a sensible bank."""
        found = next(line.nine_in_ten for line in self.bank if line.rate == SENSIBLE_RATE)
        return None if found is None else max(found, *self.least.values(), 0)

    def from_bank(self, rate: float, held: Mapping[str, int]) -> float:
        """The chance to pass every dangerous species with what a bank holds; 0 where the least is not there."""
        if any(held.get(species, 0) < least for species, least in self.least.items()):
            return 0.0
        one = self.dangerous.timing(rate)
        return all_within(one.within(min(held[species], HORIZON)) for species in self.dangerous.species)


def outlook(facts: StandardFacts) -> Outlook:
    """The outlook of a standard. TooManySpecimens for numbers beyond the horizon, ValueError without a pair."""
    if not facts.dangerous_pairs:
        raise ValueError("A standard without a dangerous pair has no outlook.")
    dangerous, edible = _side(facts, Side.DANGEROUS, MISS_RATES), _side(facts, Side.EDIBLE, REFUSAL_RATES)
    count = len(dangerous.species)
    least = {species: _least(facts, species, dangerous) for species in dangerous.species}
    return Outlook(
        facts,
        dangerous,
        edible,
        least,
        tuple(
            TogetherLine(line.rate, tuple(one**count for one in line.within), line.ever**count)
            for line in dangerous.rates
        ),
        tuple(_bank_line(rate, dangerous) for rate in BANK_RATES),
        tuple(_load_line(misses, refusals, dangerous, edible, least) for misses, refusals in LOADS),
    )


def _side(facts: StandardFacts, side: Side, rates: tuple[float, ...]) -> SideOutlook:
    bar, weight = facts.bar(side), facts.window_weights[0]
    needed = tuple(clean_needed(misses, bar, weight) for misses in range(4))
    marks = tuple(clean + misses for misses, clean in enumerate(needed[:3]))
    if marks[-1] > HORIZON:
        raise TooManySpecimens(side, marks[-1])
    lines = sorted({*rates, float(bar.limit)})
    return SideOutlook(
        side, bar, weight, facts.species(side), needed, marks, tuple(_rate_line(x, bar, weight, marks) for x in lines)
    )


def _rate_line(rate: float, bar: SideBar, weight: Fraction, marks: tuple[int, ...]) -> RateLine:
    one = timing(rate, bar, weight, HORIZON)
    within = tuple(one.within(mark) for mark in marks)
    return RateLine(rate, within, one.probability, one.mean, one.quantile(HALF), one.quantile(MOST))


def _least(facts: StandardFacts, species: str, side: SideOutlook) -> int:
    return least_specimens(side.bar, side.weight, len(stages_asked(facts, species)), facts.stage_clean)


def stages_asked(facts: StandardFacts, species: str) -> tuple[str, ...]:
    """The stages of a dangerous species that any of its pairs requires, each once."""
    asked = (stage for pair in facts.dangerous_pairs if pair.mistaken == species for stage in pair.required_stages)
    return tuple(dict.fromkeys(asked))


def _bank_line(rate: float, side: SideOutlook) -> BankLine:
    one, count = side.timing(rate), len(side.species)
    return BankLine(rate, specimens_for_all(one, count, HALF), specimens_for_all(one, count, MOST))


def _load_line(
    misses: float, refusals: float, dangerous: SideOutlook, edible: SideOutlook, least: Mapping[str, int]
) -> LoadLine:
    of_d, of_e = dangerous.timing(misses).mean, edible.timing(refusals).mean
    if of_d is None or of_e is None:
        return LoadLine(misses, refusals, None)
    # a mean of exactly 13 may come out of floats as a hair more, which must not ask for a fourteenth
    shown_d, shown_e = ceil(of_d - 1e-9), ceil(of_e - 1e-9)
    return LoadLine(misses, refusals, load((max(shown_d, n) for n in least.values()), [shown_e] * len(edible.species)))


@dataclass(frozen=True, slots=True)
class OtherNumbers:
    """Numbers to try in the place of a standard's own; None keeps its own."""

    miss_limit: Fraction | None = None
    miss_ratio: Fraction | None = None
    miss_alpha: Fraction | None = None
    refusal_limit: Fraction | None = None
    refusal_ratio: Fraction | None = None
    refusal_alpha: Fraction | None = None

    def of(self, facts: StandardFacts) -> StandardFacts:
        """The standard with these numbers. ValueError where they make no test."""
        d, e = facts.dangerous, facts.edible
        return replace(
            facts,
            dangerous=SideBar(
                self.miss_limit or d.limit, self.miss_ratio or d.ratio, self.miss_alpha or d.alpha
            ),
            edible=SideBar(
                self.refusal_limit or e.limit, self.refusal_ratio or e.ratio, self.refusal_alpha or e.alpha
            ),
        )  # fmt: skip
