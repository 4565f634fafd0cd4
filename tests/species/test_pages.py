"""The public pages of plants and pairs, and the pictures: teaching ones for all, others for nobody outside."""

import pytest
from django.core.management import call_command
from django.urls import reverse

from species.models import Species
from species.rules.vocabulary import Use
from tests.factories.species import SpecimenFactory, give_picture


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


@pytest.mark.parametrize("typed", ["Water cress", "WATER-CRESS", "watercress", "nasturtium  officinale"])
def test_a_plant_is_found_whatever_the_spelling(client, flora, typed):
    assert (
        reverse("species:species", args=["nasturtium-officinale"])
        in client.get(reverse("species:index"), {"q": typed}).content.decode()
    )


def test_a_name_that_finds_nothing_gets_the_nearest(client, flora):
    shown = client.get(reverse("species:index"), {"q": "hemlok"}).content.decode()
    assert "No plant of that name" in shown
    assert "hemlock" in shown


def test_a_plant_shows_its_harm_pairs_and_cautions(client, flora):
    shown = client.get(reverse("species:species", args=["conium-maculatum"])).content.decode()
    assert "Deadly" in shown
    assert reverse("species:pair", args=["cowparsley-hemlock"]) in shown
    assert client.get(reverse("species:species", args=["no-such-plant"])).status_code == 404


def test_the_dangerous_pairs_come_first(client, flora):
    shown = client.get(reverse("species:pairs")).content.decode()
    assert shown.index("sorrel-arum") < shown.index("chickweed-pimpernel") < shown.index("nettle-deadnettle")


@pytest.mark.parametrize(
    "query", ["", "?month=4&stages=1", "?month=13&stages=77", "?month=x&stages=-1", "?month=9999999"]
)
def test_a_pair_opens_in_any_month_and_survives_nonsense(client, flora, query):
    response = client.get(reverse("species:pair", args=["ramsons-lily"]) + query)
    assert response.status_code == 200
    assert "Never to be relied on" in response.content.decode()


def test_where_nothing_decides_the_page_says_leave_it(client, flora):
    shown = client.get(reverse("species:pair", args=["comfrey-foxglove"]) + "?month=4&stages=0").content.decode()
    assert "Nothing that shows in this stage decides: leave it." in shown


def test_modules_open(client, flora):
    assert client.get(reverse("species:module", args=["spring-carpets"])).status_code == 200
    assert "Spring carpets" in client.get(reverse("species:modules")).content.decode()


def picture(use: Use):
    photo = give_picture(SpecimenFactory(species=Species.objects.get(key="conium-maculatum"), use=use.value))
    return reverse("species:photo", args=[photo.key, 400])


def test_a_teaching_picture_is_for_everybody(client, flora):
    response = client.get(picture(Use.TEACHING))
    assert response["Content-Type"] == "image/jpeg"
    assert "immutable" in response["Cache-Control"]
    assert "sandbox" in response["Content-Security-Policy"]


def test_an_assessment_picture_is_for_keepers_of_the_bank_alone(client, flora, signed_in, participant, tutor):
    address = picture(Use.ASSESSMENT)
    assert client.get(address).status_code == 404
    assert signed_in(participant).get(address).status_code == 404
    kept = signed_in(tutor).get(address)
    assert kept.status_code == 200
    assert kept["Cache-Control"] == "private, no-store"
    assert client.get(reverse("species:photo", args=["unknown", 400])).status_code == 404


def test_public_pages_change_nothing(client, flora):
    for name, args in (("index", []), ("pairs", []), ("modules", []), ("pair", ["ramsons-lily"])):
        assert client.post(reverse(f"species:{name}", args=args)).status_code == 405
