"""How sure a course is and how often right: counts and intervals first, one figure only from thirty answers on."""

import pytest
from django.urls import reverse

from assessments.rules.intervals import exact_interval
from courses.queries.calibration import calibration_page
from tests.courses.cohorts import make_pair_of, sit_class


@pytest.fixture
def pair(course):
    return make_pair_of(course)


@pytest.fixture
def trail(course, pair, tutor):
    return sit_class(course, tutor, 1)[0]


def page_for(client, course) -> str:
    return client.get(reverse("courses:calibration", args=[course.key])).content.decode()


def test_levels_come_with_counts_and_the_limits_of_another_source(course, pair, trail) -> None:
    for confidence, decision in (("sure", "refuse"), ("sure", "gather"), ("unsure", "refuse"), ("fairly", "leave")):
        trail.answer(pair.mistaken, decision, confidence=confidence)
    levels = [(line.level.said, line.level.right) for line in calibration_page(course).levels]
    assert levels == [(2, 1), (0, 0), (1, 1)], "what was left alone claims nothing"
    assert calibration_page(course).levels[0].level.interval == exact_interval(1, 2)


def test_there_is_no_single_figure_below_thirty_answers(signed_in, tutor, course, pair, trail) -> None:
    for _each in range(29):
        trail.answer(pair.mistaken, "refuse")
    page = page_for(signed_in(tutor), course)
    assert "29 answers are too few to say it in one figure: that takes 30." in page
    assert "Brier" not in page


def test_from_thirty_on_it_stands_after_the_table(signed_in, tutor, course, pair, trail) -> None:
    for _each in range(30):
        trail.answer(pair.mistaken, "refuse")
    page = page_for(signed_in(tutor), course)
    assert "Brier score: 0.003" in page  # (1 - 0.95) squared, thirty times
    assert page.index("</table>") < page.index("Brier score")


def test_sure_and_wrong_stands_before_everything_from_the_first_one_on(signed_in, tutor, course, pair, trail) -> None:
    trail.answer(pair.mistaken, "gather", named=pair.gathered)
    page = page_for(signed_in(tutor), course)
    assert page.index("Sure, and would have gathered a dangerous plant") < page.index("What people said of themselves")
    assert "badleaf, called goodleaf" in page


def test_gathering_it_unsurely_is_not_among_them(signed_in, tutor, course, pair, trail) -> None:
    trail.answer(pair.mistaken, "gather", confidence="unsure")
    assert 'id="sure"' not in page_for(signed_in(tutor), course)


def test_whoever_was_sure_and_wrong_stands_first_among_people(course, pair, tutor) -> None:
    careful, sure = sit_class(course, tutor, 2)
    careful.answer(pair.mistaken, "refuse")
    sure.answer(pair.mistaken, "gather")
    lines = calibration_page(course).people
    assert [(line.person, line.sure_and_wrong) for line in lines] == [("Person 01", 1), ("Person 00", 0)]


def test_the_file_begins_with_everybody(signed_in, tutor, course, pair, trail) -> None:
    trail.answer(pair.mistaken, "gather")
    answer = signed_in(tutor).get(reverse("courses:calibration_csv", args=[course.key]))
    lines = answer.content.decode("utf-8-sig").splitlines()
    assert lines[1:] == ["everybody,1,0,0,0,0,0,1", "Person 00,1,0,0,0,0,0,1"]
    assert "no-store" in answer["Cache-Control"]
