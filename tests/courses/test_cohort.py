"""People of a course against the pairs of its standard."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Period, Window
from courses.models import Course, Person
from courses.queries.cohort import cohort_of
from courses.rules.progress import Far
from species.models import Pair
from tests.courses.pages import same_queries
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import enrol, make_course
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, make_species


@pytest.fixture
def pair(db: None) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def course(pair: Pair, tutor: Person, participant: Person) -> Course:
    course = make_course(standard=make_standard(pair))
    course.tutors.add(tutor)
    enrol(participant, course)
    return course


def open_window(person: Person, by: Person) -> None:
    begun = timezone.now() - timedelta(days=30)
    period = Period.objects.create(person=person.user, number=1, started_at=begun, ends_at=begun + timedelta(days=700))
    Window.objects.create(period=period, number=1, opened_at=begun, opened_by=by.user)


def answer(person: Person, pair: Pair, decision: str, times: int, *, by: Person, edible: bool = False) -> None:
    species = pair.gathered if edible else pair.mistaken
    for number in range(times):
        specimen = SpecimenFactory(species=species, stage="rosette")
        at = timezone.now() - timedelta(days=20, minutes=-number)
        make_live_evidence(person.user, specimen, decision, by=by.user, at=at)


def page_of(course: Course) -> str:
    return reverse("courses:cohort", args=[course.key])


def cell_of(course: Course, person: Person) -> object:
    row = next(row for row in cohort_of(course, timezone.now()).rows if row.person == person)
    return row.cells[0]


def test_somebody_without_evidence_has_not_begun(participant, course) -> None:
    assert cell_of(course, participant).far is Far.NOT_BEGUN


def test_a_pair_with_enough_of_both_sides_is_passed(tutor, participant, course, pair) -> None:
    open_window(participant, tutor)
    answer(participant, pair, "refuse", 13, by=tutor)
    answer(participant, pair, "gather", 8, by=tutor, edible=True)
    cell = cell_of(course, participant)
    assert (cell.far, cell.missing, cell.misses) == (Far.PASSED, 0, 0)
    assert cohort_of(course, timezone.now()).columns[0].passed == 1


def test_a_pair_with_little_missing_is_nearly_passed(tutor, participant, course, pair) -> None:
    open_window(participant, tutor)
    answer(participant, pair, "refuse", 10, by=tutor)
    answer(participant, pair, "gather", 8, by=tutor, edible=True)
    cell = cell_of(course, participant)
    assert (cell.far, cell.missing) == (Far.NEARLY, 3)


def test_a_miss_is_counted_and_puts_the_pass_further_off(tutor, participant, course, pair) -> None:
    open_window(participant, tutor)
    answer(participant, pair, "refuse", 10, by=tutor)
    answer(participant, pair, "gather", 1, by=tutor)
    cell = cell_of(course, participant)
    assert (cell.far, cell.misses) == (Far.ON_THE_WAY, 1)
    assert cohort_of(course, timezone.now()).columns[0].missed == 1


def test_the_page_says_it_in_words_beside_the_marks(signed_in, tutor, participant, course, pair) -> None:
    open_window(participant, tutor)
    answer(participant, pair, "gather", 1, by=tutor)
    page = signed_in(tutor).get(page_of(course)).content.decode()
    assert "cow parsley – hemlock" in page
    assert "Not yet:" in page
    assert "1 person would have gathered the wrong one" in page


def test_whoever_waits_or_left_is_not_in_it(stranger, course) -> None:
    enrol(stranger, course, waiting=True)
    assert len(cohort_of(course, timezone.now()).rows) == 1


def test_an_empty_course_says_so(signed_in, tutor, course) -> None:
    course.enrolments.update(withdrawn_at=timezone.now())
    assert "Nobody has a place yet" in signed_in(tutor).get(page_of(course)).content.decode()


def test_the_page_takes_as_many_queries_however_many_people(signed_in, tutor, participant, course, pair) -> None:
    def grow() -> None:
        for number in range(3):
            person = make_person(f"Person {number}")
            enrol(person, course)
            open_window(person, tutor)
            answer(person, pair, "refuse", 3, by=tutor)

    open_window(participant, tutor)
    answer(participant, pair, "refuse", 2, by=tutor)
    assert same_queries(signed_in(tutor), page_of(course), grow)


def test_others_do_not_see_it(client, signed_in, participant, stranger, course) -> None:
    assert client.get(page_of(course)).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).get(page_of(course)).status_code == 403
    assert signed_in(make_person("Other Tutor", "tutor")).get(page_of(course)).status_code == 404
