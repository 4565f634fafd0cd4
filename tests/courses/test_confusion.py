"""The confusion map of a course: numbers, misses marked by more than colour, the answers behind them, roles."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import SpotTest, Voiding
from tests.courses.cohorts import make_pair_of, sit, sit_class
from tests.courses.pages import same_queries
from tests.factories.assessments import make_live_evidence
from tests.factories.courses import make_meeting
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, make_species


@pytest.fixture
def pair(course):
    return make_pair_of(course)


@pytest.fixture
def crowd(course, pair, tutor):
    """Five people who were all shown one deadly plant: four refused it, the first would have gathered it, surely."""
    specimen = SpecimenFactory(species=pair.mistaken)
    for number, trail in enumerate(sit_class(course, tutor, 5)):
        trail.answer(pair.mistaken, "refuse" if number else "gather", specimen=specimen)
    return specimen


def url(course, name="confusion") -> str:
    return reverse(f"courses:{name}", args=[course.key])


def page_for(client, course, **cell) -> str:
    return client.get(url(course), cell).content.decode()


def test_a_miss_is_framed_and_says_so_and_sure_ones_come_first(signed_in, tutor, course, crowd) -> None:
    page = page_for(signed_in(tutor), course)
    assert re.search(r'<td class="danger-cell">.*1 gathered</strong>', page, re.DOTALL)
    assert page.index("Sure, and would have gathered") < page.index("Shown, and said")
    assert "5 answers of 5 people" in page


def test_the_answers_behind_a_number_are_one_tap_away(signed_in, tutor, course, crowd, pair) -> None:
    key = pair.mistaken.key
    client = signed_in(tutor)
    assert f"?shown={key}&amp;said={key}#behind" in page_for(client, course)
    page = page_for(client, course, shown=key, said=key)
    assert "Shown badleaf, said badleaf" in page
    behind = page[page.index('id="behind"') :]
    assert all(f"Person 0{number}" in behind for number in range(5))
    assert crowd.key in behind
    assert 'id="behind"' not in page_for(client, course, shown="x", said="y")


def test_what_was_said_stands_under_its_name(signed_in, tutor, course, pair) -> None:
    (trail,) = sit_class(course, tutor, 1)
    trail.answer(pair.mistaken, "gather", named=pair.gathered)
    page = page_for(signed_in(tutor), course, shown=pair.mistaken.key, said=pair.gathered.key)
    assert "badleaf, called goodleaf" in page
    assert "would gather it" in page


def test_a_poisonous_plant_outside_the_standard_is_dangerous_too(signed_in, tutor, course, pair) -> None:
    (trail,) = sit_class(course, tutor, 1)
    trail.answer(make_species("yewish", deadly=True), "gather")
    page = page_for(signed_in(tutor), course)
    assert '<td class="danger-cell">' in page
    assert "Deadly" in page


def test_a_void_plant_stands_nowhere_until_the_voiding_is_lifted(signed_in, tutor, organiser, course, crowd) -> None:
    void = Voiding.objects.create(
        specimen=crowd, voided_at=timezone.now(), voided_by=organiser.user, reason="the wrong plant"
    )
    assert "Nothing was answered yet" in page_for(signed_in(tutor), course)
    void.lifted_at, void.lifted_by = timezone.now(), organiser.user
    void.save()
    assert "5 answers" in page_for(signed_in(tutor), course)


def test_what_was_answered_in_another_course_is_not_shown(signed_in, tutor, course, crowd, pair) -> None:
    elsewhere = make_person("Elsewhere", "participant")
    make_live_evidence(elsewhere.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    own = course.enrolments.order_by("pk").last().person
    make_live_evidence(own.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    page = page_for(signed_in(tutor), course)
    assert "Elsewhere" not in page
    assert "5 answers of 5 people" in page


def test_living_plants_at_its_meetings_are_in_it(signed_in, tutor, participant, course, pair) -> None:
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    make_meeting(course, spot_test=SpotTest.objects.get())
    assert "1 answers of 1 person" in page_for(signed_in(tutor), course)


def test_a_question_that_was_never_answered_is_no_answer(signed_in, tutor, course, pair) -> None:
    (trail,) = sit_class(course, tutor, 1)
    trail.answer(pair.mistaken, "")
    assert "Nothing was answered yet" in page_for(signed_in(tutor), course)


def test_the_table_reads_by_its_headings(signed_in, tutor, course, crowd) -> None:
    page = page_for(signed_in(tutor), course)
    table = page[page.index('<table class="confusion">') : page.index("</table>")]
    assert "<caption>" in table
    assert table.count('<th scope="col">') == 3
    assert table.count('<th scope="row">') == 1


def test_the_file_holds_the_same_numbers_and_no_formula(signed_in, tutor, course, crowd, pair) -> None:
    pair.mistaken.common_names.update(name="=badleaf")
    lines = signed_in(tutor).get(url(course, "confusion_csv")).content.decode("utf-8-sig").splitlines()
    assert lines[1].split(",") == ["'=badleaf", "deadly", "5", "5", "1"]


ALL = ["confusion", "calibration", "items", "next_week", "cohort"]
FILES = ["confusion_csv", "calibration_csv", "items_csv", "next_week_csv", "cohort_csv"]


@pytest.mark.parametrize("name", ALL + FILES)
def test_it_is_for_those_who_run_the_course(client, signed_in, request, tutor, course, crowd, name) -> None:
    assert client.get(url(course, name)).status_code == 302
    for who, status in (("participant", 403), ("stranger", 403), ("assessor", 403), ("organiser", 200), ("tutor", 200)):
        assert signed_in(request.getfixturevalue(who)).get(url(course, name)).status_code == status, who
    assert signed_in(make_person("Other Tutor", "tutor")).get(url(course, name)).status_code == 404


@pytest.mark.parametrize("name", ALL + FILES)
def test_results_that_were_looked_at_can_no_longer_be_annulled(
    signed_in, tutor, course, pair, participant, name
) -> None:
    (trail,) = sit(course, tutor, [participant])
    trail.sitting.result_shown_at = None
    trail.sitting.save()
    assert signed_in(tutor).get(url(course, name)).status_code == 200
    trail.sitting.refresh_from_db()
    assert trail.sitting.result_shown_at is not None


@pytest.mark.parametrize("name", ALL + FILES)
def test_an_empty_course_opens(signed_in, tutor, course, name) -> None:
    course.enrolments.update(withdrawn_at=timezone.now())
    assert signed_in(tutor).get(url(course, name)).status_code == 200


@pytest.mark.parametrize("name", ALL + FILES)
def test_a_small_class_and_a_large_one_cost_the_same(signed_in, tutor, course, pair, name) -> None:
    specimen = SpecimenFactory(species=pair.gathered)

    def grow() -> None:
        for number, trail in enumerate(sit_class(course, tutor, 29)):
            trail.answer(pair.gathered, "leave", specimen=specimen, confidence="unsure")
            if number % 5 == 0:
                trail.answer(pair.mistaken, "gather")

    for trail in sit_class(course, tutor, 8, "Early"):  # as many as it takes for a picture to be fetched
        trail.answer(pair.gathered, "leave", specimen=specimen)
    assert same_queries(signed_in(tutor), url(course, name), grow)


@pytest.mark.parametrize("name", ALL)
def test_every_page_leads_to_the_others(signed_in, tutor, course, name) -> None:
    page = signed_in(tutor).get(url(course, name)).content.decode()
    assert all(url(course, other) in page for other in ALL)
    assert page.count('aria-current="page">') >= 1
