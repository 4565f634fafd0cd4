"""What somebody learns from a paper once it is handed in: plant by plant, and where it leaves them."""

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Answer, Question, Sitting
from assessments.models.papers import CONFIDENCE_WORDS
from assessments.rules.evidence import Confidence, Decision
from assessments.rules.ledger import Treatment
from assessments.rules.moves import moves
from assessments.rules.standard import PairFacts, Side
from assessments.rules.standing import Standing, standing
from assessments.rules.treatment import Effect, Reason
from species.models import Specimen
from species.queries.pictures import Picture, teaching_pictures
from species.queries.regions import RegionShown
from species.rules.vocabulary import Settlement

from .appeals import states_of_appeals
from .bank import pairs_of_paper
from .evidence import answers_of, windows_of
from .flora import Flora, PlantName, the_flora
from .own_pictures import OwnPicture, OwnPictures
from .sentences.appeals import STATE_WORDS
from .sentences.gaps import GapLine, gap_lines
from .sentences.moves import MoveLine, move_line
from .sentences.treatments import effect_word, reason_sentence
from .sentences.words import stage_word
from .sittings import answer_to, decisions_of
from .standards import standard_facts
from .standing_page import decision_word, said_word
from .tellings import Telling, characters_of, tellings_at
from .told import Teller, Told

MOST_GAPS = 3
MOST_PAIRS = 3
CONFIDENCES = dict(CONFIDENCE_WORDS)


@dataclass(frozen=True)
class Item:
    """One question: the plant, what was said of it, what that counts as, and what told it apart.

    `second`: the plant beside it, where there were two. `told`: how a question came out that only teaches.
    `appeals`: for each of its plants how far an appeal against it is, empty without one.
    `regions`: what is marked on its first picture of what tells it apart. `beside`: a teaching picture of the plant it
    was taken for.
    """

    position: int
    plant: PlantName | None
    second: PlantName | None
    stage: str
    pictures: tuple[OwnPicture, ...]
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
    beside: Picture | None
    pair: str
    gathered: PlantName | None
    mistaken: PlantName | None
    tellings: tuple[Telling, ...]
    regions: tuple[RegionShown, ...]
    told: Told | None
    appeals: tuple[str, ...]


@dataclass(frozen=True)
class Feedback:
    """A paper as it came out. `sure_and_wrong` are dangerous plants gathered without doubt."""

    title: str
    handed_in_at: datetime | None
    closed_itself: bool
    items: tuple[Item, ...]
    never_shown: int
    moves: tuple[MoveLine, ...]
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
    facts = standard_facts(paper.standard)
    answers, windows = answers_of([person.pk])[person.pk], windows_of([person.pk], now)[person.pk]
    where = standing(facts, answers, windows, flora.book)
    pairs = pairs_of_paper(paper, where.standard)
    keys = [pair.key for pair in pairs]
    shown = Question.objects.shown().filter(sitting=sitting).order_by("position")
    rows = list(shown.select_related("specimen__species", "beside__species", "answer__named"))
    maker = _Maker(sitting, rows, pairs, where, flora)
    moved = moves(facts, answers, windows, flora.book, sitting.opened_at, keys)
    by_key = {pair.key: pair for pair in pairs}
    return Feedback(
        title=paper.title,
        handed_in_at=sitting.handed_in_at,
        closed_itself=sitting.closed_itself,
        items=tuple(maker.item(row) for row in rows),
        never_shown=sitting.questions.count() - len(rows),
        moves=tuple(move_line(each, by_key[each.pair], flora) for each in moved),
        gaps=tuple(line for line in gap_lines(where, flora) if set(line.gap.pairs) & set(keys))[:MOST_GAPS],
        standard_key=paper.standard.key,
    )


