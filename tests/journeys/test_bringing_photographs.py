"""A tutor brings photographs in from a telephone, sorts them, and draws a frame; without the script it works too."""

from collections.abc import Callable
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from playwright.sync_api import expect

from courses.models import Person
from species.models import Character, Photo, Region, Specimen
from tests.factories import pictures
from tests.factories.species import SpecimenFactory, give_picture
from tests.journeys.watching import PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
PATIENTLY = 30_000
"""Milliseconds: pictures are decoded meanwhile, on a machine that may be busy."""


@pytest.fixture
def files(tmp_path: Path) -> list[str]:
    for number in range(3):
        (tmp_path / f"{number}.jpg").write_bytes(pictures.jpeg(seed=number, taken=f"2026:04:12 10:0{number}:00"))
    (tmp_path / "words.jpg").write_bytes(b"no picture")
    return [str(path) for path in sorted(tmp_path.iterdir())]


@pytest.fixture
def open_for(open_window: Callable[..., WatchedPage], client: Client) -> Callable[..., WatchedPage]:
    """A window on a telephone in which somebody is signed in."""

    def open_one(person: Person) -> WatchedPage:
        window = open_window(PHONE)
        client.force_login(person.user)
        value = client.cookies[settings.SESSION_COOKIE_NAME].value
        window.context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": value, "url": window.address}])
        return window

    return open_one


def test_each_file_is_sent_by_itself_and_sorted_on_the_telephone(open_for, tutor, files):
    page = open_for(tutor)
    page.visit(reverse("species:upload"))
    page.set_input_files("input[type=file]", files)
    page.get_by_role("button", name="Bring them in").click()
    expect(page.locator("#sending-tally")).to_have_text(
        "4 of 4 done, 3 taken, 0 there already, 1 not taken", timeout=PATIENTLY
    )
    expect(page.locator("#sending-lines")).to_contain_text("there is no picture in it")
    page.assert_fits()
    page.assert_accessible()
    page.set_input_files("input[type=file]", files[:3])
    page.get_by_role("button", name="Bring them in").click()
    expect(page.locator("#sending-tally")).to_contain_text("3 there already", timeout=PATIENTLY)
    assert Photo.objects.count() == 3
    page.visit(reverse("species:tray"))
    page.assert_fits()
    page.assert_accessible()
    page.get_by_role("button", name="They are one plant").press("Enter")
    expect(page.get_by_role("heading", name="1 group")).to_be_visible()
    assert Specimen.objects.in_the_tray().count() == 1


def test_what_was_not_sent_can_be_sent_again(open_for, tutor, files):
    window = open_for(tutor)
    page = window.page
    window.visit(reverse("species:upload"))
    page.route("**/bring-in/one/", lambda route: route.abort())
    window.allow("bring-in/one/")
    page.set_input_files("input[type=file]", files[:1])
    page.get_by_role("button", name="Bring them in").click()
    expect(page.locator("#sending-lines")).to_contain_text("the connection broke off")
    page.unroute("**/bring-in/one/")
    page.get_by_role("button", name="Try again what was not sent").click()
    expect(page.locator("#sending-tally")).to_contain_text("1 taken", timeout=PATIENTLY)


def test_a_frame_is_drawn_by_keys_and_by_pointer(open_for, tutor):
    photo = give_picture(SpecimenFactory())
    character = Character.objects.create(key="rim", name="Rim", organ="leaf", sense="eye")
    page = open_for(tutor)
    page.visit(reverse("species:photo_page", args=[photo.key]))
    page.assert_fits()
    page.assert_accessible()
    board = page.locator("[data-regions]")
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowDown", "Alt+ArrowLeft"):
        board.press(key)
    page.select_option("#id_character", str(character.pk))
    page.get_by_role("button", name="Keep this frame").click()
    expect(page.locator("svg rect.region:not(.region-new)")).to_have_count(1)
    region = Region.objects.get()
    assert [float(each) for each in (region.x, region.y, region.width, region.height)] == [0.409, 0.4, 0.2, 0.21]
    box = board.bounding_box()
    page.mouse.move(box["x"] + 20, box["y"] + 30)
    page.mouse.down()
    page.mouse.move(box["x"] + 120, box["y"] + 90, steps=4)
    page.mouse.up()
    page.select_option("#id_character", str(character.pk))
    page.get_by_role("button", name="Keep this frame").click()
    expect(page.locator("svg rect.region:not(.region-new)")).to_have_count(2)
