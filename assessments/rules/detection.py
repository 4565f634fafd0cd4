"""Telling apart, and being careful: d' and criterion of one pair. A hint for the tutor, never a decision.

Signal is the dangerous species, the response is to refuse or leave it. d' says how well somebody tells the
two apart, the criterion how careful they are (below 0: more refusals than the eye asks for).
"""

from dataclasses import dataclass
from math import sqrt

from scipy.special import ndtri
from scipy.stats import norm


@dataclass(frozen=True, slots=True)
class Detection:
    """d' = z(H) - z(F) and criterion = -(z(H) + z(F))/2 for the rates that they came from."""

    hit_rate: float
    false_alarm_rate: float

    @property
    def d_prime(self) -> float:
        return float(ndtri(self.hit_rate) - ndtri(self.false_alarm_rate))

    @property
    def criterion(self) -> float:
        return float(-(ndtri(self.hit_rate) + ndtri(self.false_alarm_rate)) / 2)


def detection_from_rates(hit_rate: float, false_alarm_rate: float) -> Detection:
    """From rates as they are (Macmillan & Creelman 2005). ValueError for 0 and 1, which have no z."""
    if not (0 < hit_rate < 1 and 0 < false_alarm_rate < 1):
        raise ValueError("Rates of 0 and 1 have no d'; use the counts.")
    return Detection(hit_rate, false_alarm_rate)


@dataclass(frozen=True, slots=True)
class PairDetection:
    """Detection from counts, with the standard error of d'."""

    dangerous_refused: int
    dangerous_shown: int
    edible_refused: int
    edible_shown: int

    def __post_init__(self) -> None:
        pairs = [(self.dangerous_refused, self.dangerous_shown), (self.edible_refused, self.edible_shown)]
        if not all(0 <= refused <= shown for refused, shown in pairs):
            raise ValueError("Nobody refuses more than was shown.")

    @property
    def detection(self) -> Detection:
        """With the log-linear correction, (k + 0.5)/(n + 1), that keeps rates off 0 and 1 (Hautus 1995)."""
        return Detection(
            (self.dangerous_refused + 0.5) / (self.dangerous_shown + 1),
            (self.edible_refused + 0.5) / (self.edible_shown + 1),
        )

    @property
    def standard_error(self) -> float | None:
        """Of d', at the corrected rates (Gourevitch & Galanter 1967); None unless both sides were shown."""
        if not (self.dangerous_shown and self.edible_shown):
            return None
        found = self.detection
        rates = ((found.hit_rate, self.dangerous_shown), (found.false_alarm_rate, self.edible_shown))
        return sqrt(sum(r * (1 - r) / (shown * float(norm.pdf(ndtri(r))) ** 2) for r, shown in rates))
