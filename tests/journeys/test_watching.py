"""The watchers of the journeys see what they are there to see."""

import pytest

from tests.journeys.watching import WatchedPage


def test_an_error_on_the_console_is_a_complaint_until_it_is_allowed(watched_page: WatchedPage):
    watched_page.evaluate("console.error('the hedge is on fire')")
    assert len(watched_page.unexpected) == 1
    watched_page.allow("hedge is on fire")
    assert watched_page.unexpected == []


def test_an_uncaught_error_is_a_complaint(watched_page: WatchedPage):
    watched_page.allow("lost in the wood")
    watched_page.evaluate("setTimeout(() => { throw new Error('lost in the wood') }, 0)")
    watched_page.wait_for_timeout(100)
    assert any(said.startswith("uncaught") for said in watched_page.complaints)


def test_a_request_to_another_host_is_a_complaint(watched_page: WatchedPage):
    watched_page.allow("elsewhere.invalid")
    watched_page.allow("ERR_")
    watched_page.evaluate("fetch('http://elsewhere.invalid/').catch(() => null)")
    assert "request to another host: http://elsewhere.invalid/" in watched_page.complaints


def test_a_page_wider_than_the_phone_does_not_fit(phone_page: WatchedPage):
    head = "<meta name=viewport content='width=device-width'>"
    phone_page.set_content(f"{head}<p>narrow</p>")
    phone_page.assert_fits()
    phone_page.set_content(f"{head}<p style='width: 900px'>wide</p>")
    with pytest.raises(AssertionError, match="wider than the window"):
        phone_page.assert_fits()


def test_a_picture_without_words_is_not_accessible(watched_page: WatchedPage):
    page = "<html lang=en><title>Plate</title><main><h1>Plate</h1><img src='data:,' {}></main></html>"
    watched_page.set_content(page.format("alt='a leaf'"))
    watched_page.assert_accessible()
    watched_page.set_content(page.format(""))
    with pytest.raises(AssertionError, match="image-alt"):
        watched_page.assert_accessible()


def test_two_windows_do_not_share_cookies(open_window, live_server):
    first, second = open_window(), open_window()
    first.context.add_cookies([{"name": "who", "value": "first", "url": live_server.url}])
    assert second.context.cookies() == []
