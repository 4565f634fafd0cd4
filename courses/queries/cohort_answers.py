"""What the people of a course answered in its own tests, and the lines in which pages list answers."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from assessments.queries.cohort_answers import CohortAnswers, cohort_answers
from assessments.queries.flora import the_flora
from assessments.rules.cohort_reading import as_said
from assessments.rules.confusion_map import ANOTHER, NOTHING
from assessments.rules.evidence import AnswerFacts, Confidence, Decision, Medium
from courses.models import Course


@dataclass(frozen=True)
class AnswerLine:
    """One answer, for looking behind a number. `said` is empty where no name was given."""

    person: str
    user: int
    at: datetime
    specimen: str
    shown: str
    said: str
    decision: str
    is_sure: bool
    is_live: bool
    is_miss: bool


@dataclass(frozen=True)
class CourseAnswers:
    """The answers of everybody with a place, to the papers of a course and at the spot tests of its meetings."""

    course: Course
    people: dict[int, str]
    """By user, in the order of names."""
    found: CohortAnswers

    @property
    def answered_by(self) -> tuple[int, ...]:
        """The users of whom there is any answer."""
        return tuple(user for user in self.people if self.found.answers[user])

    def lines(self, answers: Iterable[tuple[int, AnswerFacts]]) -> tuple[AnswerLine, ...]:
        """These answers as they are listed."""
        return tuple(self._line(user, answer) for user, answer in answers)

    def _line(self, user: int, answer: AnswerFacts) -> AnswerLine:
        said, flora = as_said(answer, self.found.flora.book), self.found.flora
        words = answer.said if said.named in (ANOTHER, NOTHING) else flora.common(said.named)
        return AnswerLine(
            person=self.people[user],
            user=user,
            at=answer.opened_at,
            specimen=answer.specimen.key,
            shown=flora.common(said.shown),
            said=words.strip(),
            decision=answer.decision.value if answer.decision else "",
            is_sure=answer.confidence is Confidence.SURE,
            is_live=answer.medium is Medium.LIVE,
            is_miss=said.shown in self.found.dangerous and answer.decision is Decision.GATHER,
        )


def answers_in(course: Course) -> CourseAnswers:
    """The answers of a course, in a constant number of queries. What was answered elsewhere is not its business."""
    placed = course.enrolments.with_a_place().select_related("person").order_by("person__name", "person_id")
    people = {each.person.user_id: each.person.name for each in placed}
    tests = course.meetings.exclude(spot_test=None).values_list("spot_test", flat=True)
    found = cohort_answers(
        list(people),
        list(course.tutors.values_list("user", flat=True)),
        course.standard,
        the_flora(),
        papers=list(course.papers.values_list("pk", flat=True)),
        spot_tests=[pk for pk in tests if pk is not None],
    )
    return CourseAnswers(course, people, found)
