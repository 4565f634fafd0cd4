"""Sitting a test while the connection comes and goes: the page says how it stands, and nothing is lost."""

from collections.abc import Callable

import pytest
from django.urls import reverse
from playwright.sync_api import Route, expect

from assessments.models import Answer
from tests.factories.people import make_person
from tests.journeys.sitting import SENTENCE, OpenTest, expect_question, give, go_on, kept_on, note, sign_in
from tests.journeys.watching import PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
NO_NETWORK = "net::ERR_INTERNET_DISCONNECTED"


@pytest.fixture
def test(transactional_db: None) -> OpenTest:
    return OpenTest()


@pytest.fixture
def window(open_window: Callable[..., WatchedPage], test: OpenTest) -> WatchedPage:
    """A phone on the first question."""
    window = sign_in(open_window(PHONE), test.participant)
    window.visit(test.address("question", 1))
    return window


def cut(window: WatchedPage, off: bool = True) -> None:
    window.allow(NO_NETWORK)
    window.context.set_offline(off)


def is_post(route: Route) -> bool:
    return route.request.method == "POST"


def answer_posts_with(window: WatchedPage, status: int) -> None:
    """Let the server answer whatever is posted with this status; pages still come."""
    window.allow(f"status of {status}")
    window.route(
        "**/sit/**", lambda route: route.fulfill(status=status, body="no") if is_post(route) else route.continue_()
    )


def test_an_answer_is_saved_as_it_is_given_before_any_button(window, test):
    expect(note(window)).to_have_text("Not saved yet")
    give(window)
    expect(note(window)).to_have_text("Saved")
    assert test.decisions() == {1: "refuse"}
    assert kept_on(window) == []


def test_what_was_tapped_without_a_connection_is_delivered_when_it_is_back(window, test):
    cut(window)
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text("there is no connection")
    expect(note(window)).to_have_text("Not saved yet")
    assert test.decisions() == {}
    cut(window, off=False)
    expect(note(window)).to_have_text("Saved")
    expect(window.locator(SENTENCE)).to_be_empty()
    assert (test.decisions(), kept_on(window)) == ({1: "refuse"}, [])


def test_of_what_was_changed_offline_the_last_one_stands(window, test):
    give(window)
    expect(note(window)).to_have_text("Saved")
    cut(window)
    give(window, "Gather it", "goodleaf")
    give(window, "Leave it: I cannot tell")
    cut(window, off=False)
    expect(note(window)).to_have_text("Saved")
    assert test.decisions() == {1: "leave"}


def test_going_on_offline_waits_and_goes_on_by_itself(window, test):
    cut(window)
    give(window)
    go_on(window)
    expect(window.locator(SENTENCE)).to_contain_text("there is no connection")
    expect_question(window, 1)
    assert test.sitting.questions.get(position=2).first_shown_at is None
    cut(window, off=False)
    expect_question(window, 2)
    assert test.decisions() == {1: "refuse"}


def test_a_link_followed_offline_costs_nothing_of_the_page(window, test):
    cut(window)
    give(window)
    window.get_by_role("link", name="Overview").click()
    expect_question(window, 1)
    expect(window.get_by_label("Its name, common or scientific")).to_have_value("badleaf")


def test_with_everything_saved_the_page_stays_and_says_that_there_is_no_connection(window, test):
    give(window)
    expect(note(window)).to_have_text("Saved")
    cut(window)
    for press in (lambda: go_on(window), window.get_by_role("link", name="Overview").click):
        press()
        expect_question(window, 1)
        expect(window.locator(SENTENCE)).to_contain_text("Nothing waits to be sent")
    expect(note(window)).to_have_text("Saved")
    cut(window, off=False)
    expect(window.locator(SENTENCE)).to_be_empty()
    go_on(window)
    expect_question(window, 2)


def test_a_phone_that_was_switched_off_offline_delivers_from_the_next_page(window, test):
    cut(window)
    give(window)
    window.page.close()
    window.page = window.context.new_page()
    cut(window, off=False)
    window.visit(test.address("sit"))
    expect(window.get_by_text("1 of 4 answered and saved.")).to_be_visible()
    assert (test.decisions(), kept_on(window)) == ({1: "refuse"}, [])


def test_answers_kept_from_several_questions_arrive_in_the_order_they_were_given(window, test):
    arrived = []
    give(window)
    expect(note(window)).to_have_text("Saved")
    answer_posts_with(window, 503)
    for position in (2, 1, 3):
        window.visit(test.address("question", position))
        give(window, "Gather it", "goodleaf")
        expect(window.locator(SENTENCE)).to_contain_text("no proper answer")
    window.unroute("**/sit/**")
    window.on("request", lambda sent: arrived.append(sent.url) if sent.method == "POST" else None)
    window.visit(test.address("review"))
    expect(window.get_by_text("3 of 4 answered and saved.")).to_be_visible()
    numbers = [int(url.rstrip("/").rpartition("/")[2]) for url in arrived]
    assert list(dict.fromkeys(numbers)) == [2, 1, 3]  # the page that was left may have tried its first once more
    assert test.decisions() == {1: "gather", 2: "gather", 3: "gather"}


