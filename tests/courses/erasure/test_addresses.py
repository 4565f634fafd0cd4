"""Being erased: whatever was written to or from an address of theirs goes, and nothing from an address of another."""

from collections.abc import Callable

import pytest
from allauth.account.models import EmailAddress
from django.contrib.sessions.backends.db import SessionStore
from django.contrib.sessions.models import Session
from django.urls import reverse
from django.utils import timezone

from courses.actions.complaints import complain
from courses.actions.enquiries import ask
from courses.actions.erasure import ask_to_be_erased
from courses.models import Complaint, Enquiry, Invitation, Letter, Person
from courses.queries.erasure import erasure_page
from courses.queries.own_record import everything_of
from tests.courses.erasure.traces import ADDRESS, erase_now, erased_and_posted, found_in_database
from tests.factories.people import make_person

OTHER = "vera@example.net"


def write_from(address: str, by: Person) -> None:
    """An enquiry, a complaint, an invitation and a letter without a name."""
    now = timezone.now()
    ask(None, name="Vera Vetch", email=address, text="May I come?", now=now)
    complain(name="Vera Vetch", email=address, text="It rained.", now=now)
    Invitation.objects.create(email=address, name="Vera Vetch", invited_by=by, invited_at=now, closes_at=now)


def left_from(address: str) -> tuple[bool, ...]:
    rows = (Enquiry.objects, Complaint.objects, Invitation.objects)
    return (*(each.filter(email__iexact=address).exists() for each in rows), Letter.objects.filter(to=address).exists())


def proved(person: Person) -> None:
    EmailAddress.objects.create(user=person.user, email=OTHER, verified=True)


def was_written_to(person: Person) -> None:
    Letter.objects.create(person=person, to=OTHER, subject="s", text="t", kind="notice", sent_at=timezone.now())


def only_claimed(person: Person) -> None:
    EmailAddress.objects.create(user=person.user, email=OTHER, verified=False)


def passed_on(person: Person) -> None:
    was_written_to(person)
    Person.objects.get(name="Vera Vetch").user.emailaddress_set.update(email=OTHER)


@pytest.mark.parametrize("how", [proved, was_written_to])
def test_what_came_from_an_address_that_was_theirs_goes(participant, organiser, how: Callable) -> None:
    how(participant)
    write_from(OTHER.upper(), organiser)
    erased_and_posted(participant, organiser)
    assert found_in_database(OTHER) == []


@pytest.mark.parametrize("how", [only_claimed, passed_on])
def test_what_came_from_an_address_of_another_stays(participant, organiser, how: Callable) -> None:
    make_person("Vera Vetch")
    how(participant)
    write_from(OTHER, organiser)
    erased_and_posted(participant, organiser)
    assert left_from(OTHER) == (True, True, True, True)
    assert Complaint.objects.get().name == "Vera Vetch"


@pytest.mark.parametrize(("how", "is_theirs"), [(proved, True), (was_written_to, True), (only_claimed, False)])
def test_the_file_and_the_page_tell_of_what_would_go(participant, organiser, how: Callable, is_theirs: bool) -> None:
    how(participant)
    write_from(OTHER, organiser)
    told = everything_of(participant, timezone.now())["school"]
    assert [len(told[name]) for name in ("questions", "complaints", "invitations")] == [int(is_theirs)] * 3
    page = erasure_page(ask_to_be_erased(participant, now=timezone.now()), timezone.localdate())
    counts = {each.what: each.count for each in (*page.goes, *page.stays)}
    assert counts["Questions from their address"] == counts["Invitations to their address"] == int(is_theirs)
    assert counts.get("Complaints", 0) == int(is_theirs)


def begun_with(address: str) -> str:
    """A session in which somebody has asked for a code, and is known by the address alone."""
    session = SessionStore()
    session["account_login_code"] = {"email": address}
    session.create()
    assert session.session_key is not None
    return session.session_key


@pytest.mark.parametrize("address", ["zoë@example.org", "ann+o'dee@example.org"])
def test_a_sign_in_that_was_begun_with_any_address_ends(participant, organiser, address: str) -> None:
    EmailAddress.objects.create(user=participant.user, email=address, verified=True)
    begun = begun_with(address)
    erase_now(participant, organiser)
    assert not Session.objects.filter(pk=begun).exists()


@pytest.mark.parametrize("address", [f"old.{ADDRESS}", f"{ADDRESS}.uk"])
def test_a_sign_in_that_another_began_with_a_longer_address_goes_on(participant, organiser, address: str) -> None:
    begun = begun_with(address)
    erase_now(participant, organiser)
    assert Session.objects.filter(pk=begun).exists()


def test_a_name_with_an_apostrophe_goes_from_the_letters_as_they_look(organiser, signed_in) -> None:
    """A letter is kept as text and as HTML, in which an apostrophe is written otherwise."""
    erased = make_person("Nuala O'Dee")
    request = ask_to_be_erased(erased, now=timezone.now())
    assert "courses.Letter.html" in found_in_database("O&#x27;Dee")
    signed_in(organiser).post(reverse("courses:erasure_grant", args=[request.key]))
    assert found_in_database("Nuala", "nuala") == ["courses.Letter.to"]
