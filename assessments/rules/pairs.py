"""A pair: passed when both its ledgers are, the live run is met, and every stage it asks for was covered."""

from dataclasses import dataclass

from .ledger import Ledger
from .live import LiveRun
from .stages import StageCover
from .standard import PairFacts
from .ways import Approach, best_approach


@dataclass(frozen=True, slots=True)
class PairVerdict:
    """One pair: the ledgers of both species, the window looked at on the dangerous side, the live run."""

    pair: PairFacts
    dangerous: Ledger
    edible: Ledger
    approach: Approach
    live: LiveRun

    @property
    def key(self) -> str:
        return self.pair.key

    @property
    def stages(self) -> tuple[StageCover, ...]:
        """The stages that the pair asks for, in the window looked at."""
        return self.approach.stages

    @property
    def stages_covered(self) -> bool:
        return all(stage.covered for stage in self.stages)

    @property
    def passed(self) -> bool:
        return self.approach.met and self.edible.passed and self.live.met


def pair_verdict(pair: PairFacts, dangerous: Ledger, edible: Ledger, live: LiveRun, stage_clean: int) -> PairVerdict:
    """The verdict on one pair. The stages must be covered in the very window that passes."""
    approach = best_approach(dangerous, pair.required_stages, stage_clean)
    return PairVerdict(pair, dangerous, edible, approach, live)
