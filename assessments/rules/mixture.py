"""The e-value that spreads p1 over all shares below the limit, for comparison; it decides nothing.

It gains a little for people who miss some, and has no sentence that explains a miss. Spread over (0, 1)
instead of (0, limit) it would not be valid for the one-sided claim (Robbins 1970; Howard et al. 2021).
"""

from math import log

from scipy.special import betainc, betaln, hyp2f1

SMALLEST_TRUSTED = 1e-250
"""A share below this is near the end of what floats hold, and is worked out in logarithms."""


def mixture_log_e(clean: int, misses: int, limit: float, a: float, b: float) -> float:
    """ln e with p1 spread over Beta(a, b) cut off to (0, limit).

    B(a+k, b+n-k) I(limit; a+k, b+n-k) / (B(a, b) I(limit; a, b)) / (limit^k (1-limit)^(n-k)), where I is the
    regularised incomplete beta function. ValueError for counts below 0, a limit outside 0..1, a or b of 0.
    """
    if min(clean, misses) < 0 or not 0 < limit < 1 or min(a, b) <= 0:
        raise ValueError("Counts of 0 or more, a limit between 0 and 1, a and b above 0.")
    spread, whole = _log_partial_beta(limit, a + misses, b + clean), _log_partial_beta(limit, a, b)
    return spread - whole - misses * log(limit) - clean * log(1 - limit)


def _log_partial_beta(limit: float, a: float, b: float) -> float:
    """ln of the integral of x^(a-1) (1-x)^(b-1) from 0 to the limit, also where it has no float."""
    share = float(betainc(a, b, limit))
    if share > SMALLEST_TRUSTED:
        return float(betaln(a, b)) + log(share)
    # far below the bulk of the distribution, where this series converges fast (DLMF 8.17.8)
    return a * log(limit) + b * log(1 - limit) - log(a) + log(float(hyp2f1(a + b, 1, a + 1, limit)))
