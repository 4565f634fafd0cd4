"""The results of a course as a table: for those who teach it, of its own tests, of those with a place."""

import csv
from io import StringIO

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments.models import SpotTest
from courses.queries.course_results import course_results_table
from tests.assessments.evidence import PaperTrail, open_windows
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import enrol, make_meeting
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, make_species


@pytest.fixture
def pair(school):
    return PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))


@pytest.fixture
def taught(course, pair):
    course.standard = make_standard(pair, key="of-the-course")
    course.save()
    return course


@pytest.fixture
def trail(taught, participant, tutor, pair):
    """A paper of the course and one outside it, both sat by the participant."""
    open_windows(participant.user)
    mine, other = (PaperTrail(participant.user, taught.standard, tutor.user, day) for day in (1, 2))
    mine.answer(pair.mistaken, "gather", named=pair.gathered)
    other.answer(pair.mistaken, "refuse")
    taught.papers.add(mine.sitting.seat.paper)
    return mine


def url_of(course) -> str:
    return reverse("courses:results_csv", args=[course.key])


def rows(response) -> list[dict[str, str]]:
    assert response.status_code == 200
    return list(csv.DictReader(StringIO(response.content.decode("utf-8-sig"), newline="")))


def test_the_tutor_reads_who_answered_what_in_the_papers_of_the_course(signed_in, tutor, taught, trail):
    (row,) = rows(signed_in(tutor).get(url_of(taught)))
    assert (row["name"], row["test"], row["decision"]) == ("Pat Participant", "Paper of day 1", "Gather it")
    assert row["Participant 1: counts as"] == "a miss"


def test_live_answers_at_its_meetings_are_among_them(signed_in, organiser, tutor, taught, trail, participant, pair):
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    meeting = make_meeting(course=taught)
    meeting.spot_test = SpotTest.objects.get()
    meeting.save()
    found = rows(signed_in(organiser).get(url_of(taught)))
    assert [row["how"] for row in found] == ["photograph", "live"]


def test_nobody_else_has_them(client, signed_in, taught, trail, participant, stranger, assessor):
    assert client.get(url_of(taught)).status_code == 302
    assert [signed_in(each).get(url_of(taught)).status_code for each in (participant, stranger, assessor)] == [403] * 3
    other = make_person("Other Tutor", "tutor")
    assert signed_in(other).get(url_of(taught)).status_code == 404


def test_results_that_were_taken_count_as_seen(signed_in, tutor, taught, trail):
    trail.sitting.result_shown_at = None
    trail.sitting.save()
    signed_in(tutor).get(url_of(taught))
    trail.sitting.refresh_from_db()
    assert trail.sitting.result_shown_at is not None


def test_the_page_of_the_cohort_leads_to_them(signed_in, tutor, taught, trail):
    page = signed_in(tutor).get(reverse("courses:cohort", args=[taught.key])).content.decode()
    assert url_of(taught) in page


def test_more_people_ask_no_more_of_the_database(taught, trail, tutor, pair, django_assert_num_queries):
    with CaptureQueriesContext(connection) as few:
        course_results_table(taught, timezone.now())
    for number in range(3):
        person = make_person(f"Person {number}", "participant")
        enrol(person, taught)
        another = PaperTrail(person.user, taught.standard, tutor.user, 10 + number)
        another.answer(pair.mistaken, "refuse")
        taught.papers.add(another.sitting.seat.paper)
    with django_assert_num_queries(len(few)):
        course_results_table(taught, timezone.now())
