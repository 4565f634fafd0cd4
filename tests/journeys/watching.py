"""A page under watch: what a person would not see, and should worry us, is written down as a complaint."""

from typing import Any
from urllib.parse import urlsplit

from axe_playwright_python.sync_playwright import Axe
from django.contrib.auth.models import User
from django.test import Client
from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request, Response, WebError

DESKTOP: dict[str, Any] = {"viewport": {"width": 1280, "height": 900}}
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "is_mobile": True,
    "has_touch": True,
    "device_scale_factor": 2,
}
AXE_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}


class WatchedPage:
    """One person's browser window (cookies of its own) on the live server, with its complaints.

    `page` is Playwright's page; anything that is not defined here (`goto`, `get_by_role`, `locator`, ...) is
    taken from it. `complaints` are errors on the console, uncaught errors in scripts, and requests to any
    other host.
    """

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.context = context
        self.address = address
        self.complaints: list[str] = []
        self._allowed: list[str] = []
        context.on("console", self._hear_console)
        context.on("weberror", self._hear_error)
        context.on("request", self._see_request)
        self.page: Page = context.new_page()

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name == "page":  # Playwright looks for marks of its own on whoever listens
            raise AttributeError(name)
        return getattr(self.page, name)

    def enter(self, user: User) -> "WatchedPage":
        """Put the session of somebody who is signed in into the window."""
        client = Client()
        client.force_login(user)
        cookie = client.cookies["sessionid"]
        self.context.add_cookies([{"name": "sessionid", "value": cookie.value, "url": self.address}])
        return self

    def visit(self, path: str) -> Response | None:
        """Open a path of the live server, such as /species/."""
        return self.page.goto(self.address + path)

    def allow(self, part: str) -> None:
        """Expect complaints that contain these words, in a test that provokes them (a 404, being offline)."""
        self._allowed.append(part)

    @property
    def unexpected(self) -> list[str]:
        """The complaints that no test has said to expect."""
        return [said for said in self.complaints if not any(part in said for part in self._allowed)]

    def assert_fits(self) -> None:
        """Nothing is wider than the window, so nobody has to scroll sideways.

        Measured against the size the window was opened with: on a phone `innerWidth` grows with its content.
        """
        self._wait_for_all_of_it()
        assert self.page.viewport_size is not None
        room = self.page.viewport_size["width"]
        wide = self.page.evaluate(
            """room => document.documentElement.scrollWidth <= room ? [] : [
                `${document.documentElement.scrollWidth} > ${room}`,
                ...[...document.body.querySelectorAll("*")]
                    .filter(e => e.getBoundingClientRect().right > room + 1)
                    .slice(0, 5).map(e => e.outerHTML.slice(0, 120))]""",
            room,
        )
        assert not wide, f"{self.page.url} is wider than the window: " + "\n  ".join(wide)

    def assert_within_reach(self) -> None:
        """What is aimed at with a thumb is 44 px high: buttons, the link of a line, the way up, what folds open."""
        self._wait_for_all_of_it()
        low = self.page.evaluate(
            """aims => [...document.querySelectorAll(aims)]
                .filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5)
                .map(e => `${Math.round(e.getBoundingClientRect().height)} px: ${e.outerHTML.slice(0, 120)}`)""",
            "main :is(.button, .line-title > a, .date-title > a, .trail a, summary, select)",
        )
        assert not low, f"{self.page.url} has what a thumb misses: " + "\n  ".join(low)

    def assert_accessible(self) -> None:
        """No rule of axe is broken: WCAG 2.2 A and AA, and its best practice."""
        self._wait_for_all_of_it()
        results = Axe().run(self.page, options=AXE_RULES)
        assert results.violations_count == 0, f"{self.page.url}: {results.generate_report()}"

    def _wait_for_all_of_it(self) -> None:
        """A click returns when the next page begins to arrive: on a busy machine half of it is not there yet."""
        self.page.wait_for_load_state()

    def _hear_console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.complaints.append(f"console: {message.text} ({message.location.get('url', '')})")

    def _hear_error(self, error: WebError) -> None:
        self.complaints.append(f"uncaught: {error.error}")

    def _see_request(self, request: Request) -> None:
        asked = urlsplit(request.url)
        if asked.scheme not in ("data", "blob", "about") and asked.netloc != urlsplit(self.address).netloc:
            self.complaints.append(f"request to another host: {request.url}")
