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


def test_what_a_specimen_counts_as_can_be_worked_out_again(specimen, plants, tutor, assessor, organiser):
    said = [(assessor, "goodleaf", plants[0]), (organiser, "?", None), (assessor, "badleaf", plants[1])]
    for hours, (who, name, species) in enumerate(said, start=1):
        determine(specimen, said=name, species=species, by=who.user, now=timezone.now() + timedelta(hours=hours))
        Specimen.objects.filter(pk=specimen.pk).update(species=None, settlement=Settlement.UNDETERMINED.value)
        again = settle(Specimen.objects.get(pk=specimen.pk))
        assert (again.species, again.settlement) == (specimen.species, specimen.settlement)
    assert specimen.settlement == Settlement.CONFIRMED


def test_nobody_confirms_their_own_name_through_an_invitation(specimen, plants, tutor, invited):
    link = invited(tutor.user.email.upper())
    determine(specimen, said="badleaf", species=plants[1], link=link, now=timezone.now())
    assert specimen.settlement == Settlement.SINGLE


@pytest.fixture
def invited(specimen, organiser):
    """Invite somebody outside to name the specimen."""

    def invite(email: str = "out@example.org") -> DeterminerLink:
        return invite_outsider("Out", email, [specimen], organiser.user, timezone.now(), "http://x/{key}")

    return invite


def test_outsiders_alone_confirm_nothing_until_somebody_of_the_school_agrees(
    signed_in, assessor, specimen, plants, invited
):
    specimen.determinations.all().delete()
    for email in ("out@example.org", "off@example.org"):
        determine(specimen, said="badleaf", species=plants[1], link=invited(email), now=timezone.now())
    client = signed_in(assessor)
    assert specimen.settlement == Settlement.SINGLE
    assert "nobody of the school is among them" in client.get(reverse("species:specimen", args=[specimen.key])).text
    client.post(QUEUE, {"specimen": specimen.key, "said": "badleaf"})
    specimen.refresh_from_db()
    assert specimen.settlement == Settlement.CONFIRMED
    assert "nobody of the school" not in client.get(reverse("species:specimen", args=[specimen.key])).text


def test_to_say_that_one_cannot_tell_settles_nothing_and_ends_the_question(signed_in, assessor, specimen):
    client = signed_in(assessor)
    client.post(QUEUE, {"specimen": specimen.key, "said": "", "cannot_tell": "on"})
    specimen.refresh_from_db()
    assert (specimen.settlement, specimen.determinations.count()) == (Settlement.SINGLE, 2)
    assert "Nothing waits for you" in client.get(QUEUE).content.decode()


def test_a_page_that_names_a_plant_has_a_blind_alternative_for_its_picture(signed_in, assessor, specimen):
    specimen.photos.update(alt_blind="", alt_full="Badleaf in leaf")
    shown = signed_in(assessor).get(QUEUE).content.decode()
    assert 'alt="Photograph of a plant"' in shown
    assert "Badleaf in leaf" not in shown


@pytest.mark.parametrize("key", ["", "unknown"])
def test_naming_a_specimen_that_was_not_asked_about_records_nothing(
    signed_in, client, assessor, invited, specimen, key
):
    link = invited()
    by_link = reverse("species:name_by_link", args=[link.key])
    for address, somebody in ((by_link, client), (QUEUE, signed_in(assessor))):
        response = somebody.post(address, {"specimen": key, "said": "badleaf"}, follow=True)
        assert response.redirect_chain == [(address, 302)]
        assert "here is the next one" in response.content.decode()
    assert specimen.determinations.count() == 1


def test_a_link_shows_its_own_specimens_alone_and_not_who_named_them(client, invited, specimen):
    link = invited()
    other = give_picture(SpecimenFactory(species=None))
    shown = client.get(reverse("species:name_by_link", args=[link.key])).content.decode()
    assert specimen.key in shown
    assert "Tilda" not in shown
    assert client.get(reverse("species:photo_by_link", args=[link.key, other.key, 400])).status_code == 404


@pytest.mark.parametrize("over", ["closes_on", "withdrawn_on"])
def test_a_link_that_is_over_shows_and_takes_nothing(client, invited, specimen, over):
    link = invited()
    DeterminerLink.objects.update(**{over: timezone.localdate() - timedelta(days=1)})
    address = reverse("species:name_by_link", args=[link.key])
    assert client.get(address).status_code == 410
    assert client.post(address, {"specimen": specimen.key, "said": "badleaf"}).status_code == 410
    photo = specimen.photos.get()
    assert client.get(reverse("species:photo_by_link", args=[link.key, photo.key, 400])).status_code == 404
    assert specimen.determinations.count() == 1


def test_a_link_works_to_the_end_of_its_last_day(client, invited):
    link = invited()
    DeterminerLink.objects.update(closes_on=timezone.localdate())
    assert client.get(reverse("species:name_by_link", args=[link.key])).status_code == 200


def test_the_organiser_invites_an_outsider_by_mail(signed_in, organiser, specimen, django_capture_on_commit_callbacks):
    asked = {"name": "Out Sider", "email": "out@example.org", "specimens": [specimen.pk]}
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(organiser).post(reverse("species:outsider_new"), asked)
    link, sent = DeterminerLink.objects.get(), mail.outbox[-1]
    assert list(link.specimens.all()) == [specimen]
    assert sent.to == ["out@example.org"]
    assert reverse("species:name_by_link", args=[link.key]) in str(sent.body)


def test_an_invitation_without_an_address_is_refused_and_stays_typed(signed_in, organiser, specimen):
    response = signed_in(organiser).post(reverse("species:outsider_new"), {"name": "Out Sider", "email": "nowhere"})
    assert response.status_code == 422
    assert 'value="nowhere"' in response.content.decode()
    assert not DeterminerLink.objects.exists()
    assert not mail.outbox


def test_the_bank_is_closed_to_those_who_do_not_keep_it(client, signed_in, participant, specimen):
    closed = [("bank", []), ("specimen", [specimen.key]), ("to_name", []), ("outsider_new", [])]
    addresses = [reverse(f"species:{name}", args=args) for name, args in closed]
    assert [client.get(address).status_code for address in addresses] == [302] * 4
    assert [signed_in(participant).get(address).status_code for address in addresses] == [403] * 4
    assert signed_in(participant).post(QUEUE, {"specimen": specimen.key, "said": "badleaf"}).status_code == 403


def test_other_methods_are_not_taken(signed_in, organiser, invited, specimen):
    client, link = signed_in(organiser), invited()
    for name, args in (("to_name", []), ("outsider_new", []), ("name_by_link", [link.key])):
        assert client.delete(reverse(f"species:{name}", args=args)).status_code == 405
    assert client.post(reverse("species:bank")).status_code == 405
    assert client.post(reverse("species:specimen", args=[specimen.key])).status_code == 405


def test_the_bank_opens_with_filters_that_mean_nothing(signed_in, tutor, specimen):
    client = signed_in(tutor)
    assert specimen.key in client.get(reverse("species:bank"), {"settlement": "single"}).content.decode()
    assert specimen.key not in client.get(reverse("species:bank"), {"stage": "no such stage"}).content.decode()
