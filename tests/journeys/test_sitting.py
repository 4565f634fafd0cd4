"""Sitting a test on a narrow phone, a phone and a desk: it fits, all can use it, pictures can be seen closer."""

from collections.abc import Callable

import pytest
from django.urls import reverse
from playwright.sync_api import CDPSession, Locator, expect

from tests.journeys.sitting import NARROW, SIZES, OpenTest, expect_question, give, go_on, note, sign_in
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
Opens = Callable[..., WatchedPage]


@pytest.fixture
def test(transactional_db: None) -> OpenTest:
    return OpenTest()


def on_question(open_window: Opens, test: OpenTest, size: dict, **more: object) -> WatchedPage:
    window = sign_in(open_window({**size, **more}), test.participant)
    window.visit(test.address("question", 1))
    return window


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES.keys())
def test_every_page_of_a_test_fits_and_can_be_used_by_all(open_window: Opens, test: OpenTest, size: dict) -> None:
    window = sign_in(open_window(size), test.participant)
    for address in (test.address("sit"), test.address("question", 1), test.address("review")):
        window.visit(address)
        window.assert_fits()
        window.assert_accessible()
    window.get_by_role("button", name="Hand in").click()
    expect(window.get_by_role("button", name="Take it back")).to_be_visible()
    window.assert_fits()
    window.assert_accessible()


@pytest.mark.parametrize("size", [NARROW, DESKTOP], ids=["narrow", "desk"])
def test_twice_as_large_type_still_fits(open_window: Opens, test: OpenTest, size: dict) -> None:
    window = on_question(open_window, test, size)
    before = note(window).evaluate("note => parseFloat(getComputedStyle(note).fontSize)")
    for address in (test.address("sit"), test.address("question", 1), test.address("review")):
        window.visit(address)
        window.evaluate("document.documentElement.style.fontSize = '200%'")
        window.assert_fits()
    window.visit(test.address("question", 1))
    window.evaluate("document.documentElement.style.fontSize = '200%'")
    assert note(window).evaluate("note => parseFloat(getComputedStyle(note).fontSize)") == pytest.approx(2 * before)


def test_a_whole_test_by_thumb_at_320_pixels(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, NARROW)
    for position in (1, 2, 3):
        expect_question(window, position)
        give(window)
        go_on(window)
    expect_question(window, 4)
    give(window, "Leave it: I cannot tell")
    window.get_by_role("button", name="Save and look over it").click()
    expect(window.get_by_text("4 of 4 answered and saved.")).to_be_visible()
    window.get_by_role("button", name="Hand in").click()
    window.get_by_role("button", name="Take it back").click()
    window.get_by_role("button", name="Hand in").click()
    window.get_by_role("button", name="Show me now").click()
    window.wait_for_url("**" + test.address("feedback"))
    assert test.decisions() == {1: "refuse", 2: "refuse", 3: "refuse", 4: "leave"}


def test_a_whole_question_without_any_script(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, PHONE, java_script_enabled=False)
    give(window)
    go_on(window)
    expect_question(window, 2)
    assert test.decisions() == {1: "refuse"}
    window.visit(test.address("question", 1))
    expect(note(window)).to_have_text("Saved")
    window.allow("inline style")  # Chromium's own page around a bare picture
    window.locator(".question-pictures a").click()
    window.wait_for_url("**" + reverse("assessments:question_photo", args=[test.paper.key, 1, 1, 1600]))


def picture(window: WatchedPage) -> Locator:
    return window.locator(".zoom-frame img")


def place_of(found: Locator) -> dict[str, float]:
    """Where it lies in the window."""
    box = found.bounding_box()
    assert box is not None
    return {"x": box["x"], "y": box["y"], "width": box["width"], "height": box["height"]}


def how_close(window: WatchedPage) -> float:
    """How many times as wide as its frame the picture is."""
    frame = window.locator(".zoom-frame")
    return float(place_of(picture(window))["width"] / frame.evaluate("frame => frame.clientWidth"))


