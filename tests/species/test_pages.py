"""The public pages of plants and pairs, and the pictures: teaching ones for all, others for nobody outside."""

from datetime import date

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from species.models import CommonName, Pair, Species, Specimen
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


@pytest.mark.parametrize("typed", ["ÁRUM maculätum", "lords and LADIES", "Lords-and-Ladies", "maculat", "\x00arum"])
def test_accents_hyphens_and_parts_of_a_name_do_not_matter(client, flora, typed):
    shown = client.get(reverse("species:index"), {"q": typed}).content.decode()
    assert reverse("species:species", args=["arum-maculatum"]) in shown


def test_a_name_like_none_gets_no_suggestion_and_no_markup_through(client, flora):
    shown = client.get(reverse("species:index"), {"q": "<b>zzzzqqqq"}).content.decode()
    assert "No plant of that name" in shown
    assert "Nearest:" not in shown
    assert "<b>zzzz" not in shown


def test_a_pair_shows_what_its_stages_show(client, flora):
    address = reverse("species:pair", args=["ramsons-lily"])
    pages = {client.get(f"{address}?month=5&stages={n}").content for n in range(len(pair_of("ramsons-lily")))}
    assert len(pages) == len(pair_of("ramsons-lily"))
    assert client.get(f"{address}?month=1").content != client.get(f"{address}?month=5").content


def pair_of(key: str) -> list[list[str]]:
    return Pair.objects.get(key=key).stage_combinations


@pytest.mark.parametrize("query", ["?stages=٣", "?month=0&stages=0", "?month=5&stages=98", "?month=&stages=", "?x=1"])
def test_values_that_mean_nothing_open_the_pair_as_if_not_given(client, flora, query):
    address = reverse("species:pair", args=["ramsons-lily"])
    month = "?month=5" if "month=5" in query else ""
    given, plain = client.get(address + query), client.get(address + month)
    assert given.context["page"] == plain.context["page"]


def test_what_is_not_there_is_not_found(client, flora):
    for name in ("pair", "module", "species"):
        assert client.get(reverse(f"species:{name}", args=["no-such-key"])).status_code == 404
    assert client.get(f"/photos/x/{10**30}").status_code == 404


def test_a_page_shows_the_teaching_pictures_in_the_bank_and_no_others(client, flora):
    hemlock = Species.objects.get(key="conium-maculatum")
    taught, kept, gone = (
        give_picture(SpecimenFactory(species=hemlock, use=use)) for use in (Use.TEACHING, Use.ASSESSMENT, Use.TEACHING)
    )
    Specimen.objects.filter(photos=gone).update(retired_on=date(2026, 5, 1))
    shown = client.get(reverse("species:species", args=["conium-maculatum"])).content.decode()
    shown += client.get(reverse("species:pair", args=["cowparsley-hemlock"])).content.decode()
    assert taught.key in shown
    assert kept.key not in shown
    assert gone.key not in shown


def test_a_teaching_picture_can_be_kept_by_any_cache(client, flora, signed_in, participant):
    address = picture(Use.TEACHING)
    for response in (client.get(address), signed_in(participant).get(address)):
        assert response["Cache-Control"].startswith("public")
        assert not response.cookies


def test_an_assessment_picture_is_refused_like_one_that_is_not_there(client, flora):
    kept, absent = client.get(picture(Use.ASSESSMENT)), client.get(reverse("species:photo", args=["unknown", 400]))
    assert kept.status_code == absent.status_code == 404
    assert "image" not in kept["Content-Type"]
    assert kept.get("Cache-Control") == absent.get("Cache-Control")


@pytest.mark.parametrize(
    ("name", "args"),
    [
        ("index", []),
        ("pairs", []),
        ("species", ["conium-maculatum"]),
        ("pair", ["cowparsley-hemlock"]),
        ("module", ["spring-carpets"]),
    ],
)
def test_a_page_asks_the_database_as_often_however_much_there_is(client, flora, name, args):
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert client.get(reverse(f"species:{name}", args=args)).status_code == 200
        return len(queries)

    asked()  # what is read once and remembered
    picture(Use.TEACHING)
    few = asked()
    for species in Species.objects.all()[:5]:
        CommonName.objects.create(species=species, name=f"{species.name} by another name")
    for _each in range(4):
        picture(Use.TEACHING)
    assert asked() == few
