"""The answers behind the figures of one ledger: what was shown and said, what it counts as, and why."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.models.evidence import MEDIUM_WORDS
from assessments.models.papers import CONFIDENCE_WORDS
from assessments.rules.behind import Part, PartKind, answers_behind, decided_by
from assessments.rules.ledger import Ledger, Treatment, WindowLedger
from assessments.rules.standard import Side
from assessments.rules.standing import Standing
from assessments.rules.treatment import Effect
from species.models import Determination

from .answer_pictures import AnswerPicture, answer_pictures, place_of
from .flora import Flora, PlantName
from .sentences.ledgers import EFFECT_MARKS, ledger_sentence, needed_sentence, part_heading
from .sentences.treatments import effect_word, reason_sentence
from .sentences.words import stage_word
from .standing_figures import Figure, FigureMaker, ReasonLine
from .standing_links import StandingLinks
from .standing_page import decision_word, said_word

MEDIA, CONFIDENCES = dict(MEDIUM_WORDS), dict(CONFIDENCE_WORDS)


@dataclass(frozen=True)
class EntryLine:
    """One answer. `specimen` is a key, which no page shows; `number` is its place among all answers of the page.

    `decided_by` is the number of the answer that counts in its place, 0 where there is none. `plant` is None
    while two people do not agree on it.
    """

    number: int
    specimen: str
    shown_at: datetime
    medium: str
    stage: str
    plant: PlantName | None
    decision: str
    is_answered: bool
    said: str
    confidence: str
    effect: str
    status: str
    is_danger: bool
    reason: str
    windows: str
    named_anew_on: datetime | None
    decided_by: int
    picture: AnswerPicture | None


@dataclass(frozen=True)
class WindowLine:
    """One window of a ledger: when it opened and closes (None for one that nobody has opened), its figures."""

    number: int
    opened_at: datetime | None
    closes_at: datetime | None
    sentence: str
    passed: bool
    figures: tuple[Figure, ...]
    reasons: tuple[ReasonLine, ...]
    needed_sentence: str


@dataclass(frozen=True)
class LedgerPage:
    """One ledger. `entries` are the answers of the part that was asked for, seen from window `window`."""

    plant: PlantName
    edible: bool
    windows: tuple[WindowLine, ...]
    window: WindowLine
    heading: str
    is_whole: bool
    entries: tuple[EntryLine, ...]
    total: int
    url: str


@dataclass(frozen=True)
class People:
    """Whose answers are shown, and to whom."""

    person: User
    viewer: User


def ledger_page(
    ledger: Ledger, part: Part, window_number: int, people: People, flora: Flora, links: StandingLinks
) -> LedgerPage | None:
    """The answers of one part of a ledger, in at most three queries; None without such a window."""
    window = next((each for each in ledger.windows if each.number == window_number), None)
    if window is None:
        return None
    chosen = answers_behind(ledger, window, part)
    lines = tuple(_window_line(ledger, each, links) for each in ledger.windows)
    edible = ledger.side is Side.EDIBLE
    return LedgerPage(
        plant=flora.plant(ledger.species),
        edible=edible,
        windows=lines,
        window=lines[ledger.windows.index(window)],
        heading=part_heading(part, edible),
        is_whole=part.kind is PartKind.ALL,
        entries=_entries(ledger.treatments, chosen, people, flora, ledger),
        total=len(ledger.treatments),
        url=links.ledger(ledger.species, ledger.side),
    )


def set_aside_entries(standing: Standing, people: People, flora: Flora) -> tuple[EntryLine, ...]:
    """The answers that belong to no pair of the standard, in order; at most three queries."""
    return _entries(standing.set_aside, standing.set_aside, people, flora)


def _window_line(ledger: Ledger, window: WindowLedger, links: StandingLinks) -> WindowLine:
    maker, facts = FigureMaker(ledger, window, links), window.window.facts
    return WindowLine(
        number=window.number,
        opened_at=facts.opened_at if facts else None,
        closes_at=facts.closes_at if facts else None,
        sentence=ledger_sentence(ledger, window),
        passed=window.passed,
        figures=maker.figures(),
        reasons=maker.reasons(),
        needed_sentence=needed_sentence(window, maker.edible),
    )


def _entries(
    every: tuple[Treatment, ...],
    chosen: Collection[Treatment],
    people: People,
    flora: Flora,
    ledger: Ledger | None = None,
) -> tuple[EntryLine, ...]:
    numbers = {id(each): number for number, each in enumerate(every, start=1)}
    pictures = answer_pictures(people.person, people.viewer, [each.answer for each in chosen])
    anew = _named_anew(chosen)
    found = []
    for each in chosen:
        decider = decided_by(ledger, each) if ledger is not None else None
        place = place_of(each.answer)
        number, decider_number = numbers[id(each)], numbers[id(decider)] if decider else 0
        found.append(_entry(each, flora, number, decider_number, pictures.get(place), anew.get(place)))
    return tuple(found)


def _entry(
    treatment: Treatment,
    flora: Flora,
    number: int,
    decider: int,
    picture: AnswerPicture | None,
    named_anew_on: datetime | None,
) -> EntryLine:
    answer, edible = treatment.answer, treatment.side is Side.EDIBLE
    return EntryLine(
        number=number,
        specimen=answer.specimen.key,
        shown_at=answer.shown_at,
        medium=str(MEDIA[answer.medium.value]),
        stage=stage_word(answer.specimen.stage),
        plant=flora.plant(treatment.species) if treatment.species else None,
        decision=decision_word(answer.decision.value if answer.decision else ""),
        is_answered=answer.decision is not None,
        said=said_word(answer.said, answer.named_species, flora),
        confidence=str(CONFIDENCES[answer.confidence.value]) if answer.confidence else "",
        effect=effect_word(treatment.effect, edible),
        status=EFFECT_MARKS[treatment.effect],
        is_danger=treatment.effect is Effect.MISS and not edible,
        reason=reason_sentence(treatment.reason),
        windows=_windows_words(treatment),
        named_anew_on=named_anew_on,
        decided_by=decider,
        picture=picture,
    )


def _windows_words(treatment: Treatment) -> str:
    """In which windows an answer stands; empty for one that does not count."""
    if treatment.effect is Effect.NONE or not treatment.windows:
        return ""
    numbers = [str(number) for number in treatment.windows]
    joined = (
        numbers[0]
        if len(numbers) == 1
        else _("%(some)s and %(last)s")
        % {
            "some": ", ".join(numbers[:-1]),
            "last": numbers[-1],
        }
    )
    return ngettext("in window %(numbers)s", "in windows %(numbers)s", len(numbers)) % {"numbers": joined}


def _named_anew(treatments: Iterable[Treatment]) -> dict[tuple[str, datetime, int], datetime]:
    """Answers whose plant has been named anew since it was shown, and when; one query.

    That is: somebody had named it otherwise before, and fewer than two as it is named today.
    """
    settled = [each for each in treatments if each.species]
    rows = Determination.objects.filter(specimen__key__in={each.answer.specimen.key for each in settled})
    named: dict[str, list[tuple[datetime, str | None]]] = {}
    for specimen, when, species in rows.order_by("determined_at", "id").values_list(
        "specimen__key", "determined_at", "species__key"
    ):
        named.setdefault(specimen, []).append((when, species))
    found = {}
    for each in settled:
        known = named.get(each.answer.specimen.key, [])
        before = [species for when, species in known if when <= each.answer.shown_at]
        after = [when for when, species in known if when > each.answer.shown_at and species == each.species]
        if after and before.count(each.species) < 2 and any(species != each.species for species in before):
            found[place_of(each.answer)] = after[-1]
    return found
