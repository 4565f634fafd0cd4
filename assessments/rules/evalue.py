"""The e-value of one ledger: how strong the evidence is against "this person misses ``limit`` or more".

Letters: ``p`` the tolerated share (limit), ``p1 = p/c`` the share the test is sharpest for, ``c`` the ratio.
A miss multiplies e by p1/p = 1/c, a clean specimen by (1-p1)/(1-p), a neutral one leaves it alone
(likelihood ratio; Wald 1945). The mean factor of somebody exactly at the limit is 1, so by Ville's
inequality (1939) such a person ever reaches 1/alpha with a chance of at most alpha, however often they sit.

Whatever decides is computed in whole numbers: clean specimens against clean specimens needed.
Floats are for showing only.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, exp, expm1, inf, log

from .standard import SideBar

WHOLE = Fraction(1)
LARGEST_EXPONENT = 700.0
"""exp() of more than about 709 has no float; figures beyond e^700 are shown as infinite."""


def _counted(*counts: int) -> None:
    if min(counts) < 0:
        raise ValueError("Counts of specimens cannot be negative.")


def _tested(limit: Fraction, expected: Fraction) -> None:
    if not 0 <= expected < limit < 1:
        raise ValueError("The expected share must lie below the limit, and both between 0 and 1.")


def _log(value: Fraction) -> float:
    """ln of an exact fraction, also where numerator and denominator are too large for a float."""
    return log(value.numerator) - log(value.denominator)


def log_likelihood_ratio(clean: int, misses: int, limit: Fraction, expected: Fraction) -> float:
    """ln of (p1/p)^misses * ((1-p1)/(1-p))^clean.

    ``limit`` is p, ``expected`` is p1; 0 <= p1 < p < 1, otherwise ValueError. With p1 = 0 a single miss makes
    it minus infinity.
    """
    _counted(clean, misses)
    _tested(limit, expected)
    per_miss = _log(expected / limit) if expected else -inf
    return (misses * per_miss if misses else 0.0) + clean * _log((1 - expected) / (1 - limit))


def log_e(clean: int, misses: int, bar: SideBar) -> float:
    """ln e of a ledger; 0 without evidence."""
    return log_likelihood_ratio(clean, misses, bar.limit, bar.expected)


def e_value(clean: int, misses: int, bar: SideBar) -> float:
    """e of a ledger; 1 without evidence, infinite where a float cannot hold it."""
    return exponential(log_e(clean, misses, bar))


def exponential(log_value: float) -> float:
    """e^x for showing: infinite where a float cannot hold it."""
    return inf if log_value > LARGEST_EXPONENT else exp(log_value)


def threshold(bar: SideBar, weight: Fraction = WHOLE) -> Fraction:
    """What e has to reach in a window of this weight: 1/(alpha * weight)."""
    if not 0 < weight <= 1:
        raise ValueError(f"The weight of a window must be above 0 and at most 1, not {weight}.")
    return 1 / (bar.alpha * weight)


@lru_cache(maxsize=4096)
def clean_needed(misses: int, bar: SideBar, weight: Fraction = WHOLE) -> int:
    """Smallest number of clean specimens that reaches the threshold in spite of so many misses.

    With the participant's bar and weight 8/10 it is 13, 24, 36, 47 for 0, 1, 2, 3 misses.
    """
    needed = clean_needed_for(misses, bar.limit, bar.expected, threshold(bar, weight))
    assert needed is not None  # a bar expects more than no misses at all, so no miss is final
    return needed


def clean_needed_for(misses: int, limit: Fraction, expected: Fraction, target: Fraction) -> int | None:
    """Smallest number of clean specimens at which e reaches ``target``.

    None if no number does, which is after a miss where none is expected (p1 = 0).
    Exact: the logarithms only guess, then whole numbers are compared.
    """
    _counted(misses)
    _tested(limit, expected)
    if misses and not expected:
        return None
    gain = (1 - expected) / (1 - limit)
    without_misses = target * (limit / expected) ** misses if misses else target
    needed = max(0, ceil(_log(without_misses) / _log(gain)))
    while not _reaches(gain, needed, without_misses):
        needed += 1
    while needed > 0 and _reaches(gain, needed - 1, without_misses):
        needed -= 1
    return needed


def _reaches(gain: Fraction, clean: int, target: Fraction) -> bool:
    """gain^clean >= target, in whole numbers."""
    reached: bool = gain.numerator**clean * target.denominator >= target.numerator * gain.denominator**clean
    return reached


def still_needed(clean: int, misses: int, bar: SideBar, weight: Fraction = WHOLE) -> int:
    """Clean specimens in a row that are missing now; 0 once passed."""
    _counted(clean, misses)
    return max(0, clean_needed(misses, bar, weight) - clean)


def is_passed(clean: int, misses: int, bar: SideBar, weight: Fraction = WHOLE) -> bool:
    """Whether the ledger reaches the threshold of its window: e >= 1/(alpha * weight)."""
    return still_needed(clean, misses, bar, weight) == 0


@dataclass(frozen=True, slots=True)
class Drift:
    """What evidence does to ln e: what a clean specimen adds, and what a miss takes (both above 0)."""

    gain: float
    loss: float

    @property
    def miss_cost(self) -> float:
        """How many clean specimens one miss costs; 11.35 for the participant."""
        return self.loss / self.gain

    @property
    def zero_rate(self) -> float:
        """The true share of misses at which ln e does not move on average.

        Below it a person passes sooner or later with certainty, above it only sometimes.
        """
        return self.gain / (self.gain + self.loss)


def drift(limit: Fraction, expected: Fraction) -> Drift:
    """Gain ln((1-p1)/(1-p)) and loss ln(p/p1); the loss is infinite for p1 = 0."""
    _tested(limit, expected)
    loss = _log(limit / expected) if expected else inf
    return Drift(_log((1 - expected) / (1 - limit)), loss)


def miss_cost(bar: SideBar) -> float:
    """How many clean specimens one miss costs under a bar."""
    return drift(bar.limit, bar.expected).miss_cost


def anytime_upper_limit(clean: int, misses: int, alpha: Fraction, ratio: Fraction) -> float:
    """Upper limit of the share of misses, valid whenever it is looked at.

    The p at which the e-value with p1 = p/ratio equals 1/alpha (``alpha`` already times the window's weight):
    R = (ratio^misses / alpha)^(1/clean), U = (R-1)/(R-1/ratio). It is at most the limit of a bar exactly when
    that bar is passed. 1 without a clean specimen.
    """
    _counted(clean, misses)
    if not 0 < alpha < 1 or not ratio > 1:
        raise ValueError("Alpha must lie between 0 and 1, and the ratio above 1.")
    if clean == 0:
        return 1.0
    log_r = (misses * _log(ratio) - _log(alpha)) / clean
    if log_r > LARGEST_EXPONENT:
        return 1.0
    above_one = expm1(log_r)
    return above_one / (above_one + float(1 - 1 / ratio))