def assert_inside(window: WatchedPage) -> None:
    """The frame has kept its size and is full of picture; what goes over it is not seen."""
    frame, image = place_of(window.locator(".zoom-frame")), place_of(picture(window))
    assert window.locator(".zoom-frame").evaluate("frame => getComputedStyle(frame).overflow") == "hidden"
    for start, length in (("x", "width"), ("y", "height")):
        assert image[start] <= frame[start] + 2
        assert image[start] + image[length] >= frame[start] + frame[length] - 2
    window.assert_fits()


def test_closer_by_buttons(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, NARROW)
    assert how_close(window) == pytest.approx(1, abs=0.02)
    size = window.locator(".zoom-frame").evaluate("frame => [frame.offsetWidth, frame.offsetHeight]")
    for _press in range(6):
        window.get_by_role("button", name="Closer").click(force=True)
        assert_inside(window)
    assert how_close(window) == pytest.approx(6, abs=0.05)
    assert window.locator(".zoom-frame").evaluate("frame => [frame.offsetWidth, frame.offsetHeight]") == size
    window.get_by_role("button", name="The whole picture").click()
    assert how_close(window) == pytest.approx(1, abs=0.02)
    expect(window.get_by_role("button", name="Further away")).to_be_disabled()


def test_closer_by_keys(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, DESKTOP)
    window.locator(".zoom-frame a").focus()
    window.keyboard.press("+")
    window.keyboard.press("+")
    assert how_close(window) == pytest.approx(2.25, abs=0.03)
    before = place_of(picture(window))["x"]
    window.keyboard.press("ArrowRight")
    assert place_of(picture(window))["x"] == pytest.approx(before - 60, abs=2)
    for _press in range(60):
        window.keyboard.press("ArrowRight")
        window.keyboard.press("ArrowDown")
    assert_inside(window)
    window.keyboard.press("-")
    assert how_close(window) == pytest.approx(1.5, abs=0.03)
    window.keyboard.press("0")
    assert how_close(window) == pytest.approx(1, abs=0.02)
    expect_question(window, 1)


def touch(glass: CDPSession, kind: str, *points: tuple[float, float]) -> None:
    fingers = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
    glass.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})


def pinch(window: WatchedPage, glass: CDPSession, start: float, end: float) -> None:
    """Two fingers around the middle of the picture, so far from it at first and at last."""
    box = place_of(window.locator(".zoom-frame"))
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    touch(glass, "touchStart", (x - start, y), (x + start, y))
    for step in range(1, 9):
        far = start + (end - start) * step / 8
        touch(glass, "touchMove", (x - far, y), (x + far, y))
    touch(glass, "touchEnd")


def test_closer_by_pinch_and_the_page_stays_as_it_is(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, PHONE)
    glass = window.context.new_cdp_session(window.page)
    picture(window).scroll_into_view_if_needed()
    pinch(window, glass, 30, 90)
    assert how_close(window) == pytest.approx(3, abs=0.2)
    assert_inside(window)
    assert window.evaluate("visualViewport.scale") == pytest.approx(1, abs=0.01)
    pinch(window, glass, 100, 20)
    assert how_close(window) == pytest.approx(1, abs=0.02)
    assert_inside(window)


def test_a_tap_brings_closer_and_a_drag_moves(open_window: Opens, test: OpenTest) -> None:
    window = on_question(open_window, test, PHONE)
    glass = window.context.new_cdp_session(window.page)
    picture(window).tap()
    assert how_close(window) == pytest.approx(2.5, abs=0.05)
    before, box = place_of(picture(window)), place_of(window.locator(".zoom-frame"))
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    touch(glass, "touchStart", (x, y))
    for step in range(1, 6):
        touch(glass, "touchMove", (x + 10 * step, y))
    touch(glass, "touchEnd")
    assert place_of(picture(window))["x"] > before["x"] + 20
    assert how_close(window) == pytest.approx(2.5, abs=0.05)
    assert_inside(window)
