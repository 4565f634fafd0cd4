"""How sure, and how right: the table of levels, the Brier score with its three parts, and sure-and-wrong.

The odds of the three levels stand on the screen when people choose, so an answer is a forecast. Show the
table first, the score second and not below so many answers: even a person whose odds are perfect has a
reliability of about sum f(1-f)/N by chance alone.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from .evidence import AnswerFacts, Confidence, Decision, in_order
from .intervals import Interval, exact_interval

ODDS: Mapping[str, float] = MappingProxyType({Confidence.SURE: 0.95, Confidence.FAIRLY: 0.75, Confidence.UNSURE: 0.50})
"""What the levels mean: 19 in 20, 3 in 4, 1 in 2; a choice."""

FEWEST_FOR_A_SCORE = 30
"""Answers below which the score is not shown; a choice."""


@dataclass(frozen=True, slots=True)
class Calibration:
    """Brier score and its parts: brier = reliability - resolution + uncertainty (Brier 1950; Murphy 1973)."""

    brier: float
    reliability: float
    resolution: float
    uncertainty: float


@dataclass(frozen=True, slots=True)
class Level:
    """One level of confidence: what it promised, how often it was said and right, and the interval of that."""

    name: str
    promised: float
    said: int
    right: int
    interval: Interval | None

    @property
    def share_right(self) -> float | None:
        return self.right / self.said if self.said else None


def levels_table(said: Sequence[str], right: Sequence[bool], odds: Mapping[str, float] = ODDS) -> tuple[Level, ...]:
    """Counts per level, in the order of the odds given. KeyError for a level without odds."""
    asked, got = dict.fromkeys(odds, 0), dict.fromkeys(odds, 0)
    for level, was_right in zip(said, right, strict=True):
        asked[level] += 1
        got[level] += bool(was_right)
    return tuple(
        Level(name, promised, asked[name], got[name], _interval(got[name], asked[name]))
        for name, promised in odds.items()
    )


def _interval(right: int, said: int) -> Interval | None:
    return exact_interval(right, said) if said else None


def calibration(said: Sequence[str], right: Sequence[bool], odds: Mapping[str, float] = ODDS) -> Calibration | None:
    """The Brier score with its parts; the bins are the levels. None without an answer.

    reliability = sum n_k (f_k - o_k)^2 / N, resolution = sum n_k (o_k - o)^2 / N, uncertainty = o (1 - o).
    """
    if not said:
        return None
    table = [level for level in levels_table(said, right, odds) if level.said]
    total = len(said)
    base = sum(level.right for level in table) / total
    wrong = (
        level.right * (1 - level.promised) ** 2 + (level.said - level.right) * level.promised**2 for level in table
    )
    shares = [(level.said, level.promised, level.right / level.said) for level in table]
    return Calibration(
        brier=sum(wrong) / total,
        reliability=sum(n * (promised - share) ** 2 for n, promised, share in shares) / total,
        resolution=sum(n * (share - base) ** 2 for n, _, share in shares) / total,
        uncertainty=base * (1 - base),
    )


def chance_reliability(said: Sequence[str], odds: Mapping[str, float] = ODDS) -> float | None:
    """The reliability that chance alone gives a person whose odds are perfect: sum over levels f(1-f)/N."""
    if not said:
        return None
    return sum(odds[level] * (1 - odds[level]) for level in dict.fromkeys(said)) / len(said)


def sure_and_wrong(answers: Iterable[AnswerFacts], dangerous: frozenset[str]) -> tuple[AnswerFacts, ...]:
    """Dangerous plants that somebody was sure of and would have gathered: shown first, from the first one."""
    return tuple(
        answer
        for answer in in_order(list(answers))
        if answer.specimen.species in dangerous
        and not answer.specimen.void
        and not answer.annulled
        and answer.decision is Decision.GATHER
        and answer.confidence is Confidence.SURE
    )
