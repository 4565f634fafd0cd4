"""The wanted list of a course: only what nobody in it has met counts."""

import pytest
from django.utils import timezone

from assessments.models import Seen
from courses.models import Course, Person
from species.models import Pair
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol, make_course
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species

ENDS = ("wanted/", "wanted.pdf", "wanted.csv")


@pytest.fixture
def pair(db: None) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def course(pair: Pair, tutor: Person, participant: Person) -> Course:
    """A course whose bank holds three rosettes of either plant."""
    course = make_course(standard=make_standard(pair, required_stages=("rosette",)))
    course.tutors.add(tutor)
    enrol(participant, course)
    for species in (pair.gathered, pair.mistaken) * 3:
        give_picture(SpecimenFactory(species=species))
    return course


def url(course: Course, end: str = ENDS[0]) -> str:
    return f"/courses/{course.key}/{end}"


def has_seen_all(person: Person, pair: Pair) -> None:
    for specimen in pair.mistaken.specimens.all():
        Seen.objects.create(person=person.user, specimen=specimen, seen_at=timezone.now(), why=Seen.QUESTION)


@pytest.mark.parametrize("end", ENDS)
def test_tutors_of_the_course_and_organisers_may_see_it(end, signed_in, course, tutor, organiser):
    for person in (tutor, organiser):
        assert signed_in(person).get(url(course, end)).status_code == 200


@pytest.mark.parametrize("end", ENDS)
def test_nobody_else_may(end, client, signed_in, course, participant, stranger):
    assert client.get(url(course, end)).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).get(url(course, end)).status_code == 403
    other = make_person("Other Tutor", "tutor")
    assert signed_in(other).get(url(course, end)).status_code == 404
    assert client.post(url(course, end)).status_code == 405


def test_it_asks_for_a_paper_for_everybody_who_has_a_place(signed_in, course, tutor, stranger):
    enrol(stranger, course)
    html = signed_in(tutor).get(url(course), {"questions": 5}).content.decode()
    assert "2 different papers of 5 questions" in html
    assert faults(html) == []


def test_what_somebody_in_the_course_has_seen_is_wanted_anew(signed_in, course, tutor, participant, pair):
    asked = {"papers": 1, "questions": 5}
    assert "The bank has enough" in signed_in(tutor).get(url(course), asked).content.decode()
    has_seen_all(participant, pair)
    html = signed_in(tutor).get(url(course), asked).content.decode()
    assert "The bank is 2 specimens short of 1 paper of 5 questions." in html


def test_what_somebody_outside_has_seen_counts_all_the_same(signed_in, course, tutor, stranger, pair):
    has_seen_all(stranger, pair)
    html = signed_in(tutor).get(url(course), {"papers": 1, "questions": 5}).content.decode()
    assert "The bank has enough" in html


@pytest.mark.parametrize("end", ENDS)
def test_nonsense_is_refused_with_a_sentence(end, signed_in, course, tutor):
    answer = signed_in(tutor).get(url(course, end), {"papers": "0"})
    assert answer.status_code == 422
    assert "greater than or equal to 1" in answer.content.decode()


def test_the_page_takes_as_many_queries_with_more_people(signed_in, course, tutor, pair):
    def grow():
        for number in range(3):
            person = make_person(f"Person {number} {Person.objects.count()}", "participant")
            enrol(person, course)
            has_seen_all(person, pair)

    grow()
    assert same_queries(signed_in(tutor), url(course), grow)
