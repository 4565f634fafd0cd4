"""Reminding people in time, once for each date, however often or late a day is run."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from courses.actions.letters import full_address, send_letter
from courses.models import Certificate, Person, Reminder, RequirementRecord, Role, SitePermission
from courses.rules.reminders import reminder_due


@dataclass(frozen=True)
class Lapse:
    """Something that lapses on a day: whom to remind, of what kind, of which one, and its words."""

    people: tuple[Person, ...]
    kind: str
    about: str
    until: date
    words: str
    path: str


def remind(now: datetime) -> int:
    """Write the reminders that are due: certificates, proofs, permissions. Their number. Safe to run twice."""
    today = timezone.localdate(now)
    return sum(_remind_of(lapse, today, now) for lapse in _lapses(today))


def _remind_of(lapse: Lapse, today: date, now: datetime) -> int:
    """One letter to each for the nearest mark that is reached, not one for each mark that was missed."""
    days = reminder_due(lapse.until, today)
    if days is None:
        return 0
    written = 0
    for person in lapse.people:
        about = f"{lapse.about} {lapse.until.isoformat()}"
        facts = {
            "person": person,
            "subject": _("Lapses on %(day)s: %(what)s")
            % {"day": date_format(lapse.until, "DATE_FORMAT"), "what": lapse.words},
            "lines": [_("%(what)s is good until %(day)s.") % {"what": lapse.words, "day": date_format(lapse.until)}],
            "link": full_address(lapse.path),
        }
        try:
            with transaction.atomic():
                Reminder.objects.create(person=person, kind=lapse.kind, about=about, days_before=days, written_at=now)
                send_letter(person.user.email, "notice", facts, person)
        except IntegrityError:
            continue
        written += 1
    return written


def _lapses(today: date) -> Iterable[Lapse]:
    yield from _certificates(today)
    yield from _proofs(today)
    yield from _permissions(today)


def _certificates(today: date) -> Iterable[Lapse]:
    rows = Certificate.objects.filter(valid_until__gte=today, person__left_on__isnull=True)
    for row in rows.select_related("person__user", "standard").prefetch_related("events"):
        if any(event.kind == "withdrawn" for event in row.events.all()):
            continue
        words = _("your certificate %(number)s") % {"number": row.number}
        path = reverse("courses:certificate", args=[row.number])
        yield Lapse((row.person,), "certificate", row.number, row.valid_until, words, path)


def _proofs(today: date) -> Iterable[Lapse]:
    """Of each person and kind the one that lasts longest: what was renewed needs no reminder."""
    rows = RequirementRecord.objects.filter(person__left_on__isnull=True).select_related("person__user")
    latest: dict[tuple[int, str, int | None], RequirementRecord] = {}
    for row in rows.order_by("pk"):
        key = (row.person_id, row.kind, row.site_id)
        if key not in latest or (row.valid_until or date.max) > (latest[key].valid_until or date.max):
            latest[key] = row
    for row in latest.values():
        if row.valid_until is not None and row.valid_until >= today:
            path = reverse("courses:person", args=[row.person.uuid])
            about = f"{row.kind} {row.site_id or ''}".strip()
            yield Lapse((row.person,), "proof", about, row.valid_until, str(row.get_kind_display()), path)


def _permissions(today: date) -> Iterable[Lapse]:
    organisers = tuple(Person.objects.here().with_role(Role.ORGANISER, today).select_related("user"))
    rows = SitePermission.objects.filter(valid_until__gte=today, ended_on__isnull=True).select_related("site__locality")
    for row in rows:
        words = _("permission for %(site)s from %(who)s") % {"site": row.site.locality.name, "who": row.given_by}
        path = reverse("courses:site", args=[row.site_id])
        assert row.valid_until is not None
        yield Lapse(organisers, "permission", str(row.pk), row.valid_until, words, path)
