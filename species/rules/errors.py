"""How often the best rule on a single character still errs: for states, and for an ordered character.

For food these are the wrong yardstick, since an error that eats counts like one that leaves a plant standing;
``ranking`` has the one-sided shares. They are here to be compared with what others have published.
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isnan

from species.rules.ranking import shares_of


def least_error(gathered: Mapping[str, float], mistaken: Mapping[str, float], share_mistaken: float) -> float:
    """The least share of wrong calls by any rule on the states, when this share of plants is the mistaken
    one.

    sum over states of min((1-q) fE, q fD). ValueError for a share outside 0..1 or a side without states.
    """
    if not 0 <= share_mistaken <= 1:
        raise ValueError(f"A share lies between 0 and 1, not {share_mistaken}.")
    first, second = shares_of(gathered), shares_of(mistaken)
    return sum(
        min((1 - share_mistaken) * first.get(state, 0.0), share_mistaken * second.get(state, 0.0))
        for state in first.keys() | second.keys()
    )


@dataclass(frozen=True)
class Cut:
    """The best single cut of an ordered character: its Youden index, and the errors of the cut that errs
    least.

    The two may be different cuts where the sides were measured unequally often.
    """

    youden: float
    least_errors: int


def best_cut(gathered: Sequence[float], mistaken: Sequence[float]) -> Cut:
    """The best cut between two sets of measurements, whichever side lies higher.

    The Youden index is the largest distance of the two cumulative shares (two-sample Kolmogorov-Smirnov).
    ValueError if a side was not measured.
    """
    if not gathered or not mistaken:
        raise ValueError("Both species must be measured.")
    if any(isnan(value) for value in (*gathered, *mistaken)):
        raise ValueError("A measurement is a number.")
    first, second = sorted(gathered), sorted(mistaken)
    below = [(0, 0)]
    below += [(bisect_right(first, value), bisect_right(second, value)) for value in sorted({*first, *second})]
    youden = max(abs(a / len(first) - b / len(second)) for a, b in below)
    errors = min(min(len(first) - a + b, a + len(second) - b) for a, b in below)
    return Cut(youden, errors)
