"""What has reached its term goes by itself, each kind of record by its own, and not a day before."""

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from allauth.account.models import EmailAddress, EmailConfirmation
from django.apps import apps
from django.contrib.sessions.models import Session
from django.db.models import Model
from django.utils import timezone

from assessments.models import Notice
from courses.actions.daily import run_daily
from courses.actions.health import fill_form
from courses.actions.tidying import erase_old_records
from courses.models import CalendarAddress, Complaint, HealthReading, Invitation, Letter, Person, Reminder
from courses.rules.inventory.catalogue import HOLDINGS
from courses.rules.inventory.shape import RUNS_BY_ITSELF, Term
from courses.rules.notes import Agreed, Notes

NOW = timezone.now()


def letter(person: Person, at: datetime) -> Model:
    return Letter.objects.create(to="a@example.org", subject="s", text="t", kind="notice", sent_at=at)


def undelivered(person: Person, at: datetime) -> Model:
    return Letter.objects.create(to="a@example.org", subject="s", text="t", kind="notice", given_up_at=at)


def reading(person: Person, at: datetime) -> Model:
    enrolment = person.enrolments.get()
    form = fill_form(enrolment, Notes(emergency_contact="x"), Agreed({}, 1), NOW)
    return HealthReading.objects.create(form=form, reader=person, read_at=at)


def reminder(person: Person, at: datetime) -> Model:
    return Reminder.objects.create(person=person, kind="proof", about="x", days_before=7, written_at=at)


def calendar(person: Person, at: datetime) -> Model:
    return CalendarAddress.objects.create(person=person, made_at=at, ended_at=at)


def invitation(person: Person, at: datetime) -> Model:
    return Invitation.objects.create(
        email="b@example.org", name="B", invited_by=person, invited_at=at - timedelta(days=14), closes_at=at
    )


def notice(person: Person, at: datetime) -> Model:
    return Notice.objects.create(person=person.user, kind="test_set", happened_at=at, sent_at=at)


def complaint(person: Person, at: datetime) -> Model:
    return Complaint.objects.create(name="C", email="c@example.org", text="t", received_at=at, answered_at=at)


def session(person: Person, at: datetime) -> Model:
    return Session.objects.create(session_key="k", session_data="x", expire_date=at)


def confirmation(person: Person, at: datetime) -> Model:
    address = EmailAddress.objects.get(user=person.user)
    return EmailConfirmation.objects.create(email_address=address, created=at, key="k")


KINDS: list[tuple[Callable[[Person, datetime], Model], Term, int]] = [
    (letter, Term.LETTER, 365),
    (undelivered, Term.LETTER, 365),
    (reading, Term.READING, 365),
    (reminder, Term.REMINDER, 730),
    (calendar, Term.CALENDAR, 365),
    (invitation, Term.INVITATION, 365),
    (notice, Term.NOTICE, 365),
    (complaint, Term.COMPLAINT, 1095),
    (session, Term.SESSION, 0),
    (confirmation, Term.CONFIRMATION, 30),
]


@pytest.mark.parametrize(("make", "term", "days"), KINDS, ids=[each[0].__name__ for each in KINDS])
def test_it_goes_after_its_term_and_not_before(course, participant: Person, make, term: Term, days: int) -> None:
    made = make(participant, NOW - timedelta(days=days))
    rows = type(made)._base_manager.filter(pk=made.pk)
    erase_old_records(NOW - timedelta(minutes=1))
    assert rows.exists()
    assert erase_old_records(NOW + timedelta(minutes=1)) >= 1
    assert not rows.exists()
    assert erase_old_records(NOW + timedelta(minutes=1)) == 0


@pytest.mark.parametrize(("make", "term", "days"), KINDS, ids=[each[0].__name__ for each in KINDS])
def test_the_inventory_says_the_same_term(course, participant: Person, make, term: Term, days: int) -> None:
    label = type(make(participant, NOW))._meta.label
    assert {each.term for each in HOLDINGS if each.model == label} == {term}


def test_every_term_that_runs_by_itself_has_a_step() -> None:
    """Those tried here, and the two whose steps have tests of their own."""
    elsewhere = {Term.HEALTH, Term.ENQUIRY}
    assert {term for _make, term, _days in KINDS} | elsewhere == RUNS_BY_ITSELF


def test_the_day_does_it(participant: Person) -> None:
    reminder(participant, NOW - timedelta(days=731))
    done = {each.name: each for each in run_daily(NOW)}
    assert (done["old records erased"].count, done["old records erased"].trouble) == (1, "")
    assert apps.get_model("courses.Reminder")._base_manager.count() == 0


def test_what_waits_for_an_answer_is_never_too_old(participant: Person) -> None:
    old = NOW - timedelta(days=4000)
    Complaint.objects.create(name="C", email="c@example.org", text="t", received_at=old)
    Letter.objects.create(to="a@example.org", subject="s", text="t", kind="notice", queued_at=old)
    assert erase_old_records(NOW) == 0
