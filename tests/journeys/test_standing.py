"""Where somebody stands, in a real browser: a figure opens by keyboard, no script is needed, everything fits."""

from collections.abc import Callable

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse

from courses.models import Person
from tests.assessments.evidence import a_full_record, open_windows
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
NARROW = {**PHONE, "viewport": {"width": 320, "height": 640}}


@pytest.fixture
def learner(transactional_db: None) -> Person:
    """Somebody with two windows and every kind of answer."""
    make_school()
    person, tutor = make_person("Pat Participant", "participant"), make_person("Tilda Tutor", "tutor")
    pair = PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))
    standard = make_standard(pair, required_stages=("rosette", "flower"))
    open_windows(person.user, 0, 30)
    a_full_record(person.user, standard, pair, tutor.user)
    return person


def signed_in(window: WatchedPage, person: Person) -> WatchedPage:
    client = Client()
    client.force_login(person.user)
    name = settings.SESSION_COOKIE_NAME
    window.context.add_cookies([{"name": name, "value": client.cookies[name].value, "url": window.address}])
    return window


def pages_of(window: WatchedPage) -> list[str]:
    """The pages of this story, the ledger and one of its figures among them."""
    window.visit(reverse("assessments:my_standing"))
    ledger = window.get_by_role("link", name="1 miss").first.get_attribute("href")
    assert ledger is not None
    return [reverse("assessments:my_standing"), ledger, ledger.partition("?")[0], reverse("assessments:retakes")]


@pytest.mark.parametrize("size", [NARROW, PHONE, DESKTOP], ids=["narrow", "phone", "desk"])
def test_every_page_fits_with_everything_opened(
    open_window: Callable[..., WatchedPage], learner: Person, size: dict
) -> None:
    window = signed_in(open_window(size), learner)
    for path in pages_of(window):
        window.visit(path)
        window.assert_fits()
        window.evaluate("document.querySelectorAll('main details').forEach(each => { each.open = true })")
        window.assert_fits()


def test_every_page_keeps_the_rules_of_accessibility(open_window: Callable[..., WatchedPage], learner: Person) -> None:
    window = signed_in(open_window(PHONE), learner)
    for path in pages_of(window):
        window.visit(path)
        window.evaluate("document.querySelectorAll('main details').forEach(each => { each.open = true })")
        window.assert_accessible()


def test_a_figure_is_opened_by_keyboard_and_the_way_back_is_the_trail(
    open_window: Callable[..., WatchedPage], learner: Person
) -> None:
    window = signed_in(open_window({**DESKTOP, "java_script_enabled": False}), learner)
    window.visit(reverse("assessments:my_standing"))
    window.get_by_role("link", name="1 miss").first.focus()
    window.keyboard.press("Enter")
    window.wait_for_url("**/species/**")
    assert "A miss" in window.locator("li.answer").inner_text()
    assert window.locator("li.answer img").evaluate("each => each.complete && each.naturalWidth > 0")
    window.get_by_role("link", name="Where you stand").click()
    window.wait_for_url("**/standing/participant/")
