"""Handing a meeting over to a stand-in, and taking that back."""

from datetime import datetime

from django.db import IntegrityError, transaction
from django.urls import reverse

from courses.actions.letters import full_address, write_to
from courses.models import Meeting, Person, StandIn


class CannotStandIn(Exception):
    """The meeting is over or cancelled, or this person has been named already."""


def name_stand_in(meeting: Meeting, person: Person, *, by: Person, reason: str, now: datetime) -> StandIn:
    """Let somebody take a meeting over; on its day they see what its tutor sees. They are written to at once."""
    if meeting.ends_at <= now or meeting.cancelled_at is not None:
        raise CannotStandIn
    try:
        with transaction.atomic():
            named = StandIn.objects.create(meeting=meeting, person=person, named_by=by, named_at=now, reason=reason)
            link = full_address(reverse("courses:meeting_day", args=[meeting.key]))
            write_to([person], "stand_in", {"meeting": meeting, "by": by, "reason": reason, "link": link})
    except IntegrityError as error:
        raise CannotStandIn from error
    return named


def take_back(stand_in: StandIn, now: datetime) -> None:
    """The stand-in is no longer needed."""
    StandIn.objects.filter(pk=stand_in.pk, taken_back_at__isnull=True).update(taken_back_at=now)
