"""An organiser at their first sign-in, on a phone: the school asks for a second factor, and opens once there is one."""

import hmac
import struct
import time
from base64 import b32decode
from collections.abc import Callable

import pytest
from django.urls import reverse

from courses.models import Person
from tests.factories.people import make_person, make_school
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def organiser(transactional_db: None, settings) -> Person:
    settings.STAFF_NEED_A_SECOND_FACTOR = True
    make_school()
    return make_person("Olga Organiser", "organiser")


def number_now(key: str) -> str:
    """What an authenticator app shows: RFC 6238 over RFC 4226, six digits every thirty seconds, from memory."""
    counted = hmac.digest(b32decode(key), struct.pack(">Q", int(time.time()) // 30), "sha1")
    start = counted[-1] & 15
    return f"{(struct.unpack('>I', counted[start : start + 4])[0] & 0x7FFFFFFF) % 1_000_000:06d}"


def test_the_numbers_are_those_of_the_published_example(monkeypatch) -> None:
    """RFC 6238, appendix B, SHA-1 at 59 seconds: 94287082, of which an app shows the last six."""
    monkeypatch.setattr(time, "time", lambda: 59)
    assert number_now("GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ") == "287082"


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_with_an_authenticator_app_the_school_opens(
    open_window: Callable[..., WatchedPage], organiser: Person, size: dict[str, object]
) -> None:
    window = open_window(size).enter(organiser.user)
    window.allow("403")
    window.visit(reverse("courses:home"))
    assert "Protect your sign-in first" in window.locator("h1").inner_text()
    window.assert_fits()
    window.assert_accessible()
    window.get_by_role("link", name="Set up an authenticator app").click()
    window.get_by_role("img", name="The key as a code for the camera of the app").wait_for()
    window.assert_fits()
    window.assert_accessible()
    window.get_by_role("textbox", name="Authenticator code").fill(number_now(window.locator(".long-code").inner_text()))
    window.get_by_role("button", name="Set it up").click()
    window.page.wait_for_url("**/reauthenticate/**")  # one number more, and the recovery codes are shown
    answer = window.visit(reverse("courses:readiness"))
    assert answer is not None
    assert answer.status == 200
