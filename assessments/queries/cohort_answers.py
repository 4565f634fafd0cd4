"""The answers of several people in some papers and spot tests, to be looked at together."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cached_property

from assessments.models import Evidence, Standard
from assessments.rules.cohort_reading import answers_to_look_at, as_answer_to_item, as_said, claim_was_right
from assessments.rules.confidence import sure_and_wrong
from assessments.rules.confusion_map import ConfusionMap, confusion_map
from assessments.rules.evidence import AnswerFacts
from assessments.rules.flags import NO_OTHER
from assessments.rules.standard import Side, StandardFacts
from species.rules.vocabulary import Edibility

from .evidence import answers_among
from .flora import Flora
from .standards import standard_facts

EATEN_BY_NOBODY = (Edibility.DEADLY, Edibility.POISONOUS)


@dataclass(frozen=True)
class CohortAnswers:
    """What a cohort answered, by user, in order; void plants, annulled sittings and questions never answered left
    out. `tutor_differs`: specimens that one of the tutors named otherwise when they sat a test themselves."""

    standard: StandardFacts
    flora: Flora
    answers: dict[int, tuple[AnswerFacts, ...]]
    tutor_differs: frozenset[str]

    @property
    def all(self) -> list[tuple[int, AnswerFacts]]:
        """Every answer with the user who gave it."""
        return [(person, answer) for person, mine in self.answers.items() for answer in mine]

    @cached_property
    def dangerous(self) -> frozenset[str]:
        """Plants that nobody should gather: those of the standard, and whatever else is poisonous."""
        poisonous = {key for key, plant in self.flora.plants.items() if plant.edibility in EATEN_BY_NOBODY}
        return frozenset(poisonous) | frozenset(self.standard.species(Side.DANGEROUS))

    @property
    def confusion(self) -> ConfusionMap:
        """Who was shown what and said what."""
        return confusion_map([as_said(answer, self.flora.book) for _person, answer in self.all], self.dangerous)

    def behind(self, shown: str, said: str) -> list[tuple[int, AnswerFacts]]:
        """The answers behind one cell of the map, the latest first."""
        found = [each for each in self.all if self._cell(each[1]) == (shown, said)]
        return sorted(found, key=lambda each: each[1].opened_at, reverse=True)

    def _cell(self, answer: AnswerFacts) -> tuple[str, str]:
        said = as_said(answer, self.flora.book)
        return said.shown, said.named

    def sure_and_wrong(self) -> list[tuple[int, AnswerFacts]]:
        """Dangerous plants that somebody was sure of and would have gathered, the latest first."""
        found = [(p, each) for p, mine in self.answers.items() for each in sure_and_wrong(mine, self.dangerous)]
        return sorted(found, key=lambda each: each[1].opened_at, reverse=True)

    def claims_of(self, people: Iterable[int]) -> list[tuple[str, bool]]:
        """How sure these users said they were, and whether they were right, wherever they claimed something."""
        found = []
        for person in people:
            for answer in self.answers[person]:
                right = claim_was_right(answer, self.standard, self.flora.book)
                if right is not None and answer.confidence is not None:
                    found.append((answer.confidence.value, right))
        return found


def cohort_answers(
    people: Collection[int],
    tutors: Collection[int],
    standard: Standard,
    flora: Flora,
    *,
    papers: Collection[int],
    spot_tests: Collection[int],
) -> CohortAnswers:
    """The answers of these users in these papers and spot tests; five queries, however many people."""
    facts = standard_facts(standard)
    asked = Evidence.objects.asked_in(papers, spot_tests)
    answers = {person: answers_to_look_at(mine, facts) for person, mine in answers_among(asked, people).items()}
    shown = {each.specimen.key for mine in answers.values() for each in mine}
    by_tutors = answers_among(Evidence.objects.filter(specimen__key__in=shown), tutors)
    words = (
        (answer.specimen.key, as_answer_to_item(answer, flora.book))
        for mine in by_tutors.values()
        for answer in answers_to_look_at(mine, facts)
    )
    differs = frozenset(key for key, word in words if word not in NO_OTHER)
    return CohortAnswers(facts, flora, answers, differs)
