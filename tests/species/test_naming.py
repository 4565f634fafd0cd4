"""Naming specimens: two people who agree make a name sure, and the second is not told the first."""

from datetime import timedelta

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from species.actions.determinations import determine, settle
from species.actions.outsiders import invite_outsider
from species.models import DeterminerLink, Specimen
from species.rules.vocabulary import Settlement
from tests.factories.species import SpecimenFactory, give_picture, make_species

QUEUE = reverse("species:to_name")


@pytest.fixture
def plants(school):
    return make_species("goodleaf"), make_species("badleaf", deadly=True)


@pytest.fixture
def specimen(plants, tutor) -> Specimen:
    """Named badleaf by the tutor, and by nobody else."""
    made = SpecimenFactory(species=None, settlement=Settlement.UNDETERMINED.value)
    give_picture(made)
    determine(made, said="badleaf", species=plants[1], by=tutor.user, now=timezone.now())
    return made


def test_one_name_is_single_and_a_second_that_agrees_confirms(specimen, plants, assessor):
    assert specimen.settlement == Settlement.SINGLE
    determine(specimen, said="badleaf", species=plants[1], by=assessor.user, now=timezone.now())
    assert (specimen.settlement, specimen.species) == (Settlement.CONFIRMED, plants[1])


def test_the_same_person_twice_is_one_voice_and_the_later_counts(specimen, plants, tutor):
    determine(specimen, said="goodleaf", species=plants[0], by=tutor.user, now=timezone.now() + timedelta(seconds=1))
    assert (specimen.settlement, specimen.species) == (Settlement.SINGLE, plants[0])


def test_a_name_that_contradicts_puts_a_confirmed_specimen_in_dispute(specimen, plants, assessor, organiser):
    determine(specimen, said="badleaf", species=plants[1], by=assessor.user, now=timezone.now())
    determine(specimen, said="goodleaf", species=plants[0], by=organiser.user, now=timezone.now())
    assert (specimen.settlement, specimen.species) == (Settlement.DISPUTED, None)
    again = settle(Specimen.objects.get(pk=specimen.pk))
    assert (again.settlement, again.species) == (Settlement.DISPUTED, None)


def test_the_queue_shows_the_plant_and_not_its_name(signed_in, assessor, specimen):
    client = signed_in(assessor)
    shown = client.get(QUEUE).content.decode()
    assert specimen.key in shown
    assert "Tilda" not in shown
    client.post(QUEUE, {"specimen": specimen.key, "said": "Badleaf", "characters": "the edge"})
    specimen.refresh_from_db()
    assert specimen.settlement == Settlement.CONFIRMED
    assert "Nothing waits for you" in client.get(QUEUE).content.decode()


def test_a_wrong_name_is_refused_with_the_nearest_and_stays_typed(signed_in, assessor, specimen):
    response = signed_in(assessor).post(QUEUE, {"specimen": specimen.key, "said": "badlaef"})
    assert response.status_code == 422
    assert 'value="badlaef"' in response.content.decode()
    assert "badleaf" in response.content.decode()
    assert specimen.determinations.count() == 1


def test_who_named_it_is_not_asked_again_and_participants_are_not_asked_at_all(
    client, signed_in, tutor, participant, specimen
):
    assert client.get(QUEUE).status_code == 302
    assert "Nothing waits for you" in signed_in(tutor).get(QUEUE).content.decode()
    assert signed_in(participant).get(QUEUE).status_code == 403


def test_an_outsider_names_by_link_without_an_account(client, specimen, organiser, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        link = invite_outsider("Out", "Out@example.org", [specimen], organiser.user, timezone.now(), "http://x/{key}")
    assert link.key in str(mail.outbox[-1].body)
    address = reverse("species:name_by_link", args=[link.key])
    photo = specimen.photos.get()
    assert client.get(reverse("species:photo_by_link", args=[link.key, photo.key, 400])).status_code == 200
    client.post(address, {"specimen": specimen.key, "said": "badleaf"})
    specimen.refresh_from_db()
    assert specimen.settlement == Settlement.CONFIRMED
    DeterminerLink.objects.update(withdrawn_on=timezone.localdate())
    assert client.get(address).status_code == 410
    assert client.get(reverse("species:name_by_link", args=["unknown"])).status_code == 404
