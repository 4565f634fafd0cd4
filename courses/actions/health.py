"""Joining forms: sealing what somebody tells, opening it for a tutor with a line in the log, and erasing it."""

import os
import secrets
from collections.abc import Collection, Iterable
from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.db.models import Max, Q
from django.utils import timezone

from courses.models import Consent, Course, Enrolment, HealthReading, JoiningForm, Meeting, Person
from courses.queries.health_keys import health_keys, keys_file
from courses.rules.notes import FIELDS, Agreed, Notes
from courses.rules.sealing import ID_BYTES, KEY_BYTES, NONCE_BYTES, KeyRing, Unreadable, seal, unseal

NEED_CONSENT = FIELDS[1:]


def place_of(form: JoiningForm, field: str) -> str:
    """What is bound into a sealed text: the model, the field, and the row by its own id."""
    return f"courses.JoiningForm.{field}:{form.uuid}"


def fill_form(enrolment: Enrolment, notes: Notes, agreed: Agreed, now: datetime) -> JoiningForm:
    """Keep what somebody tells and agrees to, in place of what they told before.

    Without consent to keep health notes only the emergency contact is kept.
    """
    ring = _ring()
    with transaction.atomic():
        form, _made = JoiningForm.objects.select_for_update().get_or_create(
            enrolment=enrolment, defaults={"filled_at": now, "changed_at": now}
        )
        allowed = FIELDS if Consent.Kind.HEALTH in agreed.words else FIELDS[:1]
        for name in FIELDS:
            text = getattr(notes, name).strip() if name in allowed else ""
            setattr(form, name, seal(text, ring, place_of(form, name), secrets.token_bytes(NONCE_BYTES)))
        form.changed_at, form.erased_at = now, None
        form.save()
        _keep_consents(enrolment, agreed, now)
    return form


def withdraw_consent(enrolment: Enrolment, kind: str, now: datetime) -> None:
    """Take one consent back. Without that for health notes they are erased at once; the place stays."""
    with transaction.atomic():
        enrolment.consents.filter(kind=kind, withdrawn_at__isnull=True).update(withdrawn_at=now)
        if kind == Consent.Kind.HEALTH:
            JoiningForm.objects.filter(enrolment=enrolment).update(**dict.fromkeys(NEED_CONSENT, b""), changed_at=now)


def open_notes(
    enrolments: Collection[Enrolment], reader: Person, now: datetime, meeting: Meeting | None = None
) -> dict[int, Notes]:
    """The notes of these places in plain words, by the id of the place; every reading is written down.

    Whether the reader may is asked before (`queries.health.reads_notes_of`).
    """
    forms = JoiningForm.objects.filter(enrolment__in=[each.pk for each in enrolments], erased_at__isnull=True)
    opened = {form.enrolment_id: _opened(form, _ring()) for form in forms}
    told = [form for form in forms if not opened[form.enrolment_id].is_empty]
    HealthReading.objects.bulk_create(
        HealthReading(form=form, reader=reader, read_at=now, meeting=meeting) for form in told
    )
    return opened


def own_notes(form: JoiningForm) -> Notes:
    """What somebody told, for themselves; that is no reading."""
    return _opened(form, _ring())


def erase_health_notes(now: datetime) -> int:
    """Erase what has reached its term: so many days after the last meeting of the course, and at once for
    whoever gave the place back. Gives the number of forms. Safe to run twice."""
    days = timedelta(days=settings.HEALTH_NOTES_KEPT_DAYS)
    over = Q(enrolment__withdrawn_at__isnull=False) | Q(enrolment__course__in=_courses_over(now, days))
    due = JoiningForm.objects.filter(over, erased_at__isnull=True)
    return due.update(**dict.fromkeys(FIELDS, b""), erased_at=now)


def erase_notes_of(enrolment: Enrolment, now: datetime) -> None:
    """Erase everything that was told for one place."""
    mine = JoiningForm.objects.filter(enrolment=enrolment, erased_at__isnull=True)
    mine.update(**dict.fromkeys(FIELDS, b""), erased_at=now)


def _courses_over(now: datetime, kept: timedelta) -> list[int]:
    """Courses with notes, over for longer than notes are kept: by their last day and their last meeting."""
    rows = Course.objects.filter(
        enrolments__joining_form__erased_at__isnull=True, ends_on__lt=timezone.localdate(now - kept)
    )
    ended = rows.annotate(last=Max("meetings__ends_at"))
    return [course.pk for course in ended if course.last is None or course.last < now - kept]


def _keep_consents(enrolment: Enrolment, agreed: Agreed, now: datetime) -> None:
    standing = {each.kind: each for each in enrolment.consents.filter(withdrawn_at__isnull=True)}
    for kind, words in agreed.words.items():
        if kind not in standing:
            Consent.objects.create(enrolment=enrolment, kind=kind, words=words, version=agreed.version, given_at=now)
    gone: Iterable[Consent] = (each for kind, each in standing.items() if kind not in agreed.words)
    for each in gone:
        each.withdrawn_at = now
        each.save(update_fields=["withdrawn_at"])


def _opened(form: JoiningForm, ring: KeyRing) -> Notes:
    texts: dict[str, str] = {}
    lost = False
    for name in FIELDS:
        try:
            texts[name] = unseal(bytes(getattr(form, name)), ring, place_of(form, name))
        except Unreadable:
            lost = True
    return Notes(**texts, cannot_be_read=lost)


def _ring() -> KeyRing:
    if not keys_file().exists():
        add_key()
    return health_keys()


def add_key() -> None:
    """One more key at the end of the file, which is made if it is not there, readable by its owner alone."""
    keys_file().parent.mkdir(parents=True, exist_ok=True)
    name = secrets.token_hex(ID_BYTES // 2)
    handle = os.open(keys_file(), os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    with os.fdopen(handle, "a", encoding="ascii") as file:
        file.write(f"{name} {secrets.token_hex(KEY_BYTES)}\n")
