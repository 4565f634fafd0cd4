"""The shortest way to passing one species: how many specimens more, of which stages, how many live."""

from collections.abc import Iterable
from dataclasses import dataclass

from .ledger import Ledger, WindowLedger
from .live import LiveRun
from .stages import StageCover, stage_covers


@dataclass(frozen=True, slots=True)
class Way:
    """What is still missing if every further answer is clean.

    ``specimens`` in all; ``by_stage`` of them in these stages, the rest in any; ``live`` of them live, from
    ``occasions`` further occasions. One specimen may serve the count, a stage and the live run at once.
    """

    species: str
    specimens: int
    by_stage: tuple[tuple[str, int], ...] = ()
    live: int = 0
    occasions: int = 0

    @property
    def in_any_stage(self) -> int:
        return self.specimens - sum(count for _, count in self.by_stage)


@dataclass(frozen=True, slots=True)
class Approach:
    """One window of a ledger with the stages asked for: the ground that has to be covered in it."""

    window: WindowLedger
    stages: tuple[StageCover, ...]

    @property
    def specimens(self) -> int:
        """Clean specimens still missing: for the count, and for the stages, whichever asks for more."""
        return max(self.window.still_needed, sum(stage.still_needed for stage in self.stages))

    @property
    def met(self) -> bool:
        return self.window.passed and all(stage.covered for stage in self.stages)


def best_approach(ledger: Ledger, stages: Iterable[str], stage_clean: int) -> Approach:
    """The window in which least is missing; the earliest of several. Stages count in that window only."""
    asked = tuple(stages)
    approaches = [Approach(w, stage_covers(w, asked, stage_clean)) for w in ledger.windows]
    return min(approaches, key=lambda approach: approach.specimens)


def way_to_pass(species: str, approach: Approach, live: LiveRun | None) -> Way:
    """The way from an approach and, on the dangerous side, the live run."""
    by_stage = tuple((s.stage, s.still_needed) for s in approach.stages if s.still_needed)
    live_missing = live.still_needed if live else 0
    return Way(
        species=species,
        specimens=max(approach.specimens, live_missing),
        by_stage=by_stage,
        live=live_missing,
        occasions=live.occasions_still_needed if live else 0,
    )
