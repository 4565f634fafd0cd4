"""Inviting by e-mail, and what the link in the mail does."""

from datetime import timedelta

import pytest
import time_machine
from django.core import mail
from django.db import transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from courses.actions.invitations import invite
from courses.models import Course, Invitation, Person
from tests.courses.pages import same_queries
from tests.factories.courses import enrol, make_course

NEW = "/invitations/new/"
TYPED = {"name": "Nia New", "email": "Nia@Example.org", "role": "participant", "course": ""}


@pytest.fixture
def invitation(organiser: Person) -> Invitation:
    return invite("nia@example.org", "Nia New", "participant", by=organiser, now=timezone.now())


def link_of(invitation: Invitation) -> str:
    return reverse("courses:invitation", args=[invitation.key])


def test_an_invitation_sends_its_link(signed_in, organiser, django_capture_on_commit_callbacks) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(organiser).post(NEW, TYPED)
    found = Invitation.objects.get()
    assert mail.outbox[0].to == ["nia@example.org"] == [found.email]
    assert f"http://localhost:8000{link_of(found)}" in mail.outbox[0].body
    assert "Olga Organiser invites you to Test School of Wild Food as participant" in mail.outbox[0].body
    assert found.closes_at - found.invited_at == timedelta(days=14)


@pytest.mark.parametrize("role", ["participant", "tutor", "assessor", "organiser"])
def test_whoever_is_to_work_for_the_school_is_told_what_the_first_sign_in_asks(
    organiser, django_capture_on_commit_callbacks, role: str
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        invite("nia@example.org", "Nia New", role, by=organiser, now=timezone.now())
    assert ("adds a passkey or an authenticator app at the first sign-in" in mail.outbox[0].body) == (
        role != "participant"
    )


def test_no_mail_goes_out_when_the_change_fails(organiser, django_capture_on_commit_callbacks) -> None:
    with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
        invite("a@example.org", "A", "participant", by=organiser, now=timezone.now())
        transaction.set_rollback(True)
    assert mail.outbox == []
    assert not Invitation.objects.exists()


@pytest.mark.parametrize("email", ["pat.participant@example.org", "PAT.Participant@example.org"])
def test_an_address_of_somebody_in_the_school_is_refused(signed_in, organiser, participant, email: str) -> None:
    page = signed_in(organiser).post(NEW, {**TYPED, "email": email}).content.decode()
    assert "Somebody of the school signs in with this address" in page
    assert "Nia New" in page
    assert not Invitation.objects.exists()


def test_an_address_is_invited_once_at_a_time(signed_in, organiser, invitation: Invitation) -> None:
    page = signed_in(organiser).post(NEW, TYPED).content.decode()
    assert "An invitation to this address is open" in page
    assert Invitation.objects.count() == 1


def test_only_participants_are_invited_into_a_course(signed_in, organiser, course: Course) -> None:
    page = signed_in(organiser).post(NEW, {**TYPED, "role": "tutor", "course": course.pk}).content.decode()
    assert "Only participants are invited into a course" in page
    assert not Invitation.objects.exists()


def test_a_course_that_is_over_is_not_offered(signed_in, organiser, course: Course) -> None:
    Course.objects.filter(pk=course.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    assert "Spring course" not in signed_in(organiser).get(NEW).content.decode()


def test_the_link_says_who_invites_to_what_and_changes_nothing(client: Client, invitation: Invitation) -> None:
    page = client.get(link_of(invitation)).content.decode()
    assert "Olga Organiser invites you" in page
    assert "nia@example.org" in page
    invitation.refresh_from_db()
    assert invitation.accepted_at is None
    assert not Person.objects.filter(name="Nia New").exists()


def test_accepting_takes_in_and_signs_in(client: Client, invitation: Invitation) -> None:
    answer = client.post(link_of(invitation))
    person = Person.objects.get(name="Nia New")
    assert answer["Location"] == "/"
    assert client.session["_auth_user_id"] == str(person.user_id)
    assert person.user.emailaddress_set.get().verified
    assert [grant.role for grant in person.roles.all()] == ["participant"]


def test_accepting_gives_a_place_in_the_course(client: Client, organiser, course: Course) -> None:
    found = invite("a@example.org", "Ada", "participant", by=organiser, now=timezone.now(), course=course)
    client.post(link_of(found))
    assert not Person.objects.get(name="Ada").enrolments.get().waiting


def test_accepting_into_a_full_course_gives_a_turn_on_the_waiting_list(client, organiser, participant) -> None:
    full = make_course("Full course", capacity=1)
    enrol(participant, full)
    found = invite("a@example.org", "Ada", "participant", by=organiser, now=timezone.now(), course=full)
    client.post(link_of(found))
    assert Person.objects.get(name="Ada").enrolments.get().waiting


def test_accepting_into_a_course_that_ended_meanwhile_still_takes_in(client, organiser, course: Course) -> None:
    found = invite("a@example.org", "Ada", "participant", by=organiser, now=timezone.now(), course=course)
    Course.objects.filter(pk=course.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    client.post(link_of(found))
    assert not Person.objects.get(name="Ada").enrolments.exists()


def test_a_link_serves_once(client: Client, invitation: Invitation) -> None:
    client.post(link_of(invitation))
    again = Client().post(link_of(invitation))
    assert again.status_code == 410
    assert "accepted before" in again.content.decode()
    assert Person.objects.filter(name="Nia New").count() == 1


def test_a_link_that_is_too_old_says_so(client: Client, invitation: Invitation) -> None:
    with time_machine.travel(timezone.now() + timedelta(days=15)):
        answer = client.post(link_of(invitation))
    assert answer.status_code == 410
    assert "Its time is over" in answer.content.decode()
    assert not Person.objects.filter(name="Nia New").exists()


def test_a_withdrawn_link_says_so(client, signed_in, organiser, invitation: Invitation) -> None:
    signed_in(organiser).post(reverse("courses:invitation_withdraw", args=[invitation.pk]))
    answer = Client().post(link_of(invitation))
    assert answer.status_code == 410
    assert "The school withdrew it" in answer.content.decode()
    assert not Person.objects.filter(name="Nia New").exists()


def test_an_address_taken_meanwhile_is_said_and_nothing_is_half_done(client, participant, invitation) -> None:
    participant.user.emailaddress_set.update(email="nia@example.org")
    answer = client.post(link_of(invitation))
    invitation.refresh_from_db()
    assert answer.status_code == 410
    assert "signs in with this address already" in answer.content.decode()
    assert invitation.accepted_at is None


def test_an_unknown_key_is_not_found(client: Client, school: object) -> None:
    assert client.get("/invitation/AAAAAAAAAAAAAAAAAAAAAA/").status_code == 404


def test_the_same_link_is_sent_again_and_lives_longer(
    signed_in, organiser, invitation, django_capture_on_commit_callbacks
) -> None:
    Invitation.objects.update(closes_at=timezone.now() - timedelta(days=1))
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(organiser).post(reverse("courses:invitation_resend", args=[invitation.pk]))
    assert link_of(invitation) in mail.outbox[-1].body
    assert Client().post(link_of(invitation)).status_code == 302


@pytest.mark.parametrize("name", ["invitation_resend", "invitation_withdraw"])
def test_an_accepted_invitation_is_neither_sent_nor_withdrawn(signed_in, organiser, invitation, name: str) -> None:
    Client().post(link_of(invitation))
    page = signed_in(organiser).post(reverse(f"courses:{name}", args=[invitation.pk]), follow=True)
    assert "answered or withdrawn meanwhile" in page.content.decode()
    invitation.refresh_from_db()
    assert invitation.withdrawn_at is None


@pytest.mark.parametrize("name", ["invitation_resend", "invitation_withdraw"])
def test_others_neither_send_nor_withdraw(client, signed_in, tutor, organiser, invitation, name: str) -> None:
    url = reverse(f"courses:{name}", args=[invitation.pk])
    assert client.post(url).status_code == 302
    assert signed_in(tutor).post(url).status_code == 403
    assert signed_in(organiser).get(url).status_code == 405
    invitation.refresh_from_db()
    assert invitation.withdrawn_at is None


def test_the_list_takes_as_many_queries_however_many(signed_in, organiser, invitation) -> None:
    def grow() -> None:
        for number in range(4):
            invite(f"n{number}@example.org", "N", "tutor", by=organiser, now=timezone.now())

    assert same_queries(signed_in(organiser), "/invitations/", grow)


def test_an_empty_list_says_how_people_join(signed_in, organiser) -> None:
    assert "People join by invitation" in signed_in(organiser).get("/invitations/").content.decode()


def test_a_course_named_in_the_address_is_chosen_already(signed_in, organiser, course: Course) -> None:
    page = signed_in(organiser).get(NEW, {"course": course.pk}).content.decode()
    assert f'<option value="{course.pk}" selected>Spring course</option>' in page
