"""Steps on the way to leading, leave to lead, who can come, and naming leaders."""

from collections.abc import Mapping
from datetime import date, datetime

from django.db import transaction

from courses.actions.meetings import keep_leader
from courses.models import Availability, LeadingGrant, Meeting, Person, WalkPart


class OwnStep(Exception):
    """Nobody confirms a step of their own."""


class NotOpen(Exception):
    """The walk is over or cancelled, or has a leader meanwhile."""


def confirm_step(part: WalkPart, *, by: Person, today: date) -> WalkPart:
    """Write down a step that was taken. Raises OwnStep."""
    if part.person_id == by.pk:
        raise OwnStep
    part.confirmed_by, part.confirmed_on = by, today
    part.save()
    return part


def grant_leave(grant: LeadingGrant, *, by: Person) -> LeadingGrant:
    """Give leave to lead alone. Raises OwnStep."""
    if grant.person_id == by.pk:
        raise OwnStep
    grant.granted_by = by
    grant.save()
    return grant


def end_leave(grant: LeadingGrant, today: date) -> None:
    """Take leave to lead back, from today on."""
    LeadingGrant.objects.filter(pk=grant.pk, ended_on__isnull=True).update(ended_on=today)


def say_availability(person: Person, meeting: Meeting, can_come: bool, now: datetime) -> None:
    """Whether somebody can come to a walk; the latest word counts."""
    Availability.objects.update_or_create(
        person=person, meeting=meeting, defaults={"can_come": can_come, "said_at": now}
    )


def name_leaders(chosen: Mapping[str, Person], now: datetime) -> int:
    """Name leaders for walks (by key) that still have none; their number. Raises NotOpen, then nothing is named."""
    with transaction.atomic():
        for key, person in chosen.items():
            walk = Meeting.objects.select_for_update(of=("self",)).get(key=key)
            if walk.leader_id is not None or walk.cancelled_at is not None or walk.ends_at <= now:
                raise NotOpen
            keep_leader(walk, person, now)
    return len(chosen)
