"""Why sitting again does not help here, and how much it helps under rules that forget.

The figures of the page that explains it: a fixed number without a miss, best of several attempts; a clean run
anywhere in the record; Wald's test with two boundaries, of which ours leaves the lower one open.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import expm1, log, log1p

import numpy as np
from numpy.typing import NDArray

from .evalue import WHOLE, clean_needed
from .intervals import fixed_number
from .planning import time_to_pass
from .standard import SideBar


def _share(*shares: float) -> None:
    if not all(0 <= share <= 1 for share in shares):
        raise ValueError("A share lies between 0 and 1.")


def best_of_attempts(true_rate: float, items: int, attempts: int) -> float:
    """Chance to pass at least one of several fresh attempts at a fixed number without a miss."""
    _share(true_rate)
    if items < 1 or attempts < 0:
        raise ValueError("At least one item, and no fewer than no attempts.")
    passes_one = (1 - true_rate) ** items
    if passes_one == 1:
        return 1.0 if attempts else 0.0
    return -expm1(attempts * log1p(-passes_one))


@dataclass(frozen=True, slots=True)
class CleanRun:
    """The chance of a clean run somewhere within so many items, and the mean wait for the first."""

    probability: float
    mean_wait: float


def clean_run_somewhere(miss_rate: float, run: int, items: int) -> CleanRun:
    """A run of clean items anywhere in a sequence (Feller 1968, vol. 1, ch. XIII).

    The wait is (1 - q^run) / (p q^run) items with p the share of misses and q = 1 - p: infinite if every item
    is missed, the run itself if none is.
    """
    _share(miss_rate)
    if run < 1 or items < 0:
        raise ValueError("A run of at least one, and no fewer than no items.")
    reached = _run_reached(miss_rate, run, items)
    return CleanRun(float(reached[-1]) if items else 0.0, _mean_wait(miss_rate, run))


def _run_reached(miss_rate: float, run: int, items: int) -> NDArray[np.float64]:
    """After each item: the chance that a clean run has been there by now."""
    clean = 1 - miss_rate
    at = np.zeros(run)
    at[0], done, reached = 1.0, 0.0, np.zeros(items)
    for item in range(items):
        done += at[-1] * clean
        at = np.concatenate([[at.sum() * miss_rate], at[:-1] * clean])
        reached[item] = done
    return reached


def _mean_wait(miss_rate: float, run: int) -> float:
    if miss_rate == 0:
        return float(run)
    reached = (1 - miss_rate) ** run
    return (1 - reached) / (miss_rate * reached) if reached > 0 else float("inf")


@dataclass(frozen=True, slots=True)
class SequentialTest:
    """Wald's test of a low share p0 against a high p1 (1945).

    After n items the claim p0 is given up at ``reject_intercept + slope * n`` misses and kept at
    ``-accept_intercept + slope * n``. ``upper`` and ``lower`` are the boundaries A and B of the ratio.
    """

    upper: float
    lower: float
    accept_intercept: float
    reject_intercept: float
    slope: float


def two_boundary_test(p0: float, p1: float, alpha: float, beta: float) -> SequentialTest:
    """The boundaries A = (1-beta)/alpha and B = beta/(1-alpha), and the two parallel lines."""
    if not 0 < p0 < p1 < 1 or not (alpha > 0 and beta > 0 and alpha + beta < 1):
        raise ValueError("0 < p0 < p1 < 1, and alpha and beta above 0 with a sum below 1.")
    upper, lower = (1 - beta) / alpha, beta / (1 - alpha)
    per_clean = log((1 - p0) / (1 - p1))
    whole = log(p1 / p0) + per_clean
    return SequentialTest(upper, lower, -log(lower) / whole, log(upper) / whole, per_clean / whole)


@dataclass(frozen=True, slots=True)
class Tries:
    """The chance to be let through after so many tries, under three rules; each try is of the same length."""

    attempts: int
    specimens: int
    best: float
    run: float
    here: float


@dataclass(frozen=True, slots=True)
class Comparison:
    """Somebody exactly at the limit of a bar, who tries again and again.

    ``items``: how many without a miss a single, announced attempt would have to ask for. ``needed`` are the
    clean specimens that our own rule asks for with 0, 1, 2 and 3 misses, ``by_window`` those without a miss
    in each window.
    """

    bar: SideBar
    items: int
    tries: tuple[Tries, ...]
    needed: tuple[int, ...]
    by_window: tuple[int, ...]

    @property
    def miss_cost(self) -> int:
        """Clean specimens that the first miss asks for in addition."""
        return self.needed[1] - self.needed[0]


def compare_rules(bar: SideBar, weights: Sequence[Fraction] = (WHOLE,), most_attempts: int = 20) -> Comparison:
    """The fixed number at its best attempt, a clean run anywhere in the record, and our rule, side by side.

    Ours is looked at after every specimen of its first window; with all its windows it stays at or below the
    bar's alpha for ever. ValueError without an attempt.
    """
    if most_attempts < 1:
        raise ValueError("At least one attempt.")
    items = fixed_number(bar.limit, 1 - bar.alpha)
    rate, horizon = float(bar.limit), most_attempts * items
    run = _run_reached(rate, items, horizon)
    here = np.minimum(1.0, np.cumsum(time_to_pass(rate, bar, weights[0], horizon).leaving))
    tries = tuple(
        Tries(n, n * items, best_of_attempts(rate, items, n), float(run[n * items - 1]), float(here[n * items - 1]))
        for n in range(1, most_attempts + 1)
    )
    needed = tuple(clean_needed(misses, bar, weights[0]) for misses in range(4))
    return Comparison(bar, items, tries, needed, tuple(clean_needed(0, bar, weight) for weight in weights))
