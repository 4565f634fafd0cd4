"""What pages and letters say of an erasure is so: of names that stay, of a request that waits, of whom nobody names."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.erasure import ask_to_be_erased, decline_erasure, take_request_back
from courses.actions.people import keep_person
from courses.models import Certificate, ErasureRequest, Letter, Person, RoleGrant
from tests.courses.erasure.traces import NAME, erase_now
from tests.factories.certificates import make_certificate, show_proof
from tests.factories.people import make_person

OWN = "/your-data/"
YEARS_AGO = timedelta(days=9 * 366)


def page_of(request: ErasureRequest) -> str:
    return reverse("courses:erasure", args=[request.key])


@pytest.fixture
def past(participant: Person, standard, organiser: Person) -> Certificate:
    """A certificate that ended so long ago that nothing has to name anybody on it."""
    made = make_certificate(participant, standard, organiser)
    days = {"valid_from": made.valid_from - YEARS_AGO, "valid_until": made.valid_until - YEARS_AGO}
    Certificate.objects.filter(pk=made.pk).update(**days)
    made.refresh_from_db()
    return made


def test_a_name_that_goes_at_once_is_not_said_to_stay(signed_in, organiser, participant, past) -> None:
    request = ask_to_be_erased(participant, now=timezone.now())
    client = signed_in(organiser)
    assert past.number not in client.get(page_of(request)).content.decode()
    page = client.post(reverse("courses:erasure_grant", args=[request.key]), follow=True).content.decode()
    request.refresh_from_db()
    assert request.completed_at is not None
    assert "A last letter is on its way" in page
    assert "but for the name" not in page
    assert "stays in one place" not in Letter.objects.get(kind="erased").text
    past.refresh_from_db()
    assert NAME not in str(past.facts)


def test_the_last_letter_says_until_when_a_name_stays(organiser, participant, standard) -> None:
    make_certificate(participant, standard, organiser)
    erase_now(participant, organiser)
    assert "stays in one place" in Letter.objects.get(kind="erased").text


def test_ones_own_page_names_only_certificates_that_will_keep_the_name(signed_in, participant, past) -> None:
    assert past.number not in signed_in(participant).get(OWN).content.decode()


def test_the_request_that_waits_is_shown_though_an_earlier_one_came_later(signed_in, participant, organiser) -> None:
    now = timezone.now()
    first = ask_to_be_erased(participant, now=now)
    decline_erasure(first, by=organiser, reason="A court has asked for it.", now=now)
    ask_to_be_erased(participant, now=now, asked_at=now - timedelta(days=3), recorded_by=organiser)
    page = signed_in(participant).get(OWN).content.decode()
    assert "Take it back" in page
    assert "A court has asked" not in page


def test_a_request_recorded_this_morning_as_of_noon_hides_no_later_one(signed_in, participant, organiser) -> None:
    now = timezone.now()
    recorded = ask_to_be_erased(participant, now=now, asked_at=now + timedelta(hours=3), recorded_by=organiser)
    take_request_back(recorded, now)
    ask_to_be_erased(participant, now=now)
    assert "Take it back" in signed_in(participant).get(OWN).content.decode()


def test_who_has_left_and_cannot_sign_in_is_told_to_write_instead(participant, organiser) -> None:
    ask_to_be_erased(participant, now=timezone.now())
    assert "on the page of your own data" in Letter.objects.get(kind="erasure_received").text
    gone = make_person("Gone Goat")
    gone.left_on = timezone.localdate()
    keep_person(gone, today=timezone.localdate())
    ask_to_be_erased(gone, now=timezone.now(), recorded_by=organiser)
    text = Letter.objects.get(kind="erasure_received", person=gone).text
    assert "page of your own data" not in text
    assert "Write to the school if you want to take it back" in text


@pytest.mark.parametrize("name", [NAME, NAME.upper()])
def test_the_page_says_that_a_namesake_keeps_the_name_in_texts(signed_in, participant, organiser, name: str) -> None:
    request, said = ask_to_be_erased(participant, now=timezone.now()), "Somebody else of the school has the same name"
    client = signed_in(organiser)
    assert said not in client.get(page_of(request)).content.decode()
    twin = make_person("Other Person")
    Person.objects.filter(pk=twin.pk).update(name=name, note=f"{name} is the other one.")
    assert said in client.get(page_of(request)).content.decode()
    client.post(reverse("courses:erasure_grant", args=[request.key]))
    twin.refresh_from_db()
    assert twin.note == f"{name} is the other one."


def test_what_stays_names_the_roles_proofs_and_certificates_too(
    signed_in, participant, organiser, standard, stranger
) -> None:
    show_proof(participant, "first_aid", organiser)
    make_certificate(participant, standard, organiser)
    client = signed_in(organiser)
    page = client.get(page_of(ask_to_be_erased(participant, now=timezone.now()))).content.decode()
    for words in ("Roles held", "Proofs seen", "Whoever holds one in hand"):
        assert words in page
    RoleGrant.objects.filter(person=stranger).delete()
    bare = client.get(page_of(ask_to_be_erased(stranger, now=timezone.now()))).content.decode()
    assert "Nothing but an empty row" in bare


def test_whoever_was_erased_is_not_filled_in_again(signed_in, participant, organiser) -> None:
    erase_now(participant, organiser)
    participant.refresh_from_db()
    client, edit = signed_in(organiser), reverse("courses:person_edit", args=[participant.uuid])
    assert edit not in client.get(reverse("courses:person", args=[participant.uuid])).content.decode()
    assert client.post(edit, {"name": NAME, "left_on": ""}).status_code == 404
    participant.refresh_from_db()
    participant.user.refresh_from_db()
    assert (participant.name == NAME, participant.left_on is None, participant.user.is_active) == (False, False, False)
