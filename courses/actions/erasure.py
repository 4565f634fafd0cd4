"""Being erased: asking, taking that back, the organiser's answer. What has to keep a name for a time loses it later.

Whatever proves a certificate or an accident stays under a code that nothing leads back from. Only the certificates
that somebody held or decided keep the name, until their keeping time is over; `complete_erasures` takes it then.
"""

import secrets
from datetime import datetime

from django.db import IntegrityError, transaction
from django.db.models import Q, QuerySet
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from courses.actions.check_page import show_name
from courses.actions.erasing import (
    become_a_code,
    forget_sign_in,
    forget_words,
    leave_everything,
    sweep,
    traces_of,
)
from courses.actions.letters import full_address, send_letter, write_to
from courses.actions.naming import names_left, take_names
from courses.models import Certificate, ErasureRequest, Person, Role, School
from courses.rules.erasure import Traces, answer_by, name_until
from courses.rules.posting import FAREWELL


class AlreadyAsked(Exception):
    """There is a request of this person that waits for an answer, or they are erased."""


class AlreadyDecided(Exception):
    """The request was answered, or taken back."""


class OwnRequest(Exception):
    """Nobody decides about their own request."""


class NamedByTheSchool(Exception):
    """The school's own details hold the person's name, address or number: they are changed first."""


def ask_to_be_erased(
    person: Person, *, now: datetime, asked_at: datetime | None = None, recorded_by: Person | None = None
) -> ErasureRequest:
    """Keep a request, acknowledge it, and write to the organisers. Raises AlreadyAsked.

    Somebody who cannot sign in asks by letter or in person: an organiser records it, with the moment it came.
    """
    came = asked_at or now
    if person.erased_on is not None:
        raise AlreadyAsked
    try:
        with transaction.atomic():
            request = ErasureRequest.objects.create(
                person=person, asked_at=came, recorded_by=recorded_by, decide_by=answer_by(timezone.localdate(came))
            )
            facts = {"request": request, "person": person}
            send_letter(person.user.email, "erasure_received", facts, person)
            link = full_address(reverse("courses:erasure", args=[request.key]))
            organisers = Person.objects.here().with_role(Role.ORGANISER, timezone.localdate(now)).select_related("user")
            write_to(organisers.exclude(pk=person.pk), "erasure_asked", {**facts, "asker": person, "link": link})
    except IntegrityError as error:
        raise AlreadyAsked from error
    return request


def take_request_back(request: ErasureRequest, now: datetime) -> None:
    """Stay after all. Raises AlreadyDecided."""
    if not ErasureRequest.objects.undecided().filter(pk=request.pk).update(taken_back_at=now):
        raise AlreadyDecided


def decline_erasure(request: ErasureRequest, *, by: Person, reason: str, now: datetime) -> None:
    """Answer no, with the reason and the way to complain. Raises AlreadyDecided, OwnRequest."""
    with transaction.atomic():
        locked = _undecided(request, by)
        locked.decided_at, locked.decided_by, locked.granted, locked.reason = now, by, False, reason.strip()
        locked.save(update_fields=["decided_at", "decided_by", "granted", "reason"])
        facts = {"person": locked.person, "reason": locked.reason}
        send_letter(locked.person.user.email, "erasure_declined", facts, locked.person)


def erase(request: ErasureRequest, *, by: Person, now: datetime) -> ErasureRequest:
    """Erase whoever asked, all in one transaction.

    Raises AlreadyDecided, OwnRequest, LastOrganiser and NamedByTheSchool; nothing is changed then.
    """
    with transaction.atomic():
        locked = _undecided(request, by)
        person = Person.objects.select_for_update(of=("self",)).select_related("user").get(pk=locked.person_id)
        traces, address = traces_of(person, _names_on_certificates(person)), person.user.email
        _refuse_while_the_school_says_it(traces)
        _erase(person, traces, now)
        left = names_left(person)
        locked.decided_at, locked.decided_by, locked.granted = now, by, True
        locked.names_until = max((name_until(each.valid_until) for each in left), default=None)
        locked.save(update_fields=["decided_at", "decided_by", "granted", "names_until"])
        _take_names_that_are_due(locked, person, now)
        locked.refresh_from_db(fields=["completed_at"])  # what the letter and the page say hangs on it
        # The letter names nobody, and is deleted as soon as it has gone or cannot go.
        send_letter(address, FAREWELL, {"request": locked})
    return locked


def complete_erasures(now: datetime) -> int:
    """Take the name off certificates whose keeping time is over; how many that completed. Safe to run twice."""
    done = 0
    for request in ErasureRequest.objects.uncompleted().select_related("person"):
        with transaction.atomic():
            done += _take_names_that_are_due(request, request.person, now)
    return done


def _erase(person: Person, traces: Traces, now: datetime) -> None:
    code = _new_code()
    leave_everything(person, now)
    for certificate in Certificate.objects.of(person.pk).filter(name_is_public=True):
        show_name(certificate, False)
    forget_words(person, traces.addresses, code, now)
    forget_sign_in(person, traces.addresses, code)
    become_a_code(person, code, now)
    if traces.pattern is not None:
        sweep(traces.pattern, code)


def _take_names_that_are_due(request: ErasureRequest, person: Person, now: datetime) -> bool:
    """Whether that left no name, and so completed the request."""
    today = timezone.localdate(now)
    left = names_left(person)
    due = [each for each in left if name_until(each.valid_until) < today]
    take_names(due, person)
    if len(due) < len(left):
        return False
    return bool(ErasureRequest.objects.filter(pk=request.pk, completed_at__isnull=True).update(completed_at=now))


def _undecided(request: ErasureRequest, by: Person) -> ErasureRequest:
    rows: QuerySet[ErasureRequest] = ErasureRequest.objects.undecided().select_for_update(of=("self",))
    locked = rows.select_related("person__user").filter(pk=request.pk).first()
    if locked is None:
        raise AlreadyDecided
    if locked.person_id == by.pk:
        raise OwnRequest
    return locked


def _names_on_certificates(person: Person) -> set[str]:
    """What the certificates call somebody, who may have been called otherwise when they were issued."""
    rows = Certificate.objects.filter(Q(person=person) | Q(decided_by=person))
    held = {each.facts["holder"] for each in rows if each.person_id == person.pk}
    return held | {each.facts["decider"] for each in rows if each.decided_by_id == person.pk}


def _refuse_while_the_school_says_it(traces: Traces) -> None:
    pattern = traces.pattern
    for school in School.objects.all():
        said = f"{school.name}\n{school.postal_address}\n{school.email}"
        if pattern is not None and pattern.search(said):
            raise NamedByTheSchool


def _new_code() -> str:
    while True:
        code = f"{_('Erased person')} {secrets.token_hex(3).upper()}"
        if not Person.objects.filter(name=code).exists():
            return code
