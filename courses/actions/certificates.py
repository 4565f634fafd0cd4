"""Applying for a certificate, deciding on it, and what happens to it afterwards. Validity is never moved."""

from collections.abc import Collection
from datetime import date, datetime
from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.db.models.functions import Length
from django.urls import reverse
from django.utils import timezone

from assessments.models import Standard
from assessments.rules.appeals import last_day
from courses.actions.certified_pairs import drop_pairs, write_pairs
from courses.actions.editions import follow_with_editions, sign_edition
from courses.actions.letters import full_address, send_letter
from courses.models import Application, Certificate, CertificateEvent, Person
from courses.queries.certificate_facts import facts_at_issue
from courses.queries.certification import decider_facts, gaps_before_certificate
from courses.queries.lives import life_on
from courses.queries.sentences.life import step_sentence
from courses.rules.certification import Certification, State, impartiality_of
from courses.rules.life import Step, StepRefusal, renewal_refusal, step_refusal, who_refusal

TRIES = 5


class NotYet(Exception):
    """A certificate was refused; `certification` says what is missing."""

    def __init__(self, certification: Certification) -> None:
        super().__init__("; ".join(obstacle.value for obstacle in certification.obstacles))
        self.certification = certification


class NotImpartial(Exception):
    """Somebody who may not decide about this person declined; `certification` says why."""

    def __init__(self, certification: Certification) -> None:
        super().__init__("; ".join(obstacle.value for obstacle in certification.obstacles))
        self.certification = certification


class AlreadyApplied(Exception):
    """There is an open application under this standard."""


class AlreadyDecided(Exception):
    """The application was decided, or taken back."""


class NotPossibleNow(Exception):
    """A step was not taken: `refusal` says why, `state` where the certificate stands, the text both in a sentence."""

    def __init__(self, refusal: StepRefusal, state: State) -> None:
        super().__init__(step_sentence(refusal))
        self.refusal, self.state = refusal, state


def apply_for(
    person: Person,
    standard: Standard,
    *,
    statement: bool,
    now: datetime,
    agreed: bool = False,
    renews: Certificate | None = None,
) -> Application:
    """Ask for a certificate, or for the renewal of one. Raises AlreadyApplied, NotPossibleNow.

    `statement`: the person says that all answers were their own; `agreed`: to how a certificate may be used. Who
    has applied without agreeing agrees by applying again.
    """
    if renews is not None:
        life, today = life_on(renews, timezone.localdate(now)), timezone.localdate(now)
        refusal = renewal_refusal(life, today, same_standard=renews.standard.key == standard.key)
        if renews.person_id != person.pk or refusal:
            raise NotPossibleNow(refusal or StepRefusal.MAY_NOT, life.state)
    agreed_at = now if agreed else None
    if agreed and _open(person, standard).filter(agreed_at__isnull=True).update(agreed_at=now):
        return _open(person, standard).get()
    try:
        with transaction.atomic():
            return Application.objects.create(
                person=person,
                standard=standard,
                applied_at=now,
                statement=statement,
                agreed_at=agreed_at,
                renews=renews,
            )
    except IntegrityError as error:
        raise AlreadyApplied from error


def _open(person: Person, standard: Standard) -> QuerySet[Application]:
    return Application.objects.undecided().filter(person=person, standard=standard)


def take_back(application: Application, now: datetime) -> None:
    """Take one's application back before it is decided. Raises AlreadyDecided."""
    if not Application.objects.undecided().filter(pk=application.pk).update(taken_back_at=now):
        raise AlreadyDecided


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
        write_pairs(certificate)
        sign_edition(certificate)
        _close(locked, decider, now, granted=True)
        if locked.renews:
            _follow(locked.renews, certificate, decider, now)
        _tell(certificate, "certificate_issued")
    return certificate


def decline(application: Application, decider: Person, reason: str, *, now: datetime) -> Application:
    """Decline an application with a reason; the person may apply again. Raises AlreadyDecided, NotImpartial."""
    with transaction.atomic():
        locked = _undecided(application)
        found = gaps_before_certificate(locked.person, locked.standard, decider, now)
        if not found.may_be_declined:
            raise NotImpartial(found)
        closed = _close(locked, decider, now, granted=False, reason=reason)
        link, until = full_address(reverse("courses:certificates_mine")), _appeal_until(closed.standard, now)
        facts = {"person": closed.person, "standard": closed.standard, "reason": reason, "link": link, "until": until}
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


def record_event(
    certificate: Certificate, kind: str, by: Person, reason: str, *, now: datetime, keeping: Collection[str] = ()
) -> CertificateEvent:
    """Suspend, lift a suspension, narrow to the pairs that it keeps, or withdraw. Raises NotPossibleNow."""
    step = Step(kind)
    with transaction.atomic():
        locked = Certificate.objects.select_for_update().get(pk=certificate.pk)
        life = life_on(locked, timezone.localdate(now))
        stands = decider_facts(locked.person, by, now)
        refusal = who_refusal(stands, step) or _no_reason(reason) or step_refusal(life, step, keeping)
        if refusal:
            raise NotPossibleNow(refusal, life.state)
        facts: dict[str, Any] = {"pairs": sorted(keeping)} if step is Step.NARROWED else {}
        if exception := impartiality_of(stands).exception:
            facts["exception"] = [each.value for each in exception]
        return _take(locked, step, by, reason, facts, now)


def lift_on_appeal(certificate: Certificate, by: Person, reason: str, *, now: datetime) -> CertificateEvent:
    """Lift a suspension since an appeal against it was upheld: whoever may decide the appeal may do this."""
    with transaction.atomic():
        locked = Certificate.objects.select_for_update().get(pk=certificate.pk)
        life = life_on(locked, timezone.localdate(now))
        if refusal := _no_reason(reason) or step_refusal(life, Step.LIFTED):
            raise NotPossibleNow(refusal, life.state)
        return _take(locked, Step.LIFTED, by, reason, {"on_appeal": True}, now)


def _take(
    locked: Certificate, step: Step, by: Person, reason: str, facts: dict[str, Any], now: datetime
) -> CertificateEvent:
    event = CertificateEvent.objects.create(
        certificate=locked, kind=step.value, happened_at=now, by=by, reason=reason, facts=facts
    )
    drop_pairs(event)
    follow_with_editions(event)
    _tell(locked, f"certificate_{step.value}", reason, until=_appeal_until(locked.standard, now))
    return event


def _no_reason(reason: str) -> StepRefusal | None:
    return None if reason.strip() else StepRefusal.NO_REASON


def _follow(old: Certificate, new: Certificate, by: Person, now: datetime) -> None:
    """Note on a certificate which one renews it. Its own last day stays what it was."""
    life = life_on(old, timezone.localdate(now))
    refusal = StepRefusal.WAS_RENEWED if life.was_renewed else step_refusal(life, Step.RENEWED)
    if refusal:
        raise NotPossibleNow(refusal, life.state)
    old.events.create(
        kind=Step.RENEWED.value, happened_at=now, by=by, reason=new.number, facts={"renewed_by": new.number}
    )


def _appeal_until(standard: Standard, now: datetime) -> date:
    return last_day(timezone.localdate(now), standard.appeal_days)


def _tell(certificate: Certificate, letter: str, reason: str = "", until: date | None = None) -> None:
    """Write to the holder."""
    link = full_address(reverse("courses:certificate", args=[certificate.number]))
    facts = {"person": certificate.person, "certificate": certificate, "reason": reason, "link": link, "until": until}
    send_letter(certificate.person.user.email, letter, facts)
