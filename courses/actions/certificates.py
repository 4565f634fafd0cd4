"""Applying for a certificate, deciding on it, and what happens to it afterwards. Validity is never moved."""

from datetime import datetime

from django.db import IntegrityError, transaction
from django.db.models.functions import Length
from django.urls import reverse
from django.utils import timezone

from assessments.models import Standard
from courses.actions.editions import follow_with_editions, sign_edition
from courses.actions.letters import full_address, send_letter
from courses.models import Application, Certificate, CertificateEvent, Person
from courses.queries.certificate_facts import facts_at_issue
from courses.queries.certification import gaps_before_certificate
from courses.rules.certification import Certification, State, state_of

TRIES = 5


class NotYet(Exception):
    """A certificate was refused; `certification` says what is missing."""

    def __init__(self, certification: Certification) -> None:
        super().__init__("; ".join(obstacle.value for obstacle in certification.obstacles))
        self.certification = certification


class AlreadyApplied(Exception):
    """There is an open application under this standard."""


class AlreadyDecided(Exception):
    """The application was decided, or taken back."""


class NotPossibleNow(Exception):
    """The certificate is in a state in which this step makes no sense; `state` says which."""

    def __init__(self, state: State) -> None:
        super().__init__(state.value)
        self.state = state


def apply_for(person: Person, standard: Standard, *, statement: bool, now: datetime) -> Application:
    """Ask for a certificate. `statement`: the person says that all answers were their own."""
    try:
        with transaction.atomic():
            return Application.objects.create(person=person, standard=standard, applied_at=now, statement=statement)
    except IntegrityError as error:
        raise AlreadyApplied from error


def issue_certificate(application: Application, decider: Person, *, now: datetime) -> Certificate:
    """Issue the certificate that was applied for, or raise NotYet with everything that is missing."""
    for attempt in range(TRIES):
        try:
            return _issue(application, decider, now)
        except IntegrityError:  # somebody else took the number in the meantime
            if attempt == TRIES - 1:
                raise
    raise AssertionError("unreachable")


def _issue(application: Application, decider: Person, now: datetime) -> Certificate:
    with transaction.atomic():
        locked = _undecided(application)
        found = gaps_before_certificate(locked.person, locked.standard, decider, now)
        if not found.may_be_issued:
            raise NotYet(found)
        frozen = facts_at_issue(locked.person, locked.standard, decider, found, _next_number(now), now)
        certificate = Certificate.objects.create(
            number=frozen.number,
            key=frozen.key,
            person=locked.person,
            standard=locked.standard,
            application=locked,
            issued_at=now,
            valid_from=frozen.valid_from,
            valid_until=frozen.valid_until,
            decided_by=decider,
            exception=frozen.exception,
            facts=frozen.as_json(),
        )
        sign_edition(certificate)
        _close(locked, decider, now, granted=True)
        _tell(certificate, "certificate_issued")
    return certificate


def decline(application: Application, decider: Person, reason: str, *, now: datetime) -> Application:
    """Decline an application with a reason; the person may apply again."""
    with transaction.atomic():
        closed = _close(_undecided(application), decider, now, granted=False, reason=reason)
        link = full_address(reverse("courses:certificates_mine"))
        facts = {"person": closed.person, "standard": closed.standard, "reason": reason, "link": link}
        send_letter(closed.person.user.email, "certificate_declined", facts)
    return closed


def _undecided(application: Application) -> Application:
    locked = Application.objects.select_for_update().get(pk=application.pk)
    if locked.decided_at is not None or locked.taken_back_at is not None:
        raise AlreadyDecided
    return locked


def _close(application: Application, decider: Person, now: datetime, *, granted: bool, reason: str = "") -> Application:
    application.decided_at, application.decided_by = now, decider
    application.granted, application.reason = granted, reason
    application.save(update_fields=["decided_at", "decided_by", "granted", "reason"])
    return application


def _next_number(now: datetime) -> str:
    """The year and a running number in it, for instance 2026-0007."""
    year = timezone.localdate(now).year
    last = Certificate.objects.filter(number__startswith=f"{year}-").order_by(Length("number"), "number").last()
    return f"{year}-{int(last.number.split('-')[1]) + 1 if last else 1:04d}"


def record_event(certificate: Certificate, kind: str, by: Person, reason: str, *, now: datetime) -> CertificateEvent:
    """Suspend, lift a suspension, or withdraw. Raises NotPossibleNow where the state does not allow it."""
    needed = {"suspended": State.CURRENT, "lifted": State.SUSPENDED}
    with transaction.atomic():
        locked = Certificate.objects.select_for_update().get(pk=certificate.pk)
        events = tuple(locked.events.values_list("kind", flat=True))
        state = state_of(locked.valid_from, locked.valid_until, events, timezone.localdate(now))
        if state is State.WITHDRAWN or (kind in needed and state is not needed[kind]):
            raise NotPossibleNow(state)
        event = CertificateEvent.objects.create(certificate=locked, kind=kind, happened_at=now, by=by, reason=reason)
        follow_with_editions(event)
        _tell(locked, f"certificate_{kind}", reason)
    return event


def _tell(certificate: Certificate, letter: str, reason: str = "") -> None:
    """Write to the holder."""
    link = full_address(reverse("courses:certificate", args=[certificate.number]))
    facts = {"person": certificate.person, "certificate": certificate, "reason": reason, "link": link}
    send_letter(certificate.person.user.email, letter, facts)


def show_name(certificate: Certificate, shown: bool) -> Certificate:
    """The holder lets the check page show their name, or takes that back."""
    certificate.name_is_public = shown
    certificate.save(update_fields=["name_is_public"])
    return certificate
