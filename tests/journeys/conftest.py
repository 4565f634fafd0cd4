"""Fixtures of the journeys: Debian's own Chromium, and windows that are watched."""

import os
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.browsers import NO_BROWSER, browser_is_required, find_chromium
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

# Playwright runs a loop of its own in this thread; without this Django's database refuses to work beside it.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

ARGUMENTS = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Whatever uses the browser is marked, so that `-m "not browser"` leaves it out."""
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker("browser")


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    """The Chromium of this machine; without one the test is skipped, or fails where a browser is required."""
    chromium = find_chromium()
    if chromium is None:
        if browser_is_required():
            pytest.fail(f"REQUIRE_BROWSER is set. {NO_BROWSER}", pytrace=False)
        pytest.skip(NO_BROWSER)
    # Chromium's sandbox refuses to run as root, which is what containers do.
    sandbox = ("--no-sandbox",) if os.geteuid() == 0 else ()
    return {**browser_type_launch_args, "executable_path": chromium, "args": [*ARGUMENTS, *sandbox]}


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args: dict[str, Any]) -> dict[str, Any]:
    """Playwright's own `page` is a desktop too."""
    return {**browser_context_args, **DESKTOP}


@pytest.fixture
def open_window(
    browser: Browser, live_server: Any, browser_context_args: dict[str, Any]
) -> Iterator[Callable[..., WatchedPage]]:
    """Open a watched window for one person: `open_window()`, or `open_window(PHONE)`.

    Each has its own cookies, so one journey can hold a participant on a phone and an organiser at a desk.
    The test fails at its end for every complaint that it has not allowed.
    """
    windows: list[WatchedPage] = []

    def open_one(size: dict[str, Any] = DESKTOP) -> WatchedPage:
        windows.append(WatchedPage(browser.new_context(**{**browser_context_args, **size}), live_server.url))
        return windows[-1]

    yield open_one
    complaints = [complaint for window in windows for complaint in window.unexpected]
    for window in windows:
        window.context.close()
    assert not complaints, "the pages complained:\n  " + "\n  ".join(complaints)


@pytest.fixture
def watched_page(open_window: Callable[..., WatchedPage]) -> WatchedPage:
    """A watched window on a desk, 1280 × 900."""
    return open_window(DESKTOP)


@pytest.fixture
def phone_page(open_window: Callable[..., WatchedPage]) -> WatchedPage:
    """A watched window on a phone, 390 × 844 at two dots to a pixel, with touch."""
    return open_window(PHONE)
