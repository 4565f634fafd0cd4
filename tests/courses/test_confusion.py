"""The confusion map of a course: numbers, misses marked by more than colour, the answers behind them, roles."""

import pytest
from django.urls import reverse

from assessments.models import Voiding
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import enrol
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, make_species


@pytest.fixture
def pair(course):
    made = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
    course.standard = make_standard(made, key="of-this-course")
    course.save()
    return made


@pytest.fixture
def crowd(course, pair, tutor, participant):
    """Five people who were all shown one deadly plant: four left it, the first would have gathered it, surely."""
    people = [participant, *(make_person(f"Person {n}", "participant") for n in range(4))]
    for person in people[1:]:
        enrol(person, course)
    specimen = SpecimenFactory(species=pair.mistaken)
    for number, person in enumerate(people):
        make_live_evidence(person.user, specimen, "refuse" if number else "gather", by=tutor.user)
    return specimen


def url(course, name="confusion") -> str:
    return reverse(f"courses:{name}", args=[course.key])


def test_a_miss_is_marked_by_more_than_colour_and_sure_ones_come_first(signed_in, tutor, course, crowd) -> None:
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "<strong>!</strong>" in page
    assert "1 would be gathered" in page
    assert page.index("Sure, and would have gathered it") < page.index("Shown, and said")
    assert "5 answers of 5 people" in page


def test_the_answers_behind_a_number_are_one_tap_away(signed_in, tutor, course, crowd, pair) -> None:
    key = pair.mistaken.key
    page = signed_in(tutor).get(f"{url(course)}?shown={key}&said={key}").content.decode()
    assert "The answers behind this number" in page
    assert page.count("Person 0") == 1
    assert "Behind" not in signed_in(tutor).get(f"{url(course)}?shown=x&said=y").content.decode()


def test_few_answers_are_called_few(signed_in, tutor, course, crowd) -> None:
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "Too few answers to put into one figure." in page


def test_a_void_plant_stands_nowhere(signed_in, tutor, organiser, course, crowd) -> None:
    Voiding.objects.create(specimen=crowd, voided_at="2026-01-01T00:00Z", voided_by=organiser.user, reason="wrong")
    assert "Nothing was answered yet" in signed_in(tutor).get(url(course)).content.decode()


def test_those_of_another_course_are_not_counted(signed_in, tutor, course, crowd, pair) -> None:
    other = make_person("Elsewhere", "participant")
    make_live_evidence(other.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "Elsewhere" not in page
    assert "5 answers" in page


def test_a_picture_that_half_of_them_leave_is_to_be_looked_at_again(
    signed_in, tutor, course, pair, participant
) -> None:
    people = [participant, *(make_person(f"Person {n}", "participant") for n in range(3))]
    for person in people[1:]:
        enrol(person, course)
    specimen = SpecimenFactory(species=pair.gathered)
    for number, person in enumerate(people):
        knows = number >= 2
        make_live_evidence(person.user, specimen, "gather" if knows else "leave", by=tutor.user, named=knows)
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "Half of them leave it" in page
    assert "2 of 4 right" in page


def test_an_empty_course_says_so(signed_in, tutor, course) -> None:
    assert "Nothing was answered yet" in signed_in(tutor).get(url(course)).content.decode()


def test_the_table_holds_the_same_numbers(signed_in, tutor, course, crowd) -> None:
    lines = signed_in(tutor).get(url(course, "confusion_csv")).content.decode("utf-8-sig").splitlines()
    assert lines[1].split(",")[:2] == ["badleaf", "yes"]
    assert lines[1].endswith(",1")


@pytest.mark.parametrize(("who", "status"), [("participant", 403), ("stranger", 403), ("organiser", 200)])
def test_it_is_for_those_who_run_the_course(signed_in, request, course, who, status) -> None:
    assert signed_in(request.getfixturevalue(who)).get(url(course)).status_code == status


def test_it_costs_the_same_for_many(signed_in, tutor, course, crowd, pair, django_assert_max_num_queries) -> None:
    client = signed_in(tutor)
    with django_assert_max_num_queries(30) as first:
        client.get(url(course))
    for number in range(10):
        person = make_person(f"More {number}", "participant")
        enrol(person, course)
        make_live_evidence(person.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    with django_assert_max_num_queries(len(first)):
        client.get(url(course))
