"""Reminding people in time, once for each date, however often or late a day is run."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from courses.actions.letters import full_address, send_letter
from courses.models import (
    Certificate,
    DecisionAppeal,
    ErasureRequest,
    Person,
    Reminder,
    RequirementRecord,
    Role,
    SitePermission,
)
from courses.queries.decision_appeals import appeal_lines
from courses.rules.reminders import DAYS_BEFORE, DAYS_BEFORE_AN_ANSWER, reminder_due


@dataclass(frozen=True)
class Lapse:
    """Something that ends on a day: whom to remind, of what kind, of which one, and its words.

    `is_owed`: nothing lapses then, but an answer is due.
    """

    people: tuple[Person, ...]
    kind: str
    about: str
    until: date
    words: str
    path: str
    is_owed: bool = False

    @property
    def marks(self) -> tuple[int, ...]:
        return DAYS_BEFORE_AN_ANSWER if self.is_owed else DAYS_BEFORE

    def said(self) -> tuple[str, str]:
        """Subject and sentence."""
        day, facts = date_format(self.until, "DATE_FORMAT"), {"what": self.words}
        if self.is_owed:
            return _("To be answered by %(day)s: %(what)s") % {**facts, "day": day}, _(
                "%(what)s is to be answered by %(day)s at the latest."
            ) % {**facts, "day": day}
        return _("Lapses on %(day)s: %(what)s") % {**facts, "day": day}, _("%(what)s is good until %(day)s.") % {
            **facts,
            "day": day,
        }


def remind(now: datetime) -> int:
    """Write the reminders that are due: certificates, proofs, permissions, answers owed.

    Returns their number. Safe to run twice.
    """
    today = timezone.localdate(now)
    return sum(_remind_of(lapse, today, now) for lapse in _lapses(now))


def _remind_of(lapse: Lapse, today: date, now: datetime) -> int:
    """One letter to each for the nearest mark that is reached, not one for each mark that was missed."""
    days = reminder_due(lapse.until, today, lapse.marks)
    if days is None:
        return 0
    (subject, line), written = lapse.said(), 0
    for person in lapse.people:
        about = f"{lapse.about} {lapse.until.isoformat()}"
        facts = {
            "person": person,
            "subject": subject,
            "lines": [capfirst(line)],
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


def _lapses(now: datetime) -> Iterable[Lapse]:
    today = timezone.localdate(now)
    yield from _certificates(today)
    yield from _proofs(today)
    yield from _permissions(today)
    yield from _appeals(now)
    yield from _erasures(today)


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


def _appeals(now: datetime) -> Iterable[Lapse]:
    for line in appeal_lines(DecisionAppeal.objects.whole().undecided(), now):
        words = _("the appeal of %(name)s") % {"name": line.appeal.person.name}
        path = reverse("courses:decision_appeal", args=[line.appeal.key])
        key = str(line.appeal.pk)
        yield Lapse(tuple(line.may_decide), "decision_appeal", key, line.appeal.decide_by, words, path, is_owed=True)


def _erasures(today: date) -> Iterable[Lapse]:
    organisers = tuple(Person.objects.here().with_role(Role.ORGANISER, today).select_related("user"))
    for request in ErasureRequest.objects.undecided().select_related("person"):
        words = _("the request of %(name)s to be erased") % {"name": request.person.name}
        path = reverse("courses:erasure", args=[request.key])
        others = tuple(each for each in organisers if each.pk != request.person_id)
        yield Lapse(others, "erasure", str(request.pk), request.decide_by, words, path, is_owed=True)
