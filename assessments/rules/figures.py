"""The figures of a standing: whole numbers alone, small enough to be kept, from which long lists are drawn.

``ledger_figures`` takes them from one ledger, ``standing_figures`` puts those of all ledgers together. Neither
decides anything by itself: what is met, passed and missing is asked of the modules that decide it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from .gaps import dangerous_gaps, edible_gaps
from .ledger import Ledger, WindowLedger
from .live import live_run
from .pairs import PairVerdict, pair_verdict
from .stages import stage_covers
from .standard import Side, StandardFacts


@dataclass(frozen=True, slots=True)
class WindowFigures:
    """One window of a ledger: individuals by what they count as, and the clean ones still missing.

    ``covered``: the stages asked for by any pair of the species that were shown well enough in this window.
    """

    number: int
    clean: int
    misses: int
    neutral: int
    still_needed: int
    covered: tuple[str, ...] = ()

    @property
    def passed(self) -> bool:
        return self.still_needed == 0


@dataclass(frozen=True, slots=True)
class LiveFigures:
    """The live run: clean since the last live miss, from so many occasions; ``misses`` in all."""

    clean: int
    occasions: int
    misses: int
    still_needed: int
    met: bool


@dataclass(frozen=True, slots=True)
class Ground:
    """What one pair asks of its dangerous species: the window looked at, what is missing there, whether met."""

    pair: str
    window: int
    specimens: int
    met: bool


@dataclass(frozen=True, slots=True)
class LedgerFigures:
    """One ledger. ``live`` and ``grounds`` on the dangerous side only; ``gaps``: how many things are missing."""

    species: str
    side: Side
    windows: tuple[WindowFigures, ...]
    gaps: int
    live: LiveFigures | None = None
    grounds: tuple[Ground, ...] = ()

    @property
    def passed(self) -> bool:
        return any(window.passed for window in self.windows)

    @property
    def nearest(self) -> WindowFigures:
        """The window that passes, or else the one that asks for the fewest clean specimens more."""
        return min(self.windows, key=lambda window: window.still_needed)

    def window(self, number: int) -> WindowFigures:
        """The window with this number. KeyError if the ledger has none."""
        for window in self.windows:
            if window.number == number:
                return window
        raise KeyError(number)

    @property
    def as_plain(self) -> dict[str, Any]:
        """Lists, whole numbers and words, as ``figures_from`` reads them again."""
        return asdict(self)


@dataclass(frozen=True, slots=True)
class PairFigures:
    """One pair for a long list. Missing: specimens if every further answer is clean; ``begun``: any counted."""

    key: str
    passed: bool
    dangerous_missing: int
    edible_missing: int
    misses: int
    begun: bool


@dataclass(frozen=True, slots=True)
class StandingFigures:
    """One person under one standard. ``gaps``: how many things are missing, 0 exactly when passed."""

    ledgers: tuple[LedgerFigures, ...]
    pairs: tuple[PairFigures, ...]
    gaps: int

    @property
    def pairs_passed(self) -> int:
        return sum(pair.passed for pair in self.pairs)

    @property
    def passed(self) -> bool:
        """Every dangerous pair is passed, and there is at least one."""
        return bool(self.pairs) and self.pairs_passed == len(self.pairs)


def ledger_figures(standard: StandardFacts, ledger: Ledger) -> LedgerFigures:
    """The figures of one ledger of a standard."""
    if ledger.side is Side.EDIBLE:
        windows = tuple(_window(window, (), standard) for window in ledger.windows)
        return LedgerFigures(ledger.species, ledger.side, windows, len(edible_gaps(ledger, ())))
    verdicts = _dangerous_half(standard, ledger)
    run = verdicts[0].live
    asked = tuple(dict.fromkeys(stage for verdict in verdicts for stage in verdict.pair.required_stages))
    return LedgerFigures(
        species=ledger.species,
        side=ledger.side,
        windows=tuple(_window(window, asked, standard) for window in ledger.windows),
        gaps=len(dangerous_gaps(verdicts, standard.stage_clean)),
        live=LiveFigures(run.clean, run.occasions, run.misses, run.still_needed, run.met),
        grounds=tuple(Ground(v.key, v.approach.window.number, v.approach.specimens, v.approach.met) for v in verdicts),
    )


def _dangerous_half(standard: StandardFacts, ledger: Ledger) -> list[PairVerdict]:
    """The pairs of a dangerous species as far as its own ledger goes. The edible ledgers stand there without a
    window, since one species is looked at alone; only what hangs on the dangerous side is read of them.
    """
    reason = standard.live_not_required.get(ledger.species, "")
    run = live_run(ledger.windows[0], standard.live_run, standard.live_occasions, reason)
    return [
        pair_verdict(pair, ledger, Ledger(pair.gathered, Side.EDIBLE, (), ()), run, standard.stage_clean)
        for pair in standard.dangerous_pairs
        if pair.mistaken == ledger.species
    ]


def _window(ledger: WindowLedger, stages: tuple[str, ...], standard: StandardFacts) -> WindowFigures:
    covers = stage_covers(ledger, stages, standard.stage_clean)
    return WindowFigures(
        number=ledger.number,
        clean=ledger.counts.clean,
        misses=ledger.counts.misses,
        neutral=ledger.counts.neutral,
        still_needed=ledger.still_needed,
        covered=tuple(cover.stage for cover in covers if cover.covered),
    )


def standing_figures(standard: StandardFacts, ledgers: Iterable[LedgerFigures]) -> StandingFigures:
    """All ledgers of a person under a standard, put together. KeyError if one of the standard is missing."""
    known = {(ledger.side, ledger.species): ledger for ledger in ledgers}
    ordered = tuple(known[side, species] for side in Side for species in standard.species(side))
    pairs = tuple(
        _pair(pair.key, known[Side.DANGEROUS, pair.mistaken], known[Side.EDIBLE, pair.gathered])
        for pair in standard.dangerous_pairs
    )
    return StandingFigures(ordered, pairs, sum(ledger.gaps for ledger in ordered) if pairs else 1)


def _pair(key: str, dangerous: LedgerFigures, edible: LedgerFigures) -> PairFigures:
    ground = next(ground for ground in dangerous.grounds if ground.pair == key)
    live = dangerous.live
    looked_at, nearest = dangerous.window(ground.window), edible.nearest
    return PairFigures(
        key=key,
        passed=ground.met and edible.passed and live is not None and live.met,
        dangerous_missing=max(ground.specimens, live.still_needed if live else 0),
        edible_missing=nearest.still_needed,
        misses=looked_at.misses,
        begun=any(each.clean or each.misses or each.neutral for each in (looked_at, nearest)),
    )


def pair_figures(verdict: PairVerdict) -> PairFigures:
    """The same of a verdict that was just computed. One live specimen may serve count, stage and run at once."""
    counted = (verdict.approach.window.counts, verdict.edible.nearest.counts)
    return PairFigures(
        key=verdict.key,
        passed=verdict.passed,
        dangerous_missing=max(verdict.approach.specimens, verdict.live.still_needed),
        edible_missing=verdict.edible.nearest.still_needed,
        misses=verdict.approach.window.counts.misses,
        begun=any(counts.decided or counts.neutral for counts in counted),
    )


def figures_from(plain: Mapping[str, Any]) -> LedgerFigures:
    """The figures of a ledger as they were before ``as_plain``."""
    live = plain["live"]
    return LedgerFigures(
        species=plain["species"],
        side=Side(plain["side"]),
        windows=tuple(WindowFigures(**{**each, "covered": tuple(each["covered"])}) for each in plain["windows"]),
        gaps=plain["gaps"],
        live=LiveFigures(**live) if live else None,
        grounds=tuple(Ground(**each) for each in plain["grounds"]),
    )
