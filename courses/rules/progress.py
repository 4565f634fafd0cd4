"""How far somebody is with one pair: one word and one number, for long lists. Pure."""

from dataclasses import dataclass
from enum import StrEnum

from assessments.rules.figures import PairFigures, pair_figures
from assessments.rules.pairs import PairVerdict

NEARLY = 5  # a choice for the eye, which decides nothing: so few specimens more fit into one paper or one walk


class Far(StrEnum):
    """How far."""

    PASSED = "passed"
    NEARLY = "nearly"
    ON_THE_WAY = "on the way"
    NOT_BEGUN = "not begun"


@dataclass(frozen=True)
class Progress:
    """One pair of one person. `missing`: specimens of both sides if every further answer is clean."""

    pair: str
    far: Far
    missing: int
    misses: int

    @property
    def passed(self) -> bool:
        return self.far is Far.PASSED


def progress_on(verdict: PairVerdict) -> Progress:
    """How far a verdict is from a pass."""
    return progress_from(pair_figures(verdict))


def progress_from(pair: PairFigures) -> Progress:
    """The same from the figures of a pair."""
    missing = pair.dangerous_missing + pair.edible_missing
    if pair.passed:
        far = Far.PASSED
    elif not pair.begun:
        far = Far.NOT_BEGUN
    else:
        far = Far.NEARLY if missing <= NEARLY else Far.ON_THE_WAY
    return Progress(pair.key, far, 0 if pair.passed else missing, pair.misses)
