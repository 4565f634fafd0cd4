"""The e-value that spreads p1 over all shares below the limit, for comparison; it decides nothing.

It gains a little for people who miss some, and has no sentence that explains a miss. Spread over (0, 1)
instead of (0, limit) it would not be valid for the one-sided claim (Robbins 1970; Howard et al. 2021).
"""

from math import log

from scipy.special import betainc, betaln


def mixture_log_e(clean: int, misses: int, limit: float, a: float, b: float) -> float:
    """ln e with p1 spread over Beta(a, b) cut off to (0, limit).

    B(a+k, b+n-k) I(limit; a+k, b+n-k) / (B(a, b) I(limit; a, b)) / (limit^k (1-limit)^(n-k)), where I is the
    regularised incomplete beta function. ValueError for counts below 0, a limit outside 0..1, a or b of 0.
    """
    if min(clean, misses) < 0 or not 0 < limit < 1 or min(a, b) <= 0:
        raise ValueError("Counts of 0 or more, a limit between 0 and 1, a and b above 0.")
    spread = betaln(a + misses, b + clean) + log(betainc(a + misses, b + clean, limit))
    whole = betaln(a, b) + log(betainc(a, b, limit))
    return float(spread - whole - misses * log(limit) - clean * log(1 - limit))
