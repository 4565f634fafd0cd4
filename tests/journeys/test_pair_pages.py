"""The page of a pair in a real browser: side by side on a phone, without script, and on one page of paper."""

from io import BytesIO

import pytest
from django.core.management import call_command
from pypdf import PdfReader

from species.models import Pair
from species.rules.vocabulary import Use
from tests.factories.species import SpecimenFactory, give_picture

FULLEST = ["cowparsley-hemlock", "carrot-hemlock", "alexanders-waterdropwort", "ramsons-arum", "comfrey-foxglove"]


@pytest.fixture
def taught(transactional_db, school) -> None:
    """The botany, with a picture of both plants in flower and as rosettes."""
    call_command("load_flora", verbosity=0)
    for pair in Pair.objects.filter(key__in=FULLEST):
        for species in (pair.gathered, pair.mistaken):
            for stage in ("rosette", "flower"):
                give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value, stage=stage))


def test_the_two_stand_side_by_side_on_a_phone_and_a_stage_is_chosen_by_tapping(taught, phone_page):
    phone_page.visit("/pairs/cowparsley-hemlock/?month=6")
    phone_page.assert_fits()
    phone_page.assert_accessible()
    phone_page.get_by_role("link", name="Flower", exact=False).first.click()
    phone_page.wait_for_url("**month=6&stages=*")
    first, second = (phone_page.locator(".beside img").nth(n).bounding_box() for n in (0, 1))
    assert first["y"] == pytest.approx(second["y"], abs=2)
    assert min(first["width"], second["width"]) > 150
    phone_page.get_by_role("link", name="July:", exact=False).click()
    phone_page.wait_for_url("**month=7*")


@pytest.mark.parametrize("key", FULLEST)
def test_a_pair_prints_on_one_page_in_every_stage(taught, watched_page, key):
    for number in range(len(Pair.objects.get(key=key).stage_combinations)):
        watched_page.visit(f"/pairs/{key}/?month=6&stages={number}")
        printed = watched_page.page.pdf(format="A4", prefer_css_page_size=True)
        assert len(PdfReader(BytesIO(printed)).pages) == 1, number


def test_the_season_can_be_read_at_any_width(taught, watched_page, phone_page):
    for window in (watched_page, phone_page):
        window.visit("/season/?date=2026-04-20")
        window.assert_fits()
        window.assert_accessible()
