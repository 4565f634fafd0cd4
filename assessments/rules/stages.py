"""Stages of a dangerous species: which were shown well enough to stand on a certificate.

Four clean specimens since the last miss in that stage say that the stage was covered; they prove no rate.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from .ledger import WindowLedger
from .treatment import Effect, Reading


@dataclass(frozen=True, slots=True)
class StageCover:
    """One stage of one species in one window: clean specimens since the last miss, and how many it takes."""

    stage: str
    clean: int
    misses: int
    needed: int

    @property
    def still_needed(self) -> int:
        return max(0, self.needed - self.clean)

    @property
    def covered(self) -> bool:
        return self.clean >= self.needed


def stage_cover(ledger: WindowLedger, stage: str, needed: int) -> StageCover:
    """How far one stage is covered. ``clean`` counts since the last miss, ``misses`` counts them all."""
    clean = len(clean_in_stage(ledger, stage))
    misses = sum(1 for reading in ledger.entries if reading.stage == stage and reading.effect is Effect.MISS)
    return StageCover(stage, clean, misses, needed)


def clean_in_stage(ledger: WindowLedger, stage: str) -> list[Reading]:
    """The clean specimens of a stage since the last miss in it, in order."""
    clean: list[Reading] = []
    for reading in ledger.entries:
        if reading.stage != stage:
            continue
        if reading.effect is Effect.MISS:
            clean = []
        elif reading.effect is Effect.CLEAN:
            clean.append(reading)
    return clean


def stage_covers(ledger: WindowLedger, stages: Iterable[str], needed: int) -> tuple[StageCover, ...]:
    """The covers of these stages, each once, in the order given."""
    return tuple(stage_cover(ledger, stage, needed) for stage in dict.fromkeys(stages))


def stages_shown(ledger: WindowLedger) -> tuple[str, ...]:
    """The stages in which any specimen counted, in order of first showing."""
    return tuple(dict.fromkeys(reading.stage for reading in ledger.counted))