@pytest.mark.parametrize(("status", "words"), [(500, "no proper answer"), (403, "you are signed out")])
def test_the_page_does_not_call_saved_what_the_server_refused(window, test, status, words):
    answer_posts_with(window, status)
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text(words)
    expect(note(window)).to_have_text("Not saved yet")
    window.unroute("**/sit/**")
    expect(note(window)).to_have_text("Saved", timeout=15_000)
    assert test.decisions() == {1: "refuse"}


def test_a_server_that_hangs_is_not_waited_for_and_not_believed(window, test):
    held: list[Route] = []
    window.locator("[data-unsent]").evaluate("panel => { panel.dataset.patience = 700; }")
    window.route("**/sit/**", lambda route: held.append(route) if is_post(route) else route.continue_())
    give(window)
    expect(note(window)).to_have_text("Saving …")
    expect(note(window)).to_have_text("Not saved yet")
    expect(window.locator(SENTENCE)).to_contain_text("no proper answer")
    assert held
    window.unroute("**/sit/**")
    expect(note(window)).to_have_text("Saved", timeout=15_000)
    assert (test.decisions(), Answer.objects.count()) == ({1: "refuse"}, 1)


def test_an_answer_given_while_signed_out_is_delivered_after_signing_in_again(window, test):
    window.context.clear_cookies()
    window.allow("status of 403")
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text("you are signed out")
    expect(window.get_by_role("link", name="Sign in again")).to_be_visible()
    assert test.decisions() == {}
    sign_in(window, test.participant).visit(test.address("sit"))
    expect(window.get_by_text("1 of 4 answered and saved.")).to_be_visible()
    assert (test.decisions(), kept_on(window)) == ({1: "refuse"}, [])


def test_somebody_else_on_the_same_device_delivers_nothing_and_reads_no_answer(window, test):
    answer_posts_with(window, 503)
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text("no proper answer")
    window.unroute("**/sit/**")
    window.context.clear_cookies()
    window.allow("status of 404")
    sign_in(window, make_person("Strix Stranger", "participant")).visit(test.address("question", 1))
    expect(window.get_by_text("badleaf")).to_have_count(0)
    assert (test.decisions(), len(kept_on(window))) == ({}, 1)
    window.context.clear_cookies()
    sign_in(window, test.participant).visit(test.address("sit"))
    expect(window.get_by_text("1 of 4 answered and saved.")).to_be_visible()


def test_signing_out_asks_about_what_was_not_delivered_and_clears_the_device(window, test):
    answer_posts_with(window, 500)
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text("no proper answer")
    window.once("dialog", lambda dialog: dialog.dismiss())
    window.visit(reverse("account_logout"))
    window.get_by_role("main").get_by_role("button", name="Sign out").click()
    assert len(kept_on(window)) == 1
    window.once("dialog", lambda dialog: dialog.accept())
    window.get_by_role("main").get_by_role("button", name="Sign out").click()
    expect(window.get_by_role("link", name="Sign in").first).to_be_visible()
    assert window.evaluate("Object.keys(localStorage).filter(k => k.startsWith('kenspeckle:'))") == []


def test_what_was_given_offline_after_the_end_is_refused_in_words_and_shown(window, test):
    cut(window)
    give(window)
    test.sitting.closes_at = test.sitting.opened_at
    test.sitting.save()
    window.allow("status of 409")
    cut(window, off=False)
    expect(window.get_by_text("what you gave last could not be saved. The time of this test was over")).to_be_visible()
    expect(window.get_by_text("(badleaf · The plant I named · No, I would not · Fairly sure: 3 in 4)")).to_be_visible()
    expect(note(window)).to_have_text("Not saved yet")
    assert test.decisions() == {}
    window.get_by_role("button", name="I have read it").click()
    assert kept_on(window) == []


def test_handing_in_waits_until_everything_has_arrived(window, test):
    give(window)
    expect(note(window)).to_have_text("Saved")
    window.visit(test.address("question", 2))
    answer_posts_with(window, 503)
    give(window, "Gather it", "goodleaf")
    expect(window.locator(SENTENCE)).to_contain_text("no proper answer")
    window.visit(test.address("review"))
    window.get_by_role("button", name="Hand in").click()
    expect(window.get_by_text("Question 2: on this device, not saved yet.")).to_be_visible()
    test.sitting.refresh_from_db()
    assert test.sitting.handed_in_at is None
    window.unroute("**/sit/**")
    window.reload()
    expect(window.get_by_text("2 of 4 answered and saved.")).to_be_visible()
    window.get_by_role("button", name="Hand in").click()
    expect(window.get_by_text("Handed in.")).to_be_visible()


def test_a_browser_that_keeps_nothing_says_so_and_still_delivers(window, test):
    window.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }"
    )
    window.reload()
    cut(window)
    give(window)
    expect(window.locator(SENTENCE)).to_contain_text("This browser keeps nothing for later")
    cut(window, off=False)
    expect(note(window)).to_have_text("Saved")
    assert test.decisions() == {1: "refuse"}
