"""What questions that only teach come out as: what was chosen, whether it was right, and what would have been."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assessments.models import Answer, Question
from assessments.rules.kinds import catalogue
from assessments.rules.kinds.shape import Asks, Clue, PictureFacts, Truth
from assessments.rules.standard import Side
from species.models import Specimen
from species.rules.vocabulary import Settlement

from .drawing import clues_of, pictures_of_specimens
from .sentences.kinds import kind_word


@dataclass(frozen=True)
class Told:
    """How one question that only teaches came out; worded by the template of its kind.

    `sides`: what each plant shown is today, in the order shown. `clues`: what can be seen in its stage.
    """

    kind: str
    word: str
    asks: Asks
    chosen: str
    is_right: bool | None
    sides: tuple[str, ...]
    clues: tuple[Clue, ...]

    @property
    def template(self) -> str:
        """Where its own words are."""
        return f"assessments/kinds/told/{self.kind}.html"

    @property
    def status(self) -> str:
        """The mark beside it, as `pieces/status_word.html` takes it."""
        return {True: "met", False: "part", None: "waiting"}[self.is_right]

    @property
    def deciding(self) -> frozenset[str]:
        """The keys of the characters that decide."""
        return frozenset(clue.character for clue in self.clues if clue.decides)


class Teller:
    """Says how the questions of one sitting came out; three queries, none where every question counts."""

    def __init__(self, questions: Iterable[Question]) -> None:
        self.kinds = {kind.key: kind for kind in catalogue.KINDS if not kind.counts}
        teaching = [each for each in questions if each.kind in self.kinds]
        self.clues: Mapping[tuple[str, str], tuple[Clue, ...]] = {}
        self.pictures: dict[int, tuple[PictureFacts, ...]] = {}
        if teaching:
            self.clues = clues_of({each.asks["pair"] for each in teaching if "pair" in each.asks})
            self.pictures = pictures_of_specimens([each.specimen_id for each in teaching if "photo" in each.asks])

    def told(self, question: Question, answer: Answer | None) -> Told | None:
        """How a question came out; None for one that counts, or whose kind is no longer known."""
        kind = self.kinds.get(question.kind)
        if kind is None:
            return None
        truth = self._truth(question)
        chosen = answer.chosen if answer else ""
        return Told(
            kind.key,
            kind_word(kind.key),
            question.asks,
            chosen,
            kind.is_right(question.asks, chosen, truth) if chosen else None,
            tuple(side.value if side else "" for side in truth.sides),
            truth.clues,
        )

    def _truth(self, question: Question) -> Truth:
        plants = [question.specimen, *([question.beside] if question.beside else [])]
        pictures = self.pictures.get(question.specimen_id, ())
        return Truth(
            tuple(_side(plant, question.asks) for plant in plants),
            next((each for each in pictures if each.key == question.asks.get("photo")), None),
            self.clues.get((question.asks.get("pair", ""), question.specimen.stage), ()),
        )


def _side(specimen: Specimen, asks: Asks) -> Side | None:
    """The side of a plant in the pair that was asked about, as it is named today."""
    both = list(asks.get("both", ()))
    if specimen.settlement != Settlement.CONFIRMED or specimen.species is None or specimen.species.key not in both:
        return None
    return Side.EDIBLE if both.index(specimen.species.key) == 0 else Side.DANGEROUS