class _Maker:
    """Makes the items of one sitting from what was read once."""

    def __init__(
        self, sitting: Sitting, rows: list[Question], pairs: tuple[PairFacts, ...], standing: Standing, flora: Flora
    ) -> None:
        self.pairs, self.flora = pairs, flora
        self.dangerous = {pair.mistaken for pair in pairs}
        self.treatments = _treatments(standing, sitting.opened_at)
        self.characters = characters_of([pair.key for pair in pairs])
        self.pictures = OwnPictures(sitting, rows)
        self.teller = Teller(rows)
        self.appeals = states_of_appeals(sitting.pk)
        self.beside = teaching_pictures(self._doubles(rows))

    def item(self, question: Question) -> Item:
        specimen, answer = question.specimen, answer_to(question)
        plant, second = _plant(specimen, self.flora), _plant(question.beside, self.flora)
        treatment = self.treatments.get(specimen.key)
        named = answer.named.key if answer and answer.named else None
        pair = self._pair(plant, named)
        tellings = tellings_at(self.characters[pair.key], specimen.stage) if pair else ()
        told = self.teller.told(question, answer)
        taken_for = self.flora.plant(named) if named and plant and named != plant.key else None
        return Item(
            position=question.position,
            plant=plant,
            second=second,
            stage=stage_word(specimen.stage),
            pictures=self.pictures.of(question),
            is_drawn=specimen.is_drawn,
            decision=decision_word(answer.decision if answer else ""),
            said=said_word(answer.said, named, self.flora) if answer else "",
            confidence=str(CONFIDENCES.get(answer.confidence, "")) if answer else "",
            effect=_effect_word(treatment),
            status=told.status if told else _status(treatment),
            reason=reason_sentence(treatment.reason if treatment else Reason.SPECIMEN_NOT_SETTLED),
            is_miss=self._is_miss(question, answer),
            is_sure=answer is not None and answer.confidence == Confidence.SURE,
            taken_for=taken_for,
            beside=self._picture_of(taken_for, specimen.stage),
            pair=pair.key if pair else "",
            gathered=self.flora.plant(pair.gathered) if pair else None,
            mistaken=self.flora.plant(pair.mistaken) if pair else None,
            tellings=tellings,
            regions=self.pictures.marked(question, told.deciding if told else {each.character for each in tellings}),
            told=told,
            appeals=tuple(self._appeal(question.position, each) for each in question.specimen_ids),
        )

    def _appeal(self, position: int, specimen_id: int) -> str:
        state = self.appeals.get((position, specimen_id))
        return str(STATE_WORDS[state]) if state else ""

    def _doubles(self, rows: list[Question]) -> set[int]:
        """The species that something else was taken for."""
        answers = [answer_to(row) for row in rows]
        return {answer.named_id for answer in answers if answer is not None and answer.named_id}

    def _picture_of(self, plant: PlantName | None, stage: str) -> Picture | None:
        by_stage = self.beside.get(plant.id, {}) if plant else {}
        return next(iter([*by_stage.get(stage, []), *(each for some in by_stage.values() for each in some)]), None)

    def _is_miss(self, question: Question, answer: Answer | None) -> bool:
        """Whether a dangerous plant of these pairs would have been gathered, in whatever kind of question."""
        shown = [question.specimen, *([question.beside] if question.beside else [])]
        said = decisions_of(question, answer)
        plants = (_plant(each, self.flora) for each in shown)
        return any(
            plant is not None and plant.key in self.dangerous and decision == Decision.GATHER
            for plant, decision in zip(plants, said, strict=True)
        )

    def _pair(self, plant: PlantName | None, named: str | None) -> PairFacts | None:
        """The pair to explain it by: the one that was confused if any, else the first of the plant."""
        if plant is None:
            return None
        mine = [pair for pair in self.pairs if plant.key in (pair.gathered, pair.mistaken)]
        confused = [pair for pair in mine if named != plant.key and named in (pair.gathered, pair.mistaken)]
        return next(iter([*confused, *mine]), None)


def _plant(specimen: Specimen | None, flora: Flora) -> PlantName | None:
    """What the specimen is today; None while two people do not agree on it."""
    if specimen is None:
        return None
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
