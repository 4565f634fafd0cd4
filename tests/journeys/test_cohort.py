"""What a tutor sees of a course, in a real browser: a wide map stays in its frame, a number opens by keyboard."""

from collections.abc import Callable

import pytest
from django.urls import reverse

from courses.models import Course
from species.models import SecondLook
from tests.assessments.evidence import PaperTrail
from tests.courses.cohorts import make_pair_of, sit_class
from tests.factories.courses import make_course, make_meeting
from tests.factories.people import make_person, make_school
from tests.factories.species import SpecimenFactory, make_species
from tests.journeys.test_standing import NARROW, signed_in
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
PAGES = ["cohort", "next_week", "confusion", "calibration", "items"]
OTHERS = ["wild garlic", "ground elder", "lesser celandine", "garden angelica", "common hogweed", "sweet cicely"]


@pytest.fixture
def course(transactional_db: None) -> Course:
    """Nine people who were shown eight plants, and took one of them for another."""
    make_school()
    course, tutor = make_course(), make_person("Tilda Tutor", "tutor")
    course.tutors.add(tutor)
    pair = make_pair_of(course)
    make_meeting(course, title="Hedge walk")
    plants = [make_species(name) for name in OTHERS]
    doubtful = SpecimenFactory(species=pair.gathered)
    for number, trail in enumerate(sit_class(course, tutor, 9)):
        _answer_everything(trail, number, pair, plants)
        trail.answer(pair.gathered, "gather", specimen=doubtful, named=plants[0] if number > 2 else None)
    return course


def _answer_everything(trail: PaperTrail, number: int, pair, plants) -> None:
    for place, plant in enumerate(plants):
        other = plants[(place + 1) % len(plants)]
        trail.answer(plant, "gather", named=None if (number + place) % 4 else other, confidence="fairly")
    named = pair.gathered if number < 2 else None
    trail.answer(pair.mistaken, "gather" if number < 2 else "refuse", named=named)


def window_of(open_window: Callable[..., WatchedPage], course: Course, size: dict) -> WatchedPage:
    return signed_in(open_window(size), course.tutors.get())


@pytest.mark.parametrize("size", [NARROW, PHONE, DESKTOP], ids=["narrow", "phone", "desk"])
def test_every_page_fits_and_keeps_the_rules_of_accessibility(
    open_window: Callable[..., WatchedPage], course: Course, size: dict
) -> None:
    window = window_of(open_window, course, size)
    for name in PAGES:
        window.visit(reverse(f"courses:{name}", args=[course.key]))
        window.assert_fits()
        window.assert_accessible()


def test_the_map_scrolls_inside_its_frame_and_its_names_stay(
    open_window: Callable[..., WatchedPage], course: Course
) -> None:
    window = window_of(open_window, course, PHONE)
    window.visit(reverse("courses:confusion", args=[course.key]))
    frame, name = window.locator(".table-scroll").first, window.locator(".confusion tbody th").first
    before = name.bounding_box()["x"]
    frame.focus()
    frame.evaluate("frame => { frame.scrollLeft = 300 }")
    assert frame.evaluate("frame => frame.scrollLeft") == 300
    assert name.bounding_box()["x"] == before


def test_a_number_is_opened_by_keyboard(open_window: Callable[..., WatchedPage], course: Course) -> None:
    window = window_of(open_window, course, DESKTOP)
    window.visit(reverse("courses:confusion", args=[course.key]))
    window.locator(".danger-cell a").first.focus()
    window.keyboard.press("Enter")
    window.wait_for_url("**said=*")
    assert window.locator("section[aria-labelledby=behind] .line").count() == 2
    assert "sure" in window.locator("section[aria-labelledby=behind]").inner_text()


def test_one_press_has_a_photograph_named_again(open_window: Callable[..., WatchedPage], course: Course) -> None:
    window = window_of(open_window, course, PHONE)
    window.visit(reverse("courses:items", args=[course.key]))
    window.get_by_role("button", name="Have it named again").click()
    window.get_by_text("It waits to be named by somebody else").wait_for()
    assert SecondLook.objects.waiting().count() == 1
    window.assert_fits()
