"""Exact limits of a share that was counted once, for a number fixed beforehand (Clopper & Pearson 1934).

They are not valid for somebody who may try again; ``evalue`` is. They serve counts shown beside each other,
and the page that explains why retakes do not help.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, comb, floor

from scipy.special import betaincc
from scipy.stats import beta

from .standard import Number, exact


@dataclass(frozen=True, slots=True)
class Interval:
    """Lower and upper limit of a share."""

    lower: float
    upper: float

    @property
    def in_100(self) -> tuple[int, int]:
        """The limits out of a hundred, rounded outwards."""
        return floor(100 * self.lower), ceil(100 * self.upper)


def _counted(misses: int, n: int, confidence: float) -> None:
    if not 0 <= misses <= n or n < 1:
        raise ValueError(f"There cannot be {misses} of {n}.")
    if not 0 < confidence < 1:
        raise ValueError(f"A confidence lies between 0 and 1, not {confidence}.")


def exact_interval(misses: int, n: int, confidence: float = 0.95) -> Interval:
    """Two-sided exact interval of a share: k of n with each tail at most (1 - confidence)/2."""
    _counted(misses, n, confidence)
    tail = (1 - confidence) / 2
    lower = 0.0 if misses == 0 else float(beta.ppf(tail, misses, n - misses + 1))
    return Interval(lower, _upper(misses, n, tail))


def exact_upper_limit(misses: int, n: int, confidence: float = 0.95) -> float:
    """One-sided exact upper limit; 1 if all were missed."""
    _counted(misses, n, confidence)
    return _upper(misses, n, 1 - confidence)


def _upper(misses: int, n: int, tail: float) -> float:
    return 1.0 if misses == n else float(beta.isf(tail, misses + 1, n - misses))


def rule_of_three(n: int) -> float:
    """3/n: the 95 % upper limit after n without a miss, in the head (Hanley & Lippman-Hand 1983)."""
    if n < 1:
        raise ValueError("At least one.")
    return 3 / n


def fixed_number(p_max: Number, confidence: Number, misses_allowed: int = 0) -> int:
    """Smallest number, fixed beforehand, for which so many misses still give an upper limit of p_max at most.

    Without a miss it is the success run, (1 - p_max)^n <= 1 - confidence (Wilks 1941). Where floats cannot tell
    whether a number is enough, whole numbers do. ValueError for shares outside 0..1.
    """
    share, tail = exact(p_max), 1 - exact(confidence)
    if not (0 < share < 1 and 0 < tail < 1 and misses_allowed >= 0):
        raise ValueError("Shares lie between 0 and 1, and there are no fewer than no misses.")
    misses = int(misses_allowed)
    low, high = misses, misses + 1
    while not _is_enough(high, misses, share, tail):
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _is_enough(middle, misses, share, tail) else (middle, high)
    return high


TOO_NEAR = 1e-11
"""Relative distance below which a chance in floats is not trusted to lie on one side of a limit."""


def _is_enough(n: int, misses: int, share: Fraction, tail: Fraction) -> bool:
    """P(at most so many misses of n) <= tail, for more items than misses."""
    chance = float(betaincc(misses + 1, n - misses, float(share)))
    if abs(chance - float(tail)) > TOO_NEAR * float(tail):
        return chance < float(tail)
    p, whole = share.numerator, share.denominator
    ways = sum(comb(n, k) * p**k * (whole - p) ** (n - k) for k in range(misses + 1))
    return bool(ways * tail.denominator <= tail.numerator * whole**n)
