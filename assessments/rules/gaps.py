"""What is missing for a pass: reason codes with figures, the most important first. Words come later."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from .ledger import Ledger, WindowLedger
from .live import LiveRun
from .pairs import PairVerdict
from .stages import StageCover
from .standard import Side
from .ways import Approach, best_approach


class GapReason(StrEnum):
    """What kind of thing is missing, in the order of importance."""

    NO_PAIRS = "no_pairs"
    DANGEROUS_MISSED = "dangerous_missed"
    DANGEROUS_SHORT = "dangerous_short"
    LIVE_MISSED = "live_missed"
    LIVE_SHORT = "live_short"
    LIVE_OCCASIONS = "live_occasions"
    STAGE_MISSED = "stage_missed"
    STAGE_SHORT = "stage_short"
    EDIBLE_MISSED = "edible_missed"
    EDIBLE_SHORT = "edible_short"


IMPORTANCE = {reason: place for place, reason in enumerate(GapReason)}


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that is missing.

    ``clean``, ``misses``, ``neutral`` so far and ``needed`` clean in all with those misses, in window
    ``window``; ``still_needed`` is the difference. For a stage they count in that stage, clean since its last
    miss; for the live run likewise, with ``occasions`` of ``occasions_needed``. ``pairs`` are the keys of the
    pairs it keeps from passing.
    """

    reason: GapReason
    species: str = ""
    pairs: tuple[str, ...] = ()
    stage: str | None = None
    clean: int = 0
    misses: int = 0
    neutral: int = 0
    needed: int = 0
    still_needed: int = 0
    occasions: int = 0
    occasions_needed: int = 0
    window: int = 1


def _count_gap(ledger: WindowLedger, side: Side, species: str, pairs: tuple[str, ...]) -> Gap:
    missed = ledger.counts.misses > 0
    if side is Side.DANGEROUS:
        reason = GapReason.DANGEROUS_MISSED if missed else GapReason.DANGEROUS_SHORT
    else:
        reason = GapReason.EDIBLE_MISSED if missed else GapReason.EDIBLE_SHORT
    return Gap(
        reason,
        species,
        pairs,
        clean=ledger.counts.clean,
        misses=ledger.counts.misses,
        neutral=ledger.counts.neutral,
        needed=ledger.clean_needed,
        still_needed=ledger.still_needed,
        window=ledger.number,
    )


def _live_gap(run: LiveRun, species: str, pairs: tuple[str, ...], window: int) -> Gap:
    if run.clean >= run.clean_needed:
        reason = GapReason.LIVE_OCCASIONS
    else:
        reason = GapReason.LIVE_MISSED if run.misses else GapReason.LIVE_SHORT
    return Gap(
        reason,
        species,
        pairs,
        clean=run.clean,
        misses=run.misses,
        needed=run.clean_needed,
        still_needed=run.still_needed,
        occasions=run.occasions,
        occasions_needed=run.occasions_needed,
        window=window,
    )


def _stage_gap(cover: StageCover, species: str, pairs: tuple[str, ...], window: int) -> Gap:
    return Gap(
        GapReason.STAGE_MISSED if cover.misses else GapReason.STAGE_SHORT,
        species,
        pairs,
        stage=cover.stage,
        clean=cover.clean,
        misses=cover.misses,
        needed=cover.needed,
        still_needed=cover.still_needed,
        window=window,
    )


def dangerous_approach(verdicts: Sequence[PairVerdict], stage_clean: int) -> Approach:
    """The window to look at for one dangerous species: with the stages of those of its pairs that it blocks.

    ``verdicts`` are all the pairs of the species, at least one. Where it blocks none, nothing is missing in
    the window.
    """
    blocked = [v for v in verdicts if not v.approach.met]
    stages = [stage for verdict in blocked for stage in verdict.pair.required_stages]
    return best_approach(verdicts[0].dangerous, stages, stage_clean)


def dangerous_gaps(verdicts: Sequence[PairVerdict], stage_clean: int) -> list[Gap]:
    """What is missing on one dangerous species, from the verdicts on all its pairs."""
    species, run = verdicts[0].pair.mistaken, verdicts[0].live
    gaps: list[Gap] = []
    blocked = [verdict for verdict in verdicts if not verdict.approach.met]
    if blocked:
        approach = dangerous_approach(verdicts, stage_clean)
        if not approach.window.passed:
            gaps.append(_count_gap(approach.window, Side.DANGEROUS, species, _keys(blocked)))
        for cover in approach.stages:
            asking = [v for v in blocked if cover.stage in v.pair.required_stages]
            if not cover.covered:
                gaps.append(_stage_gap(cover, species, _keys(asking), approach.window.number))
    if not run.met:
        first = verdicts[0].dangerous.windows[0].number
        gaps.append(_live_gap(run, species, _keys(verdicts), first))
    return gaps


def edible_gaps(ledger: Ledger, verdicts: Sequence[PairVerdict]) -> list[Gap]:
    """What is missing on one edible species."""
    if ledger.passed:
        return []
    return [_count_gap(ledger.nearest, Side.EDIBLE, ledger.species, _keys(verdicts))]


def _keys(verdicts: Iterable[PairVerdict]) -> tuple[str, ...]:
    return tuple(verdict.key for verdict in verdicts)


def all_gaps(verdicts: Sequence[PairVerdict], edible: Mapping[str, Ledger], stage_clean: int) -> tuple[Gap, ...]:
    """Everything that is missing, each thing once, by importance and then in the order of the standard."""
    if not verdicts:
        return (Gap(GapReason.NO_PAIRS),)
    gaps: list[Gap] = []
    for dangerous in dict.fromkeys(verdict.pair.mistaken for verdict in verdicts):
        gaps += dangerous_gaps([v for v in verdicts if v.pair.mistaken == dangerous], stage_clean)
    for species, ledger in edible.items():
        gaps += edible_gaps(ledger, [v for v in verdicts if v.pair.gathered == species])
    return tuple(sorted(gaps, key=lambda gap: IMPORTANCE[gap.reason]))
