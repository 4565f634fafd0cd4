"""What it takes to pass, before anybody starts: how many specimens, with what chance, and how big a bank.

State after n specimens: how many misses, among those still being tested. Per specimen somebody misses with
the true share x: A_n(k) = (1-x) A_{n-1}(k) + x A_{n-1}(k-1). Whoever has n - k >= clean_needed(k) leaves as
passed; f(n) is the share that leaves at n. Exact up to rounding; every true share is a "what if".
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

import numpy as np
from numpy.typing import NDArray

from .evalue import WHOLE, clean_needed
from .standard import Number, SideBar, exact

MOST_DANGEROUS_SHARE = Fraction(3, 5)
"""Dangerous plants never fill more of a paper than this, so their number alone may set its length."""


@dataclass(frozen=True, slots=True)
class TimeToPass:
    """When somebody with one true share of misses passes one ledger.

    ``leaving[n - 1]`` is the chance to pass with specimen n exactly, for n up to the horizon.
    """

    true_rate: float
    leaving: NDArray[np.float64]

    @property
    def horizon(self) -> int:
        return len(self.leaving)

    @property
    def probability(self) -> float:
        """The chance to pass within the horizon."""
        return self.within(self.horizon)

    def within(self, specimens: int) -> float:
        """The chance to pass with so many specimens at most. ValueError beyond the horizon."""
        if not 0 <= specimens <= self.horizon:
            raise ValueError(f"The horizon is {self.horizon} specimens.")
        return float(min(1.0, self.leaving[:specimens].sum()))

    @property
    def mean(self) -> float | None:
        """Mean number of specimens of those who pass within the horizon; None if nobody does."""
        total = self.leaving.sum()
        return float(np.arange(1, self.horizon + 1) @ self.leaving / total) if total > 0 else None

    def quantile(self, share: float) -> int | None:
        """Specimens after which this share of all people have passed; None if not within the horizon."""
        reached = np.nonzero(np.cumsum(self.leaving) >= share - 1e-12)[0]
        return int(reached[0]) + 1 if len(reached) else None


def time_to_pass(true_rate: float, bar: SideBar, weight: Fraction = WHOLE, horizon: int = 400) -> TimeToPass:
    """When somebody who misses this share of specimens passes a ledger. ValueError outside 0..1."""
    if not 0 <= true_rate <= 1:
        raise ValueError(f"A share of misses lies between 0 and 1, not {true_rate}.")
    if horizon < 1:
        raise ValueError("The horizon is at least one specimen.")
    leaving = np.zeros(horizon)
    testing = np.zeros(horizon + 1)
    testing[0] = 1.0
    misses = 0  # clean_needed rises with the misses, so nobody is left in the test with fewer than these
    for number in range(1, horizon + 1):
        testing[1:] = (1 - true_rate) * testing[1:] + true_rate * testing[:-1]
        testing[0] *= 1 - true_rate
        while number - misses >= clean_needed(misses, bar, weight):
            leaving[number - 1] += testing[misses]
            testing[misses] = 0.0
            misses += 1
    return TimeToPass(true_rate, leaving)


def pass_probability_within(true_rate: float, bar: SideBar, weight: Fraction = WHOLE, *, specimens: int) -> float:
    """The chance to pass one ledger with so many specimens at most (the operating characteristic)."""
    return time_to_pass(true_rate, bar, weight, max(1, specimens)).within(specimens)


def bank_size(
    true_rate: float,
    bar: SideBar,
    weight: Fraction = WHOLE,
    *,
    species: int,
    target: float,
    horizon: int = 400,
) -> int | None:
    """Unseen specimens needed of each of so many species, so that such people pass all of them.

    ``target``: the share of them that shall. Species are taken as independent. None if the horizon is too
    near.
    """
    return specimens_for_all(time_to_pass(true_rate, bar, weight, horizon), species, target)


def specimens_for_all(one: TimeToPass, species: int, target: float) -> int | None:
    """Specimens of each of so many species with which this share of people pass all; None beyond the horizon."""
    if species < 1 or not 0 < target <= 1:
        raise ValueError("At least one species, and a target above 0 and at most 1.")
    enough = np.nonzero(np.minimum(np.cumsum(one.leaving), 1.0) ** species >= target - 1e-12)[0]
    return int(enough[0]) + 1 if len(enough) else None


def least_specimens(bar: SideBar, weight: Fraction, required_stages: int = 0, stage_clean: int = 4) -> int:
    """Specimens of a species needed by somebody who never misses: for the count or the stages, the larger."""
    return max(clean_needed(0, bar, weight), stage_clean * required_stages)


def all_within(chances: Iterable[float]) -> float:
    """The chance to pass every ledger, if each is passed with these chances independently."""
    return float(np.prod(np.fromiter(chances, dtype=np.float64)))


@dataclass(frozen=True, slots=True)
class Load:
    """What one person has to answer in all: specimens of both sides, and questions with the mixing."""

    dangerous: int
    edible: int

    @property
    def questions(self) -> int:
        """max(D + E, D / 0.6): dangerous plants never fill more than three fifths of a paper."""
        return max(self.dangerous + self.edible, ceil(self.dangerous / MOST_DANGEROUS_SHARE))

    def per_week(self, weeks: Number) -> float:
        """Questions a week. ValueError unless there are weeks."""
        if exact(weeks) <= 0:
            raise ValueError("A course lasts some weeks.")
        return float(self.questions / exact(weeks))


def load(dangerous: Iterable[int], edible: Iterable[int]) -> Load:
    """The load from the specimens needed of each dangerous and of each edible species."""
    return Load(sum(dangerous), sum(edible))
