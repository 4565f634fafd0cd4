"""Answers with what became of them, row by row: of a few people under a few standards, in a constant number of queries.

Only what is settled is here: a sitting that is under way, or can still be taken back, has no evidence yet.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from assessments.models import Answer, Evidence, Standard
from assessments.rules.evidence import AnswerFacts
from assessments.rules.ledger import Treatment
from assessments.rules.standard import Side
from assessments.rules.standing import standing

from .answer_pictures import Place, place_of
from .evidence import answers_of, windows_of
from .flora import Flora, PlantName
from .sentences.treatments import effect_word, reason_sentence
from .standards import facts_of


@dataclass(frozen=True)
class Origin:
    """Where an answer was given: a paper or a spot test, by its key and title, and the number of the station."""

    key: str
    title: str
    station: int | None = None


@dataclass(frozen=True)
class Counted:
    """What an answer counts as under one standard, and why: finished words."""

    effect: str
    reason: str


@dataclass(frozen=True)
class ResultLine:
    """One answer. `plant` is None while two people do not agree on it, and where the sitting was annulled.

    `chosen`: what was chosen in a kind of question that asks for more than a name. `counted`: by the id of a standard.
    """

    person: int
    answer: AnswerFacts
    origin: Origin
    plant: PlantName | None
    chosen: str
    counted: Mapping[int, Counted] = field(default_factory=dict)


def results_of(
    people: Collection[int], standards: Sequence[Standard], flora: Flora, now: datetime
) -> dict[int, list[ResultLine]]:
    """For each of these users all that they answered, in order. Standards as from `standards_with_parts`."""
    answers, windows = answers_of(people), windows_of(people, now)
    facts = facts_of(standards)
    origins, chosen = _origins(people), _chosen(people)
    found: dict[int, list[ResultLine]] = {}
    for person in people:
        mine = answers[person]
        counted: dict[Place, dict[int, Counted]] = defaultdict(dict)
        for key, each in facts.items():
            for place, treatment in _treatments(standing(each, mine, windows[person], flora.book).treatments).items():
                counted[place][key] = _counted(treatment)
        found[person] = [
            ResultLine(
                person,
                answer,
                origins[person, *place_of(answer)],
                _plant(answer, flora),
                chosen.get((person, answer.opened_at, answer.position), ""),
                counted[place_of(answer)],
            )
            for answer in mine
        ]
    return found


def _plant(answer: AnswerFacts, flora: Flora) -> PlantName | None:
    """What it is today; an annulled sitting has no result, so what it showed stays untold."""
    if answer.annulled or answer.specimen.species is None:
        return None
    return flora.plant(answer.specimen.species)


def _treatments(treatments: Iterable[Treatment]) -> dict[Place, Treatment]:
    """By answer; the dangerous side where it has two."""
    found: dict[Place, Treatment] = {}
    for each in treatments:
        place = place_of(each.answer)
        if place not in found or each.side is Side.DANGEROUS:
            found[place] = each
    return found


def _counted(treatment: Treatment) -> Counted:
    is_edible = treatment.side is Side.EDIBLE
    return Counted(effect_word(treatment.effect, is_edible), reason_sentence(treatment.reason))


def _origins(people: Collection[int]) -> dict[tuple[int, str, datetime, int], Origin]:
    columns = (
        "person_id",
        "specimen__key",
        "opened_at",
        "position",
        "sitting__seat__paper__key",
        "sitting__seat__paper__title",
        "station__spot_test__key",
        "station__spot_test__title",
        "station__number",
    )
    rows = Evidence.objects.of_people(list(people)).order_by().values_list(*columns)
    return {
        (person, specimen, at, position): Origin(paper or test or "", title or test_title or "", number)
        for person, specimen, at, position, paper, title, test, test_title, number in rows
    }


def _chosen(people: Collection[int]) -> dict[tuple[int, datetime, int], str]:
    """What was chosen beyond a name and a decision, by person, opening and position."""
    seat = "question__sitting__seat__person_id"
    rows = Answer.objects.filter(**{f"{seat}__in": list(people)}, question__sitting__settled_at__isnull=False).exclude(
        chosen=""
    )
    return {
        (person, at, position): chosen
        for person, at, position, chosen in rows.values_list(
            seat, "question__sitting__opened_at", "question__position", "chosen"
        )
    }
