"""What shows when: the day, the place that runs early or late, the pairs that can be mistaken, the bad address."""

from datetime import date

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from species.models import Locality, Species
from species.queries.season import plants_seen_at, season_page
from species.rules.season import ALL_MONTHS, year_at
from species.rules.vocabulary import Stage
from tests.factories.species import LocalityFactory, SpecimenFactory


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def stages_of(key: str, day: date, days_late: int = 0) -> list[str]:
    (row,) = season_page(Species.objects.filter(key=key), "", day, days_late).rows
    return [stage.key for stage in row.now]


def seen_at(place: Locality, *keys: str) -> None:
    for key in keys:
        specimen = SpecimenFactory(species=Species.objects.get(key=key))
        specimen.individual.locality = place
        specimen.individual.save()


def test_a_place_that_runs_late_shows_what_the_region_showed_before(flora):
    assert "flower" in stages_of("allium-ursinum", date(2026, 6, 28))
    assert "flower" not in stages_of("allium-ursinum", date(2026, 7, 5))
    assert "flower" in stages_of("allium-ursinum", date(2026, 7, 5), 10)


def test_a_month_at_a_late_place_holds_the_stages_of_any_of_its_days():
    march = {Stage.FLOWER: frozenset({3})}
    assert [bool(stages) for stages in year_at(march, 7)] == [False, False, True, True] + [False] * 8
    assert [bool(stages) for stages in year_at(march, -7)] == [False, True, True] + [False] * 9
    assert all(year_at({Stage.ROSETTE: ALL_MONTHS}, 40))


def test_dangerous_plants_and_pairs_come_first(flora):
    page = season_page(Species.objects.all(), "", date(2026, 4, 20))
    danger = [row.is_danger for row in page.rows]
    assert danger == sorted(danger, reverse=True)
    assert [each.pair.danger for each in page.pairs] == sorted(
        (each.pair.danger for each in page.pairs), key=["dangerous", "unpleasant", "harmless"].index
    )


def test_a_pair_that_nothing_separates_now_says_leave_it(client, flora):
    shown = client.get(reverse("species:season"), {"module": "spring-carpets", "date": "2026-04-20"})
    (lily,) = [each for each in shown.context["page"].pairs if each.pair.key == "ramsons-lily"]
    assert [each.separates for each in lily.confusions] == [""]
    assert "nothing separates, leave it" in shown.content.decode()


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("date=2026-02-30", "There is no day “2026-02-30”"),
        ("date=2026-13-01", "There is no day “2026-13-01”"),
        ("date=yesterday", "There is no day “yesterday”"),
        ("module=no-such", "There is no module “no-such”"),
        ("species=conium-maculatm", "Nearest: Conium maculatum"),
        ("species=zzzzzz&species=allium-ursinum", "There is no plant “zzzzzz”."),
    ],
)
def test_an_address_that_asks_for_what_is_not_there_is_answered_in_a_sentence(client, flora, query, sentence):
    response = client.get(f"{reverse('species:season')}?{query}")
    assert response.status_code == 200
    assert sentence in response.content.decode()


def test_chosen_plants_are_shown_and_no_others(client, flora):
    page = client.get(f"{reverse('species:season')}?species=allium-ursinum&species=arum-maculatum").context["page"]
    assert {row.species.key for row in page.rows} == {"allium-ursinum", "arum-maculatum"}


def test_a_place_shows_what_was_named_there(client, flora, signed_in, tutor):
    place = LocalityFactory(days_late=5)
    seen_at(place, "conium-maculatum", "anthriscus-sylvestris")
    response = signed_in(tutor).get(reverse("species:place", args=[place.pk]))
    assert [row.species.key for row in response.context["page"].rows] == ["conium-maculatum", "anthriscus-sylvestris"]
    assert "This place runs 5 days late." in response.content.decode()
    assert plants_seen_at(LocalityFactory()).count() == 0


def test_places_are_for_those_who_keep_the_bank(client, flora, signed_in, participant, stranger):
    place = LocalityFactory(name="Secret Wood")
    for name in ("place", "place_calendar"):
        address = reverse(f"species:{name}", args=[place.pk])
        assert client.get(address).status_code == 302
        for person in (participant, stranger):
            assert signed_in(person).get(address).status_code == 403
        client.logout()
    assert "Secret Wood" not in client.get(reverse("species:season")).content.decode()


def asked(plants) -> int:
    with CaptureQueriesContext(connection) as queries:
        season_page(plants, "", date(2026, 4, 20))
    return len(queries)


def test_the_season_asks_the_database_as_often_for_two_plants_as_for_all(flora):
    pair = Species.objects.filter(key__in=["allium-ursinum", "arum-maculatum"])
    assert asked(pair) == asked(Species.objects.all())


def test_nothing_but_looking_is_answered(client, flora):
    for name in ("season", "calendar"):
        assert client.post(reverse(f"species:{name}")).status_code == 405
