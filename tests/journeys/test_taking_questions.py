"""Questions for another program, in a real browser: the warning is read, a file comes down, tests are asked twice."""

from collections.abc import Callable
from zipfile import ZipFile

import pytest
from allauth.mfa.models import Authenticator
from django.urls import reverse

from assessments.models import PackageRun
from courses.models import Person
from tests.assessments.packages import fill_bank
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, make_species
from tests.journeys.test_standing import NARROW, signed_in
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def organiser(transactional_db: None) -> Person:
    """The organiser of a school whose bank holds one pair."""
    make_school()
    pair = PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))
    make_standard(pair)
    fill_bank(pair)
    return make_person("Olga Organiser", "organiser")


@pytest.mark.parametrize("size", [NARROW, PHONE, DESKTOP], ids=["narrow", "phone", "desk"])
def test_the_questions_come_down_and_the_page_fits(
    open_window: Callable[..., WatchedPage], organiser: Person, size: dict
) -> None:
    window = signed_in(open_window({**size, "accept_downloads": True}), organiser)
    window.visit(reverse("assessments:packages"))
    assert "Marks alone lose the safety rule" in window.locator("main").inner_text()
    with window.expect_download() as coming:
        window.get_by_role("button", name="Take the questions").click()
    with ZipFile(coming.value.path()) as archive:
        assert "imsmanifest.xml" in archive.namelist()
    window.visit(reverse("assessments:packages"))
    assert "Olga Organiser" in window.locator("main").inner_text()
    window.assert_fits()
    window.assert_accessible()


def test_questions_of_tests_send_to_the_second_factor_and_stay_chosen(
    open_window: Callable[..., WatchedPage], organiser: Person
) -> None:
    Authenticator.objects.create(user=organiser.user, type=Authenticator.Type.TOTP, data={})
    window = signed_in(open_window(PHONE), organiser)
    window.allow("403")
    window.visit(reverse("assessments:packages"))
    window.get_by_label("Also questions about what serves for tests").check()
    window.get_by_role("button", name="Take the questions").click()
    way = window.get_by_role("link", name="Show it, and come back")
    assert "assessment%3Don" in (way.get_attribute("href") or "")
    assert window.get_by_label("Also questions about what serves for tests").is_checked()
    window.assert_fits()
    window.assert_accessible()
    assert not PackageRun.objects.exists()
