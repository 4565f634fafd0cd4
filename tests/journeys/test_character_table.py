"""A tutor changes the character table, on the phone and at a desk, and puts it back."""

import pytest
from django.core.management import call_command
from django.test import Client

from species.models import TableEdit
from tests.journeys.watching import WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
CELL = "/table/rumex-acetosa/petiole_sheath/"

WIDEST = "/table/allium-ursinum/colony/"
"""A character that can be seen at all six stages."""


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def sign_in(window: WatchedPage, person) -> None:
    client = Client()
    client.force_login(person.user)
    cookie = client.cookies["sessionid"]
    window.context.add_cookies([{"name": "sessionid", "value": cookie.value, "url": window.address}])


@pytest.mark.parametrize("window", ["phone_page", "watched_page"])
def test_every_page_of_the_table_fits_and_can_be_used_by_all(request, flora, tutor, window):
    page = request.getfixturevalue(window)
    sign_in(page, tutor)
    for path in ("/table/", "/table/rumex-acetosa/", CELL, WIDEST, "/table/disagreements/", "/table/bring-in/"):
        page.visit(path)
        page.assert_fits()
        page.assert_accessible()


def test_on_the_phone_a_decisive_character_is_spoilt_seen_saved_and_put_back(phone_page, flora, tutor):
    page = phone_page
    sign_in(page, tutor)
    page.visit("/table/rumex-acetosa/")
    page.get_by_role("link", name="Sheath or tube at the leaf base").click()
    page.get_by_role("button", name="See what follows").wait_for()  # the last of the form: all of it is there
    for select in page.locator("select").all():
        select.select_option("")
    for box in page.locator("input[type=checkbox]").all():
        box.check()
    page.get_by_label("Why?").fill("nobody has looked")
    page.get_by_role("button", name="See what follows").click()
    page.get_by_role("heading", name="Loses a character that separates").first.wait_for()
    page.get_by_text("new by this change").first.wait_for()
    page.assert_fits()
    page.assert_accessible()
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Saved.").wait_for()
    page.visit(CELL)
    page.get_by_role("link", name="Put back what was there before").click()
    page.get_by_role("button", name="See what follows").click()
    page.get_by_role("heading", name="Gains a character that separates").first.wait_for()
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Saved.").wait_for()
    assert TableEdit.objects.count() == 2
