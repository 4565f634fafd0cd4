"""A class that sat tests of its course, each person a paper of their own."""

from courses.models import Course, Person
from species.models import Pair
from tests.assessments.evidence import PaperTrail
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol
from tests.factories.people import make_person
from tests.factories.species import PairFactory, make_species


def make_pair_of(course: Course) -> Pair:
    """The one pair of the standard of a course."""
    pair = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
    course.standard = make_standard(pair, key="of-this-course")
    course.save()
    return pair


def sit(course: Course, tutor: Person, people: list[Person], day: int = 1) -> list[PaperTrail]:
    """A settled sitting of a paper of the course for each of them, with no answer yet."""
    trails = [PaperTrail(each.user, course.standard, tutor.user, day) for each in people]
    course.papers.add(*(trail.sitting.seat.paper for trail in trails))
    return trails


def sit_class(course: Course, tutor: Person, size: int, name: str = "Person") -> list[PaperTrail]:
    """So many new people with a place, each with a sitting."""
    people = [make_person(f"{name} {number:02}", "participant") for number in range(size)]
    for person in people:
        enrol(person, course)
    return sit(course, tutor, people)
