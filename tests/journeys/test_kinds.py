"""Each kind of question in a real browser: by tap, with the keys, and without any script; then what came of it."""

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Locator, expect

from assessments.actions.sittings import open_sitting
from assessments.models import Answer, Question
from assessments.rules.kinds import point_at_it
from tests.assessments.asking import EACH_KIND_ONCE, ask, mark_what_decides, question_of
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species
from tests.journeys.sitting import NARROW, SIZES, sign_in
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
Opens = Callable[..., WatchedPage]
TEACHING = list(EACH_KIND_ONCE)


class MixedTest:
    """A test of every kind, opened by a participant."""

    def __init__(self) -> None:
        make_school()
        self.participant, tutor = make_person("Pat Participant", "participant"), make_person("Tilda Tutor", "tutor")
        pair = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
        for species in (pair.gathered, pair.mistaken):
            for _each in range(6):
                give_picture(SpecimenFactory(species=species))
        mark_what_decides(pair)
        self.paper = ask(EACH_KIND_ONCE, make_standard(pair), pair, self.participant, tutor)
        open_sitting(self.paper.seats.get(), timezone.now())

    def page(self, name: str, *more: int) -> str:
        return reverse(f"assessments:{name}", args=[self.paper.key, *more])

    def of_kind(self, kind: str) -> str:
        return self.page("question", question_of(self.paper, kind).position)


@pytest.fixture
def mixed(transactional_db: None) -> MixedTest:
    return MixedTest()


def window_on(open_window: Opens, mixed: MixedTest, kind: str, size: dict[str, Any]) -> WatchedPage:
    window = sign_in(open_window(size), mixed.participant)
    window.visit(mixed.of_kind(kind))
    return window


def board(window: WatchedPage) -> Locator:
    found: Locator = window.locator("[data-pointing]")
    return found


def chosen(kind: str) -> str:
    return Answer.objects.get(question__kind=kind).chosen


def save(window: WatchedPage) -> None:
    before = window.url
    window.locator("button[name=go]").click()
    window.wait_for_url(lambda url: url != before)


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES.keys())
def test_each_kind_fits_and_can_be_used_by_all(open_window: Opens, mixed: MixedTest, size: dict[str, Any]) -> None:
    window = sign_in(open_window(size), mixed.participant)
    for kind in TEACHING:
        window.visit(mixed.of_kind(kind))
        window.assert_fits()
        window.assert_accessible()


def test_a_tap_points_at_the_place_and_chooses_its_field(open_window: Opens, mixed: MixedTest) -> None:
    window = window_on(open_window, mixed, "point_at_it", PHONE)
    board(window).scroll_into_view_if_needed()
    box = board(window).bounding_box()
    assert box is not None
    board(window).tap(position={"x": box["width"] * 0.2, "y": box["height"] * 0.1})
    expect(window.get_by_label("A", exact=True)).to_be_checked()
    expect(window.get_by_text("The cross is in field A")).to_be_visible()
    save(window)
    assert point_at_it.point_of(chosen("point_at_it")) == pytest.approx((0.2, 0.1), abs=0.01)
    window.visit(mixed.of_kind("point_at_it"))
    expect(window.get_by_text("The cross is in field A")).to_be_visible()


def test_the_arrow_keys_move_the_cross_from_the_middle(open_window: Opens, mixed: MixedTest) -> None:
    window = window_on(open_window, mixed, "point_at_it", DESKTOP)
    board(window).focus()
    for key in ("Shift+ArrowLeft", "Shift+ArrowUp", "ArrowLeft", "ArrowUp"):
        window.keyboard.press(key)
    expect(window.get_by_text("The cross is in field E")).to_be_visible()
    save(window)
    assert chosen("point_at_it") == "at 0.3800 0.3800"


def test_a_field_chosen_by_hand_takes_the_cross_away(open_window: Opens, mixed: MixedTest) -> None:
    window = window_on(open_window, mixed, "point_at_it", DESKTOP)
    board(window).click()
    window.get_by_text("L", exact=True).last.click()
    expect(window.locator("[data-pointed]")).to_have_text("")
    save(window)
    assert chosen("point_at_it") == "field L"


def test_each_kind_is_answered_by_keys_alone(open_window: Opens, mixed: MixedTest) -> None:
    for kind, first in (("which_character", "0"), ("side_by_side", "first")):
        window = window_on(open_window, mixed, kind, DESKTOP)
        window.locator("input[name=chosen]").first.focus()
        window.keyboard.press("Space")
        if kind == "side_by_side":
            window.keyboard.press("Tab")
            window.keyboard.press("Space")
        window.locator("button[name=go]").focus()
        before = window.url
        window.keyboard.press("Enter")
        window.wait_for_url(lambda url, before=before: url != before)
        assert chosen(kind) == first


def test_each_kind_is_answered_without_any_script(open_window: Opens, mixed: MixedTest) -> None:
    words = {
        "which_character": ["I cannot tell"],
        "point_at_it": ["A"],
        "side_by_side": ["Neither", "Fairly sure: 3 in 4"],
    }
    for kind, labels in words.items():
        window = window_on(open_window, mixed, kind, {**NARROW, "java_script_enabled": False})
        for label in labels:
            window.locator("form.question-form").get_by_text(label, exact=True).last.click()
        save(window)
    assert {kind: chosen(kind) for kind in words} == {
        "which_character": "cannot_tell",
        "point_at_it": "field A",
        "side_by_side": "neither",
    }


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_what_came_of_each_kind_fits_and_can_be_used_by_all(
    open_window: Opens, mixed: MixedTest, size: dict[str, Any]
) -> None:
    window = window_on(open_window, mixed, "point_at_it", size)
    for question in Question.objects.filter(kind="name_and_decide"):
        window.visit(mixed.page("question", question.position))
        window.get_by_label("Its name, common or scientific").fill("goodleaf")
        window.get_by_text("Gather it", exact=True).click()
        window.get_by_text("Sure: 19 in 20", exact=True).click()
        save(window)
    for kind in TEACHING:
        window.visit(mixed.of_kind(kind))
    window.visit(mixed.page("review"))
    window.get_by_role("button", name="Hand in").click()
    window.get_by_role("button", name="Show me now").click()
    window.wait_for_url("**" + mixed.page("feedback"))
    assert_frames_lie_on_their_pictures(window)
    window.assert_fits()
    window.assert_accessible()


def assert_frames_lie_on_their_pictures(window: WatchedPage) -> None:
    places = window.locator(".feedback-picture .regions").evaluate_all(
        "all => all.map(each => ['img', 'svg'].map(name => each.querySelector(name).getBoundingClientRect().width))"
    )
    assert places
    assert all(abs(picture - glass) < 1 for picture, glass in places)
