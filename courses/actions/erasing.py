"""The steps of erasing a person: what they leave, what goes, what stays. Each in the transaction of the caller."""

import json
import re
import uuid
from collections.abc import Iterable
from datetime import datetime

from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.apps import apps
from django.contrib.sessions.models import Session
from django.db.models import Model
from django.utils import timezone

from assessments.actions.erasure import forget
from courses.actions.enrolment import withdraw
from courses.actions.roles import end_role
from courses.models import (
    Application,
    Attendance,
    Availability,
    CalendarAddress,
    Complaint,
    Consent,
    Course,
    DecisionAppeal,
    Enquiry,
    Enrolment,
    Invitation,
    JoiningForm,
    LeadingGrant,
    Letter,
    Meeting,
    Person,
    Reminder,
    RequirementRecord,
    RoleGrant,
    SentMail,
    StandIn,
    WalkPart,
)
from courses.queries.people import addresses_of, at_any, borne_by_another
from courses.rules.decision_appeals import Outcome
from courses.rules.erasure import Traces, without
from courses.rules.inventory.catalogue import free_texts
from species.actions.erasure import forget_outsider

GOES: tuple[type[Model], ...] = (Availability, CalendarAddress, Letter, Reminder)
"""Rows of a person that nothing else hangs on."""
WORDS_ABOUT: tuple[tuple[type[Model], str], ...] = (
    (Attendance, "note"),
    (RequirementRecord, "note"),
    (WalkPart, "note"),
    (RoleGrant, "reason"),
    (LeadingGrant, "reason"),
    (StandIn, "reason"),
)
"""What others wrote about a person, in rows that stay."""


def leave_everything(person: Person, now: datetime) -> None:
    """End roles, places, walks to come, open applications and appeals about them. Raises LastOrganiser."""
    today = timezone.localdate(now)
    for grant in person.roles.held_on(today):
        end_role(grant, today=today)
    running = Enrolment.objects.standing().filter(person=person, course__ends_on__gte=today)
    for enrolment in running:
        withdraw(enrolment, now=now)
    person.courses_taught.remove(*Course.objects.not_over(today).taught_by(person.pk))
    coming = Meeting.objects.coming(now)
    coming.filter(leader=person).update(leader=None)
    person.walks_assisted.remove(*coming.filter(assistants=person))
    StandIn.objects.filter(person=person, taken_back_at__isnull=True, meeting__ends_at__gte=now).update(
        taken_back_at=now
    )
    LeadingGrant.objects.filter(person=person, ended_on__isnull=True).update(ended_on=today)
    Application.objects.undecided().filter(person=person).update(taken_back_at=now)
    open_appeals = DecisionAppeal.objects.undecided().filter(person=person)
    open_appeals.update(outcome=Outcome.TAKEN_BACK.value, ended_at=now)


def forget_words(person: Person, addresses: Iterable[str], code: str, now: datetime) -> None:
    """Delete what was told, asked, written and practised, and empty the notes about them."""
    JoiningForm.objects.filter(enrolment__person=person).delete()
    Consent.objects.filter(enrolment__person=person).delete()
    for model in GOES:
        model._base_manager.filter(person=person).delete()
    Letter.objects.filter(at_any("to", addresses)).delete()
    Enquiry.objects.filter(at_any("email", addresses)).delete()
    Invitation.objects.filter(at_any("email", addresses)).delete()
    Complaint.objects.filter(at_any("email", addresses)).update(name=code, email="")
    for address in addresses:
        SentMail.objects.filter(to__icontains=address).delete()
    for model, field in WORDS_ABOUT:
        model._base_manager.filter(person=person).update(**{field: ""})
    forget(person.user, now)
    forget_outsider(addresses, code, timezone.localdate(now))


def forget_sign_in(person: Person, addresses: Iterable[str], code: str) -> None:
    """Take every way to sign in; the user stays as what evidence hangs on, called by the code."""
    user = person.user
    Authenticator.objects.filter(user=user).delete()
    EmailAddress.objects.filter(user=user).delete()
    _end_sessions(user.pk, addresses)
    user.groups.clear()
    user.user_permissions.clear()
    first, _space, last = code.rpartition(" ")
    user.username, user.email, user.first_name, user.last_name = f"erased-{user.pk}", "", first, last
    user.is_active = user.is_staff = user.is_superuser = False
    user.last_login = None
    user.set_unusable_password()
    user.save()


def _end_sessions(user_id: int, addresses: Iterable[str]) -> None:
    """Sessions of the user, and of whoever began to sign in with one of the addresses. Their text is not searchable."""
    ended, theirs = [], Traces(addresses=tuple(addresses)).pattern
    for session in Session.objects.iterator():
        held = session.get_decoded()
        told = json.dumps(held, default=str, ensure_ascii=False)
        if held.get("_auth_user_id") == str(user_id) or (theirs is not None and theirs.search(told)):
            ended.append(session.pk)
    Session.objects.filter(pk__in=ended).delete()


def become_a_code(person: Person, code: str, now: datetime) -> None:
    """The row that courses, registers and certificates hang on, with nothing left of whose it was."""
    today = timezone.localdate(now)
    person.name, person.family_name, person.phone, person.note = code, "", "", ""
    person.uuid = uuid.uuid4()  # the address of the page stood in letters
    person.left_on, person.erased_on = person.left_on or today, today
    person.save()


def traces_of(person: Person, further_names: Iterable[str] = ()) -> Traces:
    """What tells of somebody in texts. A name that somebody else bears too is not looked for: it may mean the other."""
    names = {person.name, person.user.get_full_name(), *further_names} - {""}
    alone = sorted(name for name in names if not borne_by_another(name, person))
    return Traces(tuple(alone), addresses_of(person), (person.phone,))


def sweep(pattern: re.Pattern[str], code: str) -> int:
    """Put the code for the person into every free text of the inventory; the number of rows changed."""
    return sum(_sweep_model(label, fields, pattern, code) for label, fields in free_texts())


def _sweep_model(label: str, fields: tuple[str, ...], pattern: re.Pattern[str], code: str) -> int:
    model = apps.get_model(label)
    # The manager without words of its own: some querysets refuse changes, and this one is no change of facts.
    rows = model._base_manager
    most = {name: getattr(model._meta.get_field(name), "max_length", None) for name in fields}
    changes = {}
    for row in rows.values("pk", *fields).iterator():
        said = {name: without(row[name], pattern, code) for name in fields if row[name]}
        new = {name: text for name, text in said.items() if text != row[name]}
        if new:
            changes[row["pk"]] = {name: text[: most[name]] if most[name] else text for name, text in new.items()}
    for pk, new in changes.items():
        rows.filter(pk=pk).update(**new)
    return len(changes)
