"""How far somebody is with one pair: one word and one number, for long lists. Pure."""

from dataclasses import dataclass
from enum import StrEnum

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
    """How far a verdict is from a pass. One live specimen may serve count, stage and live run at once."""
    dangerous = max(verdict.approach.specimens, verdict.live.still_needed)
    missing = dangerous + verdict.edible.nearest.still_needed
    counted = (verdict.approach.window.counts, verdict.edible.nearest.counts)
    if verdict.passed:
        far = Far.PASSED
    elif not any(counts.decided or counts.neutral for counts in counted):
        far = Far.NOT_BEGUN
    else:
        far = Far.NEARLY if missing <= NEARLY else Far.ON_THE_WAY
    return Progress(verdict.key, far, 0 if verdict.passed else missing, verdict.approach.window.counts.misses)
