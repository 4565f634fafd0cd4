"""Where somebody stands, as pages show it: a sentence per pair, its figures, and every answer."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from math import ceil

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from assessments.models.evidence import MEDIUM_WORDS
from assessments.models.papers import DECISION_WORDS
from assessments.rules.ledger import Ledger, Treatment, WindowLedger
from assessments.rules.live import LiveRun
from assessments.rules.pairs import PairVerdict
from assessments.rules.stages import StageCover
from assessments.rules.standard import Side
from assessments.rules.standing import Standing
from assessments.rules.treatment import Effect

from .flora import Flora, PlantName
from .sentences.gaps import GapLine, gap_lines, pair_sentence, standing_sentence
from .sentences.treatments import effect_word, reason_sentence
from .sentences.words import stage_word

DECISIONS, MEDIA = dict(DECISION_WORDS), dict(MEDIUM_WORDS)
Figures = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class StageLine:
    """One required stage, as `pieces/stage_strip.html` takes it."""

    key: str
    name: str
    state: str
    word: str


@dataclass(frozen=True)
class LedgerLine:
    """One ledger, as `pieces/ladder.html` takes it, with the figures behind it."""

    plant: PlantName
    edible: bool
    clean: int
    misses: int
    needed: int
    still: int
    waiting: bool
    passed: bool
    figures: Figures


@dataclass(frozen=True)
class PairLine:
    """One pair: how it stands in a sentence, both ledgers, stages and live run."""

    key: str
    gathered: PlantName
    mistaken: PlantName
    danger: str
    passed: bool
    begun: bool
    sentence: str
    dangerous: LedgerLine
    edible: LedgerLine
    stages: tuple[StageLine, ...]
    live_sentence: str
    live_met: bool

    @property
    def status(self) -> str:
        """The word for `pieces/status_word.html`."""
        return "met" if self.passed else "part" if self.begun else "waiting"


@dataclass(frozen=True)
class EntryLine:
    """One answer: what was shown, what was said, what it counts as and why."""

    shown_at: datetime
    medium: str
    stage: str
    decision: str
    said: str
    effect: str
    reason: str
    windows: tuple[int, ...]

    @property
    def counts(self) -> bool:
        return bool(self.windows)


@dataclass(frozen=True)
class LedgerPage:
    """Every answer to one species, in order."""

    plant: PlantName
    edible: bool
    entries: tuple[EntryLine, ...]


@dataclass(frozen=True)
class StandingPage:
    """Where somebody stands under one standard."""

    passed: bool
    sentence: str
    pairs: tuple[PairLine, ...]
    gaps: tuple[GapLine, ...]
    ledgers: tuple[LedgerPage, ...]
    outside: tuple[EntryLine, ...]
    windows: int


def standing_page(standing: Standing, flora: Flora) -> StandingPage:
    """Everything that the page of one standing shows; asks nothing of the database."""
    every = (*standing.dangerous, *standing.edible)
    return StandingPage(
        passed=standing.passed,
        sentence=standing_sentence(standing),
        pairs=pair_lines(standing, flora),
        gaps=tuple(gap_lines(standing, flora)),
        ledgers=tuple(_ledger_page(ledger, flora) for ledger in every if ledger.treatments),
        outside=tuple(_entry(each, flora) for each in standing.set_aside),
        windows=len([w for w in every[0].windows if w.window.facts is not None]) if every else 0,
    )


def pair_lines(standing: Standing, flora: Flora, keys: Sequence[str] | None = None) -> tuple[PairLine, ...]:
    """The pairs of a standing, or those with these keys."""
    return tuple(
        _pair_line(verdict, standing, flora) for verdict in standing.pairs if keys is None or verdict.key in keys
    )


def _pair_line(verdict: PairVerdict, standing: Standing, flora: Flora) -> PairLine:
    dangerous = _ledger_line(verdict.dangerous, verdict.approach.window, flora)
    edible = _ledger_line(verdict.edible, verdict.edible.nearest, flora)
    return PairLine(
        key=verdict.key,
        gathered=flora.plant(verdict.pair.gathered),
        mistaken=flora.plant(verdict.pair.mistaken),
        danger=verdict.pair.danger.value,
        passed=verdict.passed,
        begun=not (dangerous.waiting and edible.waiting),
        sentence=pair_sentence(verdict, standing.gaps, flora),
        dangerous=dangerous,
        edible=edible,
        stages=tuple(_stage_line(stage) for stage in verdict.stages),
        live_sentence=live_sentence(verdict.live),
        live_met=verdict.live.met,
    )


def _ledger_line(ledger: Ledger, window: WindowLedger, flora: Flora) -> LedgerLine:
    counts, edible = window.counts, ledger.side is Side.EDIBLE
    return LedgerLine(
        plant=flora.plant(ledger.species),
        edible=edible,
        clean=counts.clean,
        misses=counts.misses,
        needed=window.clean_needed,
        still=window.still_needed,
        waiting=not window.entries,
        passed=window.passed,
        figures=_figures(window, edible),
    )


def _figures(window: WindowLedger, edible: bool) -> Figures:
    counts = window.counts
    figures = [
        (_("Recognised") if edible else _("Clean"), str(counts.clean)),
        (_("Not recognised") if edible else _("Misses"), str(counts.misses)),
        (_("On photographs"), str(counts.decided - window.live)),
        (_("Alive"), str(window.live)),
        (_("Needed in all"), str(window.clean_needed)),
        (_("Still needed"), str(window.still_needed)),
        (
            _("Share not recognised that is ruled out") if edible else _("Share of misses that is ruled out"),
            _("above %(share)s %%") % {"share": ceil(100 * window.upper_limit)},  # never down, for the person
        ),
        (_("Window of evidence"), str(window.number)),
    ]
    if counts.neutral:
        figures.insert(2, (_("Neither for nor against"), str(counts.neutral)))
    return tuple(figures)


def _stage_line(cover: StageCover) -> StageLine:
    state = "clear" if cover.covered else "part" if cover.clean else "wanting"
    word = _("%(clean)s of %(needed)s") % {"clean": min(cover.clean, cover.needed), "needed": cover.needed}
    return StageLine(cover.stage, capfirst(stage_word(cover.stage)), state, word)


def live_sentence(run: LiveRun) -> str:
    """How the live run stands, in a sentence."""
    if run.not_required:
        return _("No living specimen is asked for: %(reason)s") % {"reason": run.not_required}
    return _("Alive: %(clean)s of %(needed)s in a row without a miss, from %(occasions)s of %(wanted)s occasions.") % {
        "clean": min(run.clean, run.clean_needed),
        "needed": run.clean_needed,
        "occasions": min(run.occasions, run.occasions_needed),
        "wanted": run.occasions_needed,
    }


def _ledger_page(ledger: Ledger, flora: Flora) -> LedgerPage:
    edible = ledger.side is Side.EDIBLE
    return LedgerPage(flora.plant(ledger.species), edible, tuple(_entry(each, flora) for each in ledger.treatments))


def _entry(treatment: Treatment, flora: Flora) -> EntryLine:
    answer = treatment.answer
    return EntryLine(
        shown_at=answer.shown_at,
        medium=str(MEDIA[answer.medium.value]),
        stage=stage_word(answer.specimen.stage),
        decision=decision_word(answer.decision.value if answer.decision else ""),
        said=said_word(answer.said, answer.named_species, flora),
        effect=effect_word(treatment.effect, treatment.side is Side.EDIBLE),
        reason=reason_sentence(treatment.reason),
        windows=treatment.windows if treatment.effect is not Effect.NONE else (),
    )


def decision_word(decision: str) -> str:
    """What somebody would do, as the answer read."""
    return str(DECISIONS.get(decision) or _("no answer"))


def said_word(said: str, named: str | None, flora: Flora) -> str:
    """What somebody called a plant: as typed, or the plant chosen."""
    return said or (flora.common(named) if named else _("I don't know"))
