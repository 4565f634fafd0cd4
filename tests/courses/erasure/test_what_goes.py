"""Being erased: nothing of a person is left in any table, and nobody signs in as them."""

from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.contrib.auth.models import User
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from assessments.models import Adjustment, Notice, PracticeRound, PracticeState
from courses.actions.certificates import apply_for
from courses.actions.enrolment import enrol
from courses.actions.posting import post_letters
from courses.models import Consent, Enquiry, Invitation, JoiningForm, Letter, SentMail
from tests.courses.erasure.traces import (
    ADDRESS,
    NAME,
    ON_CERTIFICATES,
    WORDS,
    erase_now,
    erased_and_posted,
    found_in_database,
)
from tests.factories.courses import make_meeting
from tests.factories.people import make_person


def test_nothing_of_a_person_is_left_in_any_table_but_the_name_on_their_certificate(told_everywhere, organiser) -> None:
    assert len(found_in_database(*WORDS)) > 60
    erased_and_posted(told_everywhere, organiser)
    assert found_in_database(NAME) == ON_CERTIFICATES
    assert found_in_database(ADDRESS, "pat@example.net", "7700 900123", "7700900123") == []


def test_somebody_without_a_certificate_is_gone_at_once(stranger, organiser, school) -> None:
    request = erased_and_posted(stranger, organiser)
    request.refresh_from_db()
    assert (request.names_until, request.completed_at is not None) == (None, True)
    assert found_in_database("Strix", "stranger") == []


def test_health_notes_consents_practice_and_letters_are_deleted(life, organiser) -> None:
    erased_and_posted(life, organiser)
    assert not JoiningForm.objects.exists()
    assert not Consent.objects.exists()
    assert not PracticeState.objects.exists()
    assert not PracticeRound.objects.exists()
    assert not Enquiry.objects.exists()
    assert not Invitation.objects.exists()
    assert not SentMail.objects.exists()
    assert not Letter.objects.filter(person=life).exists()
    assert list(Notice.objects.values_list("person__person__name", flat=True)) == ["Tilda Tutor"]
    assert list(Adjustment.objects.values_list("what", "why", "time_factor")) == [("", "", 2)]


def test_nobody_can_sign_in_as_them(life, organiser, signed_in) -> None:
    client = signed_in(life)
    assert client.get("/").status_code == 200
    erase_now(life, organiser)
    assert "_auth_user_id" not in client.session
    user = User.objects.get(pk=life.user_id)
    assert (user.is_active, user.has_usable_password(), user.groups.count()) == (False, False, 0)
    assert not Authenticator.objects.filter(user=user).exists()
    assert not EmailAddress.objects.filter(user=user).exists()
    asks = Client()
    mail.outbox.clear()
    asks.post(reverse("account_login"), {"login": ADDRESS})
    assert mail.outbox == []


def test_a_session_that_had_only_asked_for_a_code_ends_too(life, organiser) -> None:
    asks = Client()
    asks.post(reverse("account_login"), {"login": ADDRESS})
    assert "sessions.Session decoded" in found_in_database(ADDRESS)
    erase_now(life, organiser)
    assert "sessions.Session decoded" not in found_in_database(ADDRESS)


def test_others_stay_signed_in(life, organiser, tutor, signed_in) -> None:
    client = signed_in(tutor)
    erase_now(life, organiser)
    assert client.get("/people/").status_code == 200


def test_a_last_letter_goes_out_before_its_address_goes(life, organiser) -> None:
    mail.outbox.clear()
    request = erase_now(life, organiser)
    assert found_in_database(ADDRESS) == ["courses.Letter.to"]
    post_letters(timezone.now())
    (sent,) = [each for each in mail.outbox if each.to == [ADDRESS]]
    assert NAME not in sent.body
    assert str(request.names_until.year) in sent.body
    assert found_in_database(ADDRESS) == []


def test_a_last_letter_that_nobody_takes_goes_as_well(life, organiser, monkeypatch) -> None:
    erase_now(life, organiser)

    def refuse(*_messages: object) -> None:
        raise ValueError("no such place")

    monkeypatch.setattr("django.core.mail.backends.locmem.EmailBackend.send_messages", refuse)
    assert post_letters(timezone.now()).given_up >= 1
    assert found_in_database(ADDRESS) == []


def test_a_place_that_they_had_is_free_and_offered(life, organiser, course, stranger) -> None:
    course.capacity = 1
    course.save()
    waits = enrol(stranger, course, now=timezone.now())
    assert waits.waiting
    erase_now(life, organiser)
    assert waits.offers.count() == 1


def test_a_tutor_who_is_erased_teaches_and_leads_nothing_to_come(course, tutor, organiser, participant) -> None:
    gone, coming = make_meeting(course, days_ahead=-9, leader=tutor), make_meeting(course, leader=tutor)
    coming.assistants.add(tutor)
    erase_now(tutor, organiser)
    gone.refresh_from_db()
    coming.refresh_from_db()
    assert (coming.leader, coming.assistants.count(), course.tutors.count()) == (None, 0, 0)
    assert gone.leader == tutor
    assert found_in_database("Tilda", "tilda.tutor@") == ["courses.Letter.to"]


def test_an_application_that_waited_is_taken_back(participant, standard, organiser) -> None:
    applied = apply_for(participant, standard, statement=True, now=timezone.now())
    erase_now(participant, organiser)
    applied.refresh_from_db()
    assert applied.taken_back_at is not None


def test_somebody_who_comes_again_is_somebody_new(life, organiser) -> None:
    erased_and_posted(life, organiser)
    again = make_person(NAME)
    assert (again.pk != life.pk, again.user.email, again.enrolments.count()) == (True, ADDRESS, 0)
