"""What nearly went wrong with a pair is a hint where a paper is set, for a year, and changes nothing in the paper."""

from datetime import datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Course, Incident, Person
from courses.queries.incidents import misses_by_pair
from species.models import Pair
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol, make_course
from tests.factories.species import PairFactory, make_species

HINT = "Near misses in the last twelve months"


@pytest.fixture
def course(pair: Pair, tutor: Person, participant: Person) -> Course:
    course = make_course(standard=make_standard(pair))
    course.tutors.add(tutor)
    enrol(participant, course)
    return course


def miss(pair: Pair, by: Person, at: datetime | None = None, **fields: object) -> Incident:
    moment = at or timezone.now() - timedelta(days=3)
    facts = {"kind": "near_miss", "account": "Nearly in the basket.", "sign": "smell of mice", **fields}
    return Incident.objects.create(pair=pair, happened_at=moment, noted_at=moment, noted_by=by, **facts)


def page(signed_in, person: Person, course: Course) -> str:
    return signed_in(person).get(reverse("courses:course_paper_new", args=[course.key])).content.decode()


def test_whoever_sets_a_paper_reads_of_near_misses_on_its_pairs(signed_in, tutor, course, pair) -> None:
    made = miss(pair, tutor)
    shown = page(signed_in, tutor, course)
    assert faults(shown) == []
    assert HINT in shown
    assert "goodleaf / badleaf" in shown
    assert "smell of mice" in shown
    assert reverse("courses:incident", args=[made.key]) in shown


def test_without_one_nothing_is_said(signed_in, tutor, course) -> None:
    assert HINT not in page(signed_in, tutor, course)


def test_another_pair_and_another_year_are_left_out(tutor, pair) -> None:
    now = timezone.now()
    other = PairFactory(gathered=make_species("ramsons"), mistaken=make_species("lily", deadly=True))
    miss(other, tutor)
    miss(pair, tutor, now - timedelta(days=365))
    miss(pair, tutor, now + timedelta(days=1))
    assert misses_by_pair([pair], now) == []
    last = miss(pair, tutor, now - timedelta(days=364), kind="incident")
    (found,) = misses_by_pair([pair], now)
    assert found.incidents == (last,)


def test_a_sign_is_said_once_and_the_newest_comes_first(tutor, pair) -> None:
    now = timezone.now()
    old = miss(pair, tutor, now - timedelta(days=9))
    new = miss(pair, tutor, now - timedelta(days=1))
    miss(pair, tutor, now - timedelta(days=5), sign="")
    (found,) = misses_by_pair([pair], now)
    assert (found.incidents[0], found.incidents[-1]) == (new, old)
    assert found.signs == ("smell of mice",)


def test_the_hint_ticks_nothing(signed_in, tutor, course, pair) -> None:
    before = page(signed_in, tutor, course).count(" checked")
    miss(pair, tutor)
    assert page(signed_in, tutor, course).count(" checked") == before


def test_the_page_takes_as_many_queries_however_many_happened(signed_in, tutor, course, pair) -> None:
    miss(pair, tutor)

    def grow() -> None:
        for _number in range(4):
            miss(pair, tutor)

    assert same_queries(signed_in(tutor), reverse("courses:course_paper_new", args=[course.key]), grow)
