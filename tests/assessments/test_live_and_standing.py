"""Spot tests, standings, standards, setting papers and opening windows, as pages."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Evidence, Paper, Period, SpotTest, Window
from species.rules.vocabulary import Settlement
from tests.factories.assessments import make_live_evidence
from tests.factories.certificates import trust_founder
from tests.factories.species import LocalityFactory, SpecimenFactory


@pytest.fixture
def spot_test(tutor, pair) -> SpotTest:
    return SpotTest.objects.create(
        title="By the ditch", locality=LocalityFactory(), held_at=timezone.now() - timedelta(hours=2), set_by=tutor.user
    )


@pytest.fixture
def trusted(tutor) -> None:
    """The tutor may record answers about any plant."""
    trust_founder(tutor)


def page(name: str, *args) -> str:
    return reverse(f"assessments:{name}", args=args)


def add_station(client, test, plant="badleaf"):
    return client.post(page("station_add", test.key), {"plant": plant, "stage": "rosette"})


def test_a_spot_test_is_set_up_with_stations(signed_in, tutor, pair):
    client = signed_in(tutor)
    place = LocalityFactory()
    client.post(page("spot_test_new"), {"title": "New", "locality": place.pk, "held_at": "2026-05-01T10:00"})
    test = SpotTest.objects.get()
    assert add_station(client, test).status_code == 302
    assert test.stations.get().specimen.settlement == Settlement.SINGLE
    assert "Needs a second name" in client.get(page("spot_test", test.key)).content.decode()


def test_an_unknown_plant_is_refused_with_the_nearest_names(signed_in, tutor, spot_test):
    response = add_station(signed_in(tutor), spot_test, "badlaef")
    assert response.status_code == 422
    assert "badleaf" in response.content.decode()
    assert not spot_test.stations.exists()


def test_a_second_person_names_the_plant_without_being_told(signed_in, tutor, assessor, spot_test):
    add_station(signed_in(tutor), spot_test)
    client = signed_in(assessor)
    shown = client.get(page("spot_test", spot_test.key)).content.decode()
    shown += client.get(page("station_name", spot_test.key, 1)).content.decode()
    assert "Genus" not in shown.replace("<datalist", "").split("plant-names")[0]
    client.post(page("station_name", spot_test.key, 1), {"plant": "badleaf"})
    assert spot_test.stations.get().specimen.settlement == Settlement.CONFIRMED


def test_the_setter_cannot_be_the_second_person(signed_in, tutor, spot_test):
    client = signed_in(tutor)
    add_station(client, spot_test)
    response = client.post(page("station_name", spot_test.key, 1), {"plant": "badleaf"})
    assert "ask a second person" in response.content.decode()
    assert spot_test.stations.get().specimen.settlement == Settlement.SINGLE


RECORD = {
    "recognised": "sight", "s1-said": "badleaf", "s1-name_is": "listed",
    "s1-decision": "refuse", "s1-confidence": "sure",
}  # fmt: skip


def test_answers_are_recorded_once_as_live_evidence(signed_in, tutor, participant, spot_test, trusted):
    client = signed_in(tutor)
    add_station(client, spot_test)
    url = page("spot_test_record", spot_test.key)
    assert client.post(url, {"person": participant.user.email, **RECORD}).status_code == 302
    row = Evidence.objects.get()
    assert (row.medium, row.decision, row.recorded_by) == ("live", "refuse", tutor.user)
    assert Window.objects.get().opened_at == spot_test.held_at
    again = client.post(url, {"person": participant.user.email, **RECORD})
    assert "recorded for this person before" in again.content.decode()
    assert Evidence.objects.count() == 1


def test_somebody_unknown_is_said_and_what_was_typed_stays(signed_in, tutor, spot_test):
    client = signed_in(tutor)
    add_station(client, spot_test)
    response = client.post(page("spot_test_record", spot_test.key), {"person": "Nobody", **RECORD})
    assert response.status_code == 422
    assert 'value="Nobody"' in response.content.decode()
    assert not Evidence.objects.exists()


def test_whoever_set_the_test_cannot_be_recorded(signed_in, tutor, spot_test):
    client = signed_in(tutor)
    add_station(client, spot_test)
    response = client.post(page("spot_test_record", spot_test.key), {"person": tutor.user.email, **RECORD})
    assert "cannot count" in response.content.decode()


@pytest.mark.parametrize("name", ["spot_tests", "spot_test_new", "set_paper"])
def test_pages_of_staff_refuse_participants_and_strangers(signed_in, client, participant, name):
    assert client.get(page(name)).status_code == 302
    assert signed_in(participant).get(page(name)).status_code == 403


def test_the_standing_shows_every_pair_and_its_evidence(signed_in, participant, tutor, standard, pair):
    Window.objects.create(
        period=Period.objects.create(
            person=participant.user,
            number=1,
            started_at=timezone.now() - timedelta(days=1),
            ends_at=timezone.now() + timedelta(days=700),
        ),
        number=1,
        opened_at=timezone.now() - timedelta(days=1),
        opened_by=participant.user,
    )
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    shown = signed_in(participant).get(page("my_standing")).content.decode()
    assert "0 of 1 dangerous pair passed" in shown
    assert "would have been gathered" in shown


def test_the_standing_of_somebody_else_needs_the_permission(signed_in, stranger, tutor, participant, standard):
    url = page("standing_of", participant.user.pk, standard.key)
    assert signed_in(stranger).get(url).status_code == 403
    assert signed_in(tutor).get(url).status_code == 200


def test_a_standard_is_public_and_says_what_it_asks(client, standard):
    shown = client.get(page("standard", standard.key, standard.version)).content.decode()
    assert "13 of badleaf without a miss" in shown
    assert "5 of goodleaf recognised" in shown
    assert client.get(page("standard", standard.key, 9)).status_code == 404


def test_a_paper_is_set_for_people_by_name(signed_in, tutor, participant, standard, bank, pair):
    data = {
        "title": "For one", "standard": standard.pk, "pairs": [pair.pk], "questions": "4",
        "opens_at": "2026-05-01T10:00", "people": participant.user.email,
    }  # fmt: skip
    assert signed_in(tutor).post(page("set_paper"), data).status_code == 302
    assert Paper.objects.get().seats.get().person == participant.user


def test_a_bank_that_is_too_small_is_named_and_nothing_is_set(signed_in, tutor, participant, standard, bank, pair):
    data = {
        "title": "Too long", "standard": standard.pk, "pairs": [pair.pk], "questions": "40",
        "opens_at": "2026-05-01T10:00", "people": participant.user.email,
    }  # fmt: skip
    response = signed_in(tutor).post(page("set_paper"), data)
    assert response.status_code == 422
    assert 'value="Too long"' in response.content.decode()
    assert not Paper.objects.exists()


def test_a_window_opens_after_retraining_and_a_fourth_is_refused(signed_in, organiser, participant, sitting):
    client, url = signed_in(organiser), page("window_new", participant.user.pk)
    for number in (2, 3):
        client.post(url, {"retraining": f"Taught again {number}"})
    response = client.post(url, {"retraining": "Once more"})
    assert "there is no fourth" in response.content.decode()
    assert Window.objects.count() == 3
