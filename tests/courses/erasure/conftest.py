"""Somebody who left something in every corner of the school."""

from datetime import timedelta

import pytest
from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.utils import timezone

from assessments.models import Adjustment, Appeal, AppealStep, Evidence, Notice, PracticeRound, PracticeState, Voiding
from courses.actions.certificates import issue_certificate, record_event
from courses.actions.complaints import complain
from courses.actions.enquiries import ask
from courses.actions.health import fill_form
from courses.actions.letters import send_letter
from courses.models import (
    Application,
    Attendance,
    CalendarAddress,
    Certificate,
    Conflict,
    Enrolment,
    Incident,
    Invitation,
    Person,
    Reminder,
    SentMail,
)
from courses.rules.notes import Agreed, Notes
from species.models import DeterminerLink
from tests.courses.erasure.traces import ADDRESS, NAME, PHONE, write_everywhere
from tests.factories.courses import SiteFactory, make_meeting


@pytest.fixture
def certificate(passed: Application, organiser: Person) -> Certificate:
    """Held by the participant, who shows their name."""
    made = issue_certificate(passed, organiser, now=timezone.now())
    made.name_is_public = True
    made.save()
    return made


@pytest.fixture
def life(certificate: Certificate, participant: Person, tutor, organiser, course, pair) -> Person:
    """The participant, with something in every corner of the school, named in every free text."""
    now, person, user = timezone.now(), participant, participant.user
    Person.objects.filter(pk=person.pk).update(phone=PHONE, note="pays in May")
    EmailAddress.objects.create(user=user, email="pat@example.net", verified=True)
    Authenticator.objects.create(user=user, type="totp", data={"secret": "s", "name": NAME})
    enrolment = Enrolment.objects.get(person=person)
    notes = Notes(emergency_contact=f"{NAME}'s sister", allergies="nuts")
    fill_form(enrolment, notes, Agreed({"health": "I agree.", "pictures": "Of me."}, 1), now)
    meeting = make_meeting(course, days_ahead=-3, leader=tutor)
    Attendance.objects.create(
        meeting=meeting, person=person, presence="late", note="bus", marked_by=tutor, marked_at=now
    )
    Incident.objects.create(
        kind="near_miss", happened_at=now, noted_at=now, noted_by=tutor, meeting=meeting, site=SiteFactory(),
        pair=pair, account="Somebody nearly picked it.",
    )  # fmt: skip
    ask(course, name=NAME, email=ADDRESS.upper(), text="May I come?", now=now)
    complain(name=NAME, email=ADDRESS, text="It rained.", now=now)
    Invitation.objects.create(
        email=ADDRESS, name=NAME, invited_by=organiser, invited_at=now, closes_at=now, course=course
    )
    send_letter(ADDRESS, "message", {"subject": "Rain", "text": "Boots.", "by": tutor}, person)
    SentMail.objects.create(to=ADDRESS, subject="A code", body="1234")
    Reminder.objects.create(person=person, kind="certificate", about="x", days_before=7, written_at=now)
    CalendarAddress.objects.create(person=person, made_at=now)
    Conflict.objects.create(decider=organiser, about=person, reason="a cousin", declared_on=now)
    Notice.objects.create(person=user, kind="test_set", facts={"title": "A test"}, happened_at=now)
    Notice.objects.create(person=tutor.user, kind="test_set", facts={"title": "A test"}, happened_at=now)
    PracticeState.objects.create(person=user, pair=pair, half_life=3, last_at=now)
    PracticeRound.objects.create(person=user, began_at=now)
    first = Evidence.objects.filter(person=user, sitting__isnull=False).first()
    assert first is not None
    Adjustment.objects.create(
        seat=first.sitting.seat, what="more time", why="dyslexia", time_factor=2, made_at=now, made_by=tutor.user
    )
    appeal = Appeal.objects.create(
        evidence=first, ground="other", words="It is not.", received_at=now, decide_by=now.date()
    )
    AppealStep.objects.create(appeal=appeal, kind="received", at=now, by=user)
    Voiding.objects.create(specimen=first.specimen, voided_at=now, voided_by=tutor.user, reason="Eaten by slugs.")
    DeterminerLink.objects.create(
        name=NAME, email=ADDRESS, invited_by=tutor.user, invited_at=now, closes_on=now.date() + timedelta(days=9)
    )
    record_event(certificate, "suspended", organiser, "asked to", now=now)
    return person


@pytest.fixture
def told_everywhere(life: Person) -> Person:
    written = write_everywhere(f"Thanks to {NAME} ({ADDRESS}, {PHONE}).")
    assert len(written) > 60
    return life
