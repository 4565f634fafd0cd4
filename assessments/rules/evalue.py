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
from math import exp, expm1, floor, inf, log, log1p

from .standard import SideBar

WHOLE = Fraction(1)
TOO_NEAR = 1e-11
"""How near to a threshold ln e may come before floats are not trusted to say on which side it lies."""


def _counted(*counts: int) -> None:
    if min(counts) < 0 or any(count != int(count) for count in counts):
        raise ValueError("Counts of specimens are whole numbers, and cannot be negative.")


def _tested(limit: Fraction, expected: Fraction) -> None:
    if not 0 <= expected < limit < 1:
        raise ValueError("The expected share must lie below the limit, and both between 0 and 1.")


def _log(value: Fraction) -> float:
    """ln of an exact fraction, also near 1, and where numerator and denominator are too large for a float."""
    if 1 < 2 * value < 4:
        return log1p(float(value - 1))
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
    try:
        return exp(log_value)
    except OverflowError:
        return inf


def threshold(bar: SideBar, weight: Fraction = WHOLE) -> Fraction:
    """What e has to reach in a window of this weight: 1/(alpha * weight)."""
    return 1 / _spent(bar, weight)


def _spent(bar: SideBar, weight: Fraction) -> Fraction:
    """The part of alpha that a window of this weight may spend."""
    if not 0 < weight <= 1:
        raise ValueError(f"The weight of a window must be above 0 and at most 1, not {weight}.")
    return bar.alpha * weight


@lru_cache(maxsize=4096)
def clean_needed(misses: int, bar: SideBar, weight: Fraction = WHOLE) -> int:
    """Smallest number of clean specimens that reaches the threshold in spite of so many misses.

    With the participant's bar and weight 8/10 it is 13, 24, 36, 47 for 0, 1, 2, 3 misses.
    """
    needed = clean_needed_for(misses, bar.limit, bar.expected, _spent(bar, weight))
    assert needed is not None  # a bar expects more than no misses at all, so no miss is final
    return needed


def clean_needed_for(misses: int, limit: Fraction, expected: Fraction, alpha: Fraction) -> int | None:
    """Smallest number of clean specimens at which e reaches 1/alpha.

    None if no number does, which is after a miss where none is expected (p1 = 0). Exact: where the logarithms
    cannot tell on which side of the threshold a number lies, whole numbers are compared.
    """
    _counted(misses)
    _tested(limit, expected)
    if not 0 < alpha <= 1:
        raise ValueError(f"Alpha must be above 0 and at most 1, not {alpha}.")
    if misses and not expected:
        return None
    gain = (1 - expected) / (1 - limit)
    target = (limit / expected) ** int(misses) / alpha if misses else 1 / alpha
    needed = max(0, floor(_log(target) / _log(gain)) - 1)
    while not _reaches(gain, needed, target):
        needed += 1
    return needed


def _reaches(gain: Fraction, clean: int, target: Fraction) -> bool:
    """gain^clean >= target: by logarithms, and in whole numbers where those are too near."""
    wanted = _log(target)
    ahead = clean * _log(gain) - wanted
    if abs(ahead) > TOO_NEAR * max(1.0, wanted):
        return ahead > 0
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
    above = -expm1(-log_r)  # 1 - 1/R, which has a float whatever R
    return above / (float(1 - 1 / ratio) + above / float(ratio))
