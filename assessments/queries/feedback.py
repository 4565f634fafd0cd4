"""What somebody learns from a paper once it is handed in: plant by plant, and where it leaves them."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Question, Sitting
from assessments.models.papers import CONFIDENCE_WORDS
from assessments.rules.evidence import Confidence, Decision
from assessments.rules.ledger import Treatment
from assessments.rules.standard import PairFacts, Side
from assessments.rules.standing import Standing
from assessments.rules.treatment import Effect, Reason
from species.models import Photo, Specimen
from species.rules.vocabulary import Settlement

from .bank import pairs_of_paper
from .flora import Flora, PlantName, the_flora
from .sentences.gaps import GapLine, gap_lines
from .sentences.treatments import effect_word, reason_sentence
from .sentences.words import stage_word
from .sittings import answer_to
from .standing_page import PairLine, decision_word, pair_lines, said_word
from .standings import standing_of
from .tellings import Telling, characters_of, tellings_at

MOST_GAPS = 3
MOST_PAIRS = 3
CONFIDENCES = dict(CONFIDENCE_WORDS)


@dataclass(frozen=True)
class Item:
    """One question: the plant, what was said of it, what that counts as, and what told it apart."""

    position: int
    plant: PlantName | None
    stage: str
    pictures: range
    alt: str
    is_drawn: bool
    decision: str
    said: str
    confidence: str
    effect: str
    status: str
    reason: str
    is_miss: bool
    is_sure: bool
    taken_for: PlantName | None
    pair: str
    gathered: PlantName | None
    mistaken: PlantName | None
    tellings: tuple[Telling, ...]


@dataclass(frozen=True)
class Feedback:
    """A paper as it came out. `sure_and_wrong` are dangerous plants gathered without doubt."""

    title: str
    handed_in_at: datetime | None
    closed_itself: bool
    items: tuple[Item, ...]
    never_shown: int
    pairs: tuple[PairLine, ...]
    gaps: tuple[GapLine, ...]
    standard_key: str

    @property
    def sure_and_wrong(self) -> tuple[Item, ...]:
        return tuple(item for item in self.items if item.is_miss and item.is_sure)

    @property
    def to_practise(self) -> tuple[str, ...]:
        """Keys of the pairs of what was not told, those of misses first; empty when everything was."""
        wrong = sorted((item for item in self.items if item.status != "met"), key=lambda item: not item.is_miss)
        return tuple(dict.fromkeys(item.pair for item in wrong if item.pair))[:MOST_PAIRS]

    @property
    def other_misses(self) -> tuple[Item, ...]:
        return tuple(item for item in self.items if item.is_miss and not item.is_sure)


def feedback_on(sitting: Sitting, person: User, now: datetime) -> Feedback:
    """The feedback on a settled sitting, in a constant number of queries."""
    paper, flora = sitting.seat.paper, the_flora()
    where = standing_of(person, paper.standard, now, flora)
    pairs = pairs_of_paper(paper, where.standard)
    keys = [pair.key for pair in pairs]
    maker = _Maker(sitting, pairs, where, flora)
    shown = Question.objects.shown().filter(sitting=sitting).order_by("position")
    rows = list(shown.select_related("specimen__species", "answer__named"))
    photos = _photos([row.specimen_id for row in rows])
    return Feedback(
        title=paper.title,
        handed_in_at=sitting.handed_in_at,
        closed_itself=sitting.closed_itself,
        items=tuple(maker.item(row, photos[row.specimen_id]) for row in rows),
        never_shown=sitting.questions.count() - len(rows),
        pairs=pair_lines(where, flora, keys),
        gaps=tuple(line for line in gap_lines(where, flora) if set(line.gap.pairs) & set(keys))[:MOST_GAPS],
        standard_key=paper.standard.key,
    )


def _photos(specimens: list[int]) -> dict[int, list[Photo]]:
    found: dict[int, list[Photo]] = defaultdict(list)
    for photo in Photo.objects.filter(specimen_id__in=specimens).order_by("order", "id"):
        found[photo.specimen_id].append(photo)
    return found


class _Maker:
    """Makes the items of one sitting from what was read once."""

    def __init__(self, sitting: Sitting, pairs: tuple[PairFacts, ...], standing: Standing, flora: Flora) -> None:
        self.pairs, self.flora = pairs, flora
        self.treatments = _treatments(standing, sitting.opened_at)
        self.characters = characters_of([pair.key for pair in pairs])

    def item(self, question: Question, photos: list[Photo]) -> Item:
        specimen, answer = question.specimen, answer_to(question)
        plant = _plant(specimen, self.flora)
        treatment = self.treatments.get(specimen.key)
        named = answer.named.key if answer and answer.named else None
        pair = self._pair(plant, named)
        miss = treatment is not None and treatment.reason is Reason.GATHERED_DANGEROUS
        return Item(
            position=question.position,
            plant=plant,
            stage=stage_word(specimen.stage),
            pictures=range(1, len(photos) + 1),
            alt=photos[0].alt_full if photos else "",
            is_drawn=specimen.is_drawn,
            decision=decision_word(answer.decision if answer else ""),
            said=said_word(answer.said, named, self.flora) if answer else "",
            confidence=str(CONFIDENCES.get(answer.confidence, "")) if answer else "",
            effect=_effect_word(treatment),
            status=_status(treatment),
            reason=reason_sentence(treatment.reason if treatment else Reason.SPECIMEN_NOT_SETTLED),
            is_miss=miss or (answer is not None and self._is_gathered_danger(plant, answer.decision)),
            is_sure=answer is not None and answer.confidence == Confidence.SURE,
            taken_for=self.flora.plant(named) if named and plant and named != plant.key else None,
            pair=pair.key if pair else "",
            gathered=self.flora.plant(pair.gathered) if pair else None,
            mistaken=self.flora.plant(pair.mistaken) if pair else None,
            tellings=tellings_at(self.characters[pair.key], specimen.stage) if pair else (),
        )

    def _is_gathered_danger(self, plant: PlantName | None, decision: str) -> bool:
        dangerous = {pair.mistaken for pair in self.pairs}
        return plant is not None and plant.key in dangerous and decision == Decision.GATHER

    def _pair(self, plant: PlantName | None, named: str | None) -> PairFacts | None:
        """The pair to explain it by: the one that was confused if any, else the first of the plant."""
        if plant is None:
            return None
        mine = [pair for pair in self.pairs if plant.key in (pair.gathered, pair.mistaken)]
        confused = [pair for pair in mine if named != plant.key and named in (pair.gathered, pair.mistaken)]
        return next(iter([*confused, *mine]), None)


def _plant(specimen: Specimen, flora: Flora) -> PlantName | None:
    """What the specimen is today; None while two people do not agree on it."""
    confirmed = specimen.settlement == Settlement.CONFIRMED and specimen.species is not None
    return flora.plant(specimen.species.key) if confirmed and specimen.species else None


def _treatments(standing: Standing, opened_at: datetime) -> dict[str, Treatment]:
    """By specimen: how its answer in this sitting was treated; the dangerous side where it has two."""
    mine = [each for each in standing.treatments if each.answer.opened_at == opened_at]
    found = {each.answer.specimen.key: each for each in mine if each.side is not Side.DANGEROUS}
    return found | {each.answer.specimen.key: each for each in mine if each.side is Side.DANGEROUS}


def _effect_word(treatment: Treatment | None) -> str:
    if treatment is None:
        return effect_word(Effect.NONE)
    return effect_word(treatment.effect, treatment.side is Side.EDIBLE)


def _status(treatment: Treatment | None) -> str:
    """The mark beside an answer, as `pieces/status_word.html` takes it."""
    marks = {Effect.CLEAN: "met", Effect.MISS: "unmet", Effect.NEUTRAL: "part", Effect.NONE: "waiting"}
    return marks[treatment.effect if treatment else Effect.NONE]
