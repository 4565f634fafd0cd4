"""How each answer is treated in the ledger of one species, and why.

| shown the dangerous species | |
|---|---|
| would gather, under whatever name, in any kind of question | miss |
| refuses; names it, another plant, or nothing | clean |
| refuses, but names it as an edible species it is taken for | neutral |
| leaves it, or never answered | neutral |

| shown the edible species | |
|---|---|
| would gather and names it rightly (recognise-only: names it rightly) | clean |
| anything else | miss, that is: not recognised |

The first answer to an individual that is not void decides. Later ones add nothing, except that a gather of a
dangerous species is a miss whenever it comes. At most two individuals of a species from one place on one day
count. The places go to those that count: a neutral answer takes none.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from .evidence import AnswerFacts, Decision
from .kinds.catalogue import counts_as_evidence
from .names import NameBook, NameKind
from .standard import Side, StandardFacts

MOST_FROM_ONE_PLACE_AND_DAY = 2
"""Individuals of a species from one locality on one day that count; a choice, since neighbours are alike."""


class Effect(StrEnum):
    """What an answer counts as. On the edible side a miss is "not recognised"."""

    CLEAN = "clean"
    MISS = "miss"
    NEUTRAL = "neutral"
    NONE = "none"


class Reason(StrEnum):
    """Why an answer counts as it does."""

    GATHERED_DANGEROUS = "gathered_dangerous"
    REFUSED_AND_NAMED = "refused_and_named"
    REFUSED = "refused"
    REFUSED_AS_EDIBLE = "refused_as_edible"
    LEFT = "left"
    UNANSWERED = "unanswered"
    RECOGNISED = "recognised"
    RECOGNISED_BY_NAME = "recognised_by_name"
    NAMED_WRONGLY = "named_wrongly"
    NAMED_GENUS_ONLY = "named_genus_only"
    NOT_NAMED = "not_named"
    REFUSED_EDIBLE = "refused_edible"
    ANSWERED_BEFORE = "answered_before"
    GATHERED_BEFORE = "gathered_before"
    GATHERED_LATER = "gathered_later"
    TWO_FROM_THERE_ALREADY = "two_from_there_already"
    KIND_DOES_NOT_COUNT = "kind_does_not_count"
    STAGE_DOES_NOT_COUNT = "stage_does_not_count"
    OUTSIDE_EVERY_WINDOW = "outside_every_window"
    SPECIMEN_VOID = "specimen_void"
    SPECIMEN_NOT_SETTLED = "specimen_not_settled"
    SITTING_ANNULLED = "sitting_annulled"
    DRAWING = "drawing"
    NOT_IN_STANDARD = "not_in_standard"


@dataclass(frozen=True, slots=True)
class Reading:
    """One answer, read for one ledger but not yet placed in a window.

    ``judged`` is what the answer says by itself, ``effect`` what it counts as once places are taken into
    account; the two differ only for individuals beyond the two of a place and day.
    """

    answer: AnswerFacts
    judged: Effect
    effect: Effect
    reason: Reason

    @property
    def individual(self) -> str:
        return self.answer.specimen.individual

    @property
    def stage(self) -> str:
        return self.answer.specimen.stage


def set_aside(answer: AnswerFacts, standard: StandardFacts) -> Reason | None:
    """Why an answer is no evidence at all, whatever it says; None if it is."""
    specimen = answer.specimen
    if specimen.void:
        return Reason.SPECIMEN_VOID
    if specimen.species is None:
        return Reason.SPECIMEN_NOT_SETTLED
    if answer.annulled:
        return Reason.SITTING_ANNULLED
    return Reason.DRAWING if specimen.drawn and not standard.drawings_count else None


@dataclass(frozen=True, slots=True)
class Asked:
    """What a standard asks of one species on one side.

    ``taken_as``: edible species that a dangerous one is taken for. ``by_name_alone``: recognised by its name,
    whatever the decision. ``stages`` in which an edible specimen enters its ledger; None means every stage.
    """

    side: Side
    taken_as: frozenset[str] = frozenset()
    by_name_alone: bool = False
    stages: frozenset[str] | None = None


def stages_that_count(species: str, standard: StandardFacts) -> frozenset[str] | None:
    """Stages in which a specimen of an edible species enters its ledger; None means every stage.

    One ledger serves all pairs of the species, so a stage counts only where *every* dangerous pair of it is fair:
    a ramsons leaf may be told from one lookalike and not from the next, and then leaving it is right. Empty where
    the pairs have no stage in common. What is recognised by its name alone puts nobody at risk in any stage.
    """
    listed = [pair.edible_stages for pair in standard.dangerous_pairs if pair.gathered == species]
    named = [frozenset(stages) for stages in listed if stages is not None]
    if species in standard.recognise_only or not named:
        return None
    return frozenset.intersection(*named)


def asked_of(species: str, side: Side, standard: StandardFacts) -> Asked:
    """What a standard asks of a species."""
    if side is Side.DANGEROUS:
        return Asked(side, taken_as=standard.taken_as(species))
    by_name_alone = species in standard.recognise_only
    return Asked(side, by_name_alone=by_name_alone, stages=stages_that_count(species, standard))


def judge_dangerous(answer: AnswerFacts, asked: Asked, names: NameBook) -> tuple[Effect, Reason]:
    """What an answer to a dangerous species says by itself, if the plant was not gathered."""
    if answer.decision is None:
        return Effect.NEUTRAL, Reason.UNANSWERED
    if answer.decision is Decision.LEAVE:
        return Effect.NEUTRAL, Reason.LEFT
    kind = names.kind(answer, asked.taken_as)
    if kind is NameKind.AS_EDIBLE:
        return Effect.NEUTRAL, Reason.REFUSED_AS_EDIBLE
    return Effect.CLEAN, Reason.REFUSED_AND_NAMED if kind is NameKind.RIGHT else Reason.REFUSED


WRONG_NAMES = {
    NameKind.NOTHING: Reason.NOT_NAMED,
    NameKind.GENUS_ONLY: Reason.NAMED_GENUS_ONLY,
    NameKind.ANOTHER: Reason.NAMED_WRONGLY,
}


def judge_edible(answer: AnswerFacts, asked: Asked, names: NameBook) -> tuple[Effect, Reason]:
    """What an answer to an edible species says by itself."""
    if answer.decision is None:
        return Effect.MISS, Reason.UNANSWERED
    kind = names.kind(answer)
    if asked.by_name_alone:
        if kind is NameKind.RIGHT:
            return Effect.CLEAN, Reason.RECOGNISED_BY_NAME
        return Effect.MISS, WRONG_NAMES[kind]
    if answer.decision is Decision.LEAVE:
        return Effect.MISS, Reason.LEFT
    if answer.decision is Decision.REFUSE:
        return Effect.MISS, Reason.REFUSED_EDIBLE
    if kind is NameKind.RIGHT:
        return Effect.CLEAN, Reason.RECOGNISED
    return Effect.MISS, WRONG_NAMES[kind]


class Reader:
    """Reads the answers to one species, in order, for the ledger of one side."""

    def __init__(self, species: str, side: Side, standard: StandardFacts, names: NameBook) -> None:
        self.standard, self.names = standard, names
        self.asked = asked_of(species, side, standard)
        self._answered: set[str] = set()
        self._places: Counter[tuple[str, date]] = Counter()

    def read(self, answer: AnswerFacts) -> Reading:
        """The next answer."""
        aside = set_aside(answer, self.standard)
        if aside is not None:
            return Reading(answer, Effect.NONE, Effect.NONE, aside)
        first = answer.specimen.individual not in self._answered
        self._answered.add(answer.specimen.individual)
        judged, effect, reason = self._weigh(answer, first)
        if first and effect in (Effect.CLEAN, Effect.MISS):
            self._places[answer.specimen.locality, answer.specimen.day] += 1
        return Reading(answer, judged, effect, reason)

    def _weigh(self, answer: AnswerFacts, first: bool) -> tuple[Effect, Effect, Reason]:
        dangerous = self.asked.side is Side.DANGEROUS
        if dangerous and answer.decision is Decision.GATHER:
            return Effect.MISS, Effect.MISS, Reason.GATHERED_DANGEROUS
        if not first:
            return Effect.NONE, Effect.NONE, Reason.ANSWERED_BEFORE
        if not counts_as_evidence(answer.kind):
            return Effect.NONE, Effect.NONE, Reason.KIND_DOES_NOT_COUNT
        if self.asked.stages is not None and answer.specimen.stage not in self.asked.stages:
            return Effect.NONE, Effect.NONE, Reason.STAGE_DOES_NOT_COUNT
        judge = judge_dangerous if dangerous else judge_edible
        judged, reason = judge(answer, self.asked, self.names)
        taken = self._places[answer.specimen.locality, answer.specimen.day]
        if judged is not Effect.NEUTRAL and taken >= MOST_FROM_ONE_PLACE_AND_DAY:
            return judged, Effect.NONE, Reason.TWO_FROM_THERE_ALREADY
        return judged, judged, reason


def read_answers(
    species: str, side: Side, standard: StandardFacts, answers: Sequence[AnswerFacts], names: NameBook
) -> tuple[Reading, ...]:
    """The readings of the answers to one species, which must be in order (``evidence.in_order``)."""
    reader = Reader(species, side, standard, names)
    return tuple(reader.read(answer) for answer in answers)
