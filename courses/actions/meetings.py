"""Planning, moving, cancelling and restoring meetings; whoever would come in vain is told."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.urls import reverse

from courses.actions.letters import full_address, write_to
from courses.models import Meeting, MeetingModule, Person
from courses.queries.letters import readers_at
from species.models import Module


class MeetingOver(Exception):
    """The meeting has begun, so it cannot be cancelled any more."""


class NoWetPlan(Exception):
    """Nothing is planned for bad weather."""


def keep_meeting(
    meeting: Meeting, *, modules: Sequence[Module], assistants: Sequence[Person], now: datetime
) -> Meeting:
    """Save a new or changed meeting with its modules in order.

    If a coming meeting of a course moved in time or place, everybody who is expected is written to.
    """
    with transaction.atomic():
        before = Meeting.objects.select_for_update().filter(pk=meeting.pk).first()
        meeting.changed_at = now
        if before is not None and _when_and_where(before) != _when_and_where(meeting):
            meeting.changes = before.changes + 1
        meeting.save()
        meeting.modules_in_order.all().delete()
        MeetingModule.objects.bulk_create(
            MeetingModule(meeting=meeting, module=module, order=order) for order, module in enumerate(modules, 1)
        )
        meeting.assistants.set(assistants)
        if before is not None and before.cancelled_at is None and _when_and_where(before) != _when_and_where(meeting):
            _tell(meeting, "moved", now)
    return meeting


def cancel_meeting(meeting: Meeting, *, now: datetime, because: str = "") -> None:
    """Cancel a coming meeting and write to everybody who is expected. Raises MeetingOver."""
    with transaction.atomic():
        locked = Meeting.objects.select_for_update(of=("self",)).get(pk=meeting.pk)
        if locked.starts_at <= now:
            raise MeetingOver
        if locked.cancelled_at is None:
            locked.cancelled_at = locked.changed_at = now
            locked.changes += 1
            locked.cancelled_because = because.strip()[:200]
            locked.save(update_fields=["cancelled_at", "cancelled_because", "changed_at", "changes"])
            _tell(locked, "cancelled", now)


def change_to_wet_plan(meeting: Meeting, *, now: datetime) -> None:
    """Do what is planned for bad weather: at its site where one is named, and everybody who comes is told.

    The two sites change places, so pressing it again goes back. Raises MeetingOver, or NoWetPlan.
    """
    with transaction.atomic():
        locked = Meeting.objects.select_for_update(of=("self",)).select_related("site", "wet_site").get(pk=meeting.pk)
        if locked.ends_at <= now or locked.cancelled_at is not None:
            raise MeetingOver
        if not locked.wet_plan and locked.wet_site is None:
            raise NoWetPlan
        if locked.wet_site is not None:
            locked.site, locked.wet_site = locked.wet_site, locked.site
        locked.changes, locked.changed_at = locked.changes + 1, now
        locked.save(update_fields=["site", "wet_site", "changes", "changed_at"])
        _tell(locked, "wet", now)


def keep_leader(meeting: Meeting, leader: Person, now: datetime) -> None:
    """Name the leader of a walk, and write to them."""
    meeting.leader, meeting.changed_at = leader, now
    meeting.save(update_fields=["leader", "changed_at"])
    link = full_address(reverse("courses:meeting", args=[meeting.key]))
    write_to([leader], "leads", {"meeting": meeting, "link": link})


def note_taught(meeting: Meeting, left_out: Mapping[int, str]) -> None:
    """What of the plan was taught: all of it but these modules (ids), each with the reason why not."""
    with transaction.atomic():
        for row in meeting.modules_in_order.select_for_update():
            row.taught, row.why_not = row.module_id not in left_out, left_out.get(row.module_id, "").strip()[:200]
            row.save(update_fields=["taught", "why_not"])


def restore_meeting(meeting: Meeting, *, now: datetime) -> None:
    """Hold a cancelled meeting after all, and write to everybody who is expected."""
    with transaction.atomic():
        cancelled = Meeting.objects.filter(pk=meeting.pk, cancelled_at__isnull=False)
        if cancelled.update(cancelled_at=None, changed_at=now, changes=F("changes") + 1):
            meeting.cancelled_at = None
            _tell(meeting, "restored", now)


def _when_and_where(meeting: Meeting) -> tuple[object, ...]:
    return meeting.starts_at, meeting.ends_at, meeting.site_id, meeting.place


def _tell(meeting: Meeting, letter: str, now: datetime) -> None:
    if meeting.starts_at <= now:
        return
    link = full_address(reverse("courses:meeting", args=[meeting.key]))
    write_to(readers_at(meeting), letter, {"meeting": meeting, "link": link})
