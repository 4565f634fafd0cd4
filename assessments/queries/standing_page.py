"""Where somebody stands, as pages show it: a sentence per pair, its figures, and every answer."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from assessments.models.papers import DECISION_WORDS
from assessments.rules.behind import Part, PartKind
from assessments.rules.gaps import GapReason
from assessments.rules.ledger import Ledger, WindowLedger
from assessments.rules.pairs import PairVerdict
from assessments.rules.stages import StageCover
from assessments.rules.standard import Side
from assessments.rules.standing import Standing

from .flora import Flora, PlantName
from .sentences.gaps import GapLine, gap_lines, pair_sentence, standing_sentence
from .sentences.ledgers import ledger_sentence, live_sentence
from .sentences.words import stage_word
from .standing_figures import Figure, FigureMaker, ReasonLine
from .standing_links import StandingLinks

DECISIONS = dict(DECISION_WORDS)


@dataclass(frozen=True)
class MissingLine:
    """One thing that is missing, as `pieces/gap_list.html` takes it, with what opens the answers so far."""

    sentence: str
    remedy: str
    url: str
    link_text: str


@dataclass(frozen=True)
class StageLine:
    """One required stage, as `pieces/stage_strip.html` takes it."""

    key: str
    name: str
    state: str
    word: str
    url: str = ""


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
    window: int
    sentence: str
    figures: tuple[Figure, ...]
    reasons: tuple[ReasonLine, ...]
    url: str
    urls: dict[str, str]


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
    live_url: str
    gaps: tuple[MissingLine, ...]

    @property
    def status(self) -> str:
        """The word for `pieces/status_word.html`."""
        return "met" if self.passed else "part" if self.begun else "waiting"


@dataclass(frozen=True)
class StandingPage:
    """Where somebody stands under one standard."""

    passed: bool
    sentence: str
    pairs: tuple[PairLine, ...]
    ledgers: tuple[LedgerLine, ...]
    gaps: tuple[GapLine, ...]
    set_aside: int
    set_aside_url: str
    windows: int


def standing_page(standing: Standing, flora: Flora, links: StandingLinks | None = None) -> StandingPage:
    """Everything that the page of one standing shows; asks nothing of the database.

    With `links` every figure has the address of the answers behind it.
    """
    every = (*standing.dangerous, *standing.edible)
    return StandingPage(
        passed=standing.passed,
        sentence=standing_sentence(standing),
        pairs=pair_lines(standing, flora, links=links),
        ledgers=tuple(ledger_line(ledger, ledger.nearest, flora, links) for ledger in every),
        gaps=tuple(gap_lines(standing, flora)),
        set_aside=len(standing.set_aside),
        set_aside_url=links.set_aside if links else "",
        windows=len([w for w in every[0].windows if w.window.facts is not None]) if every else 0,
    )


def pair_lines(
    standing: Standing, flora: Flora, keys: Sequence[str] | None = None, links: StandingLinks | None = None
) -> tuple[PairLine, ...]:
    """The pairs of a standing, or those with these keys."""
    gaps = gap_lines(standing, flora)
    return tuple(
        _pair_line(verdict, standing, flora, gaps, links)
        for verdict in standing.pairs
        if keys is None or verdict.key in keys
    )


def _pair_line(
    verdict: PairVerdict, standing: Standing, flora: Flora, gaps: Sequence[GapLine], links: StandingLinks | None
) -> PairLine:
    dangerous = ledger_line(verdict.dangerous, verdict.approach.window, flora, links)
    edible = ledger_line(verdict.edible, verdict.edible.nearest, flora, links)
    maker = FigureMaker(verdict.dangerous, verdict.approach.window, links)
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
        stages=tuple(_stage_line(stage, maker) for stage in verdict.stages),
        live_sentence=live_sentence(verdict.live),
        live_met=verdict.live.met,
        live_url="" if verdict.live.not_required else maker.url(Part(PartKind.LIVE_RUN)),
        gaps=tuple(_missing(line, links) for line in gaps if verdict.key in line.gap.pairs),
    )


def _missing(line: GapLine, links: StandingLinks | None) -> MissingLine:
    gap = line.gap
    side = Side.EDIBLE if gap.reason in (GapReason.EDIBLE_MISSED, GapReason.EDIBLE_SHORT) else Side.DANGEROUS
    if gap.stage is not None:
        part = Part(PartKind.STAGE, gap.stage)
    elif gap.occasions_needed:
        part = Part(PartKind.LIVE_RUN)
    else:
        part = Part(PartKind.COUNTED)
    url = links.ledger(gap.species, side, part, gap.window) if links else ""
    return MissingLine(line.sentence, line.remedy, url, _("What there is so far"))


def ledger_line(ledger: Ledger, window: WindowLedger, flora: Flora, links: StandingLinks | None) -> LedgerLine:
    """One ledger as seen from one of its windows."""
    counts, maker = window.counts, FigureMaker(ledger, window, links)
    return LedgerLine(
        plant=flora.plant(ledger.species),
        edible=ledger.side is Side.EDIBLE,
        clean=counts.clean,
        misses=counts.misses,
        needed=window.clean_needed,
        still=window.still_needed,
        waiting=not window.entries,
        passed=window.passed,
        window=window.number,
        sentence=ledger_sentence(ledger, window),
        figures=maker.figures(),
        reasons=maker.reasons(),
        url=links.ledger(ledger.species, ledger.side) if links else "",
        urls=maker.urls(),
    )


def _stage_line(cover: StageCover, maker: FigureMaker) -> StageLine:
    state = "clear" if cover.covered else "part" if cover.clean else "wanting"
    word = _("%(clean)s of %(needed)s") % {"clean": min(cover.clean, cover.needed), "needed": cover.needed}
    url = maker.url(Part(PartKind.STAGE, cover.stage))
    return StageLine(cover.stage, capfirst(stage_word(cover.stage)), state, word, url)


def decision_word(decision: str) -> str:
    """What somebody would do, as the answer read."""
    return str(DECISIONS.get(decision) or _("no answer"))


def said_word(said: str, named: str | None, flora: Flora) -> str:
    """What somebody called a plant: as typed, or the plant chosen."""
    return said or (flora.common(named) if named else _("I don't know"))
