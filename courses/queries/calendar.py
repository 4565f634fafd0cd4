"""Which meetings stand in somebody's calendar, and whether the calendar still is one."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from urllib.parse import urlsplit

from django.conf import settings
from django.db.models import Max, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from courses.documents.calendar import CalendarEntry
from courses.models import CalendarAddress, Enrolment, Meeting, Person

KEPT = timedelta(days=60)
"""How long a meeting that was, or was cancelled, stays; how long an empty calendar is served after the last place."""


@dataclass(frozen=True)
class OwnCalendar:
    """Somebody's calendar address as their page shows it; `url` is empty while there is none."""

    url: str
    entries: int

    @property
    def webcal(self) -> str:
        return "webcal:" + self.url.partition(":")[2] if self.url else ""


def calendar_entries(person: Person, now: datetime) -> list[CalendarEntry]:
    """The meetings of somebody's courses and walks, cancelled ones among them; one query."""
    mine = (
        Q(pk__in=Meeting.objects.of_people_in(person.pk).values("pk"))
        | Q(pk__in=Meeting.objects.of_tutor(person.pk).values("pk"))
        | Q(stand_ins__person=person, stand_ins__taken_back_at__isnull=True)
    )
    rows = Meeting.objects.filter(mine, ends_at__gte=now - KEPT).select_related("site__locality").distinct()
    return [entry_of(row) for row in rows.order_by("starts_at", "id")]


def entry_of(meeting: Meeting) -> CalendarEntry:
    """A meeting as calendars show it: the meeting point, never the exact place of what grows there."""
    host = urlsplit(settings.PUBLIC_ADDRESS).hostname or "localhost"
    title = _("Cancelled: %s") % meeting.title if meeting.cancelled_at else meeting.title
    path = reverse("courses:meeting", args=[meeting.key])
    return CalendarEntry(
        uid=f"meeting-{meeting.key}@{host}",
        title=title,
        starts_at=meeting.starts_at,
        ends_at=meeting.ends_at,
        stamp=meeting.changed_at or meeting.starts_at,
        sequence=meeting.changes,
        place=_place(meeting),
        link=f"{settings.PUBLIC_ADDRESS}{path}",
        is_cancelled=meeting.cancelled_at is not None,
        is_settled=bool(meeting.site_id or meeting.place),
    )


def _place(meeting: Meeting) -> str:
    if meeting.site is None:
        return meeting.place
    return ", ".join(filter(None, (meeting.site.locality.name, meeting.site.meeting_point)))


def has_ended(person: Person, now: datetime) -> bool:
    """Whether somebody has had nothing to do with any course for so long that their calendar is gone."""
    if person.left_on is not None and person.left_on < timezone.localdate(now - KEPT):
        return True
    if person.roles.held_on(timezone.localdate(now)).exclude(role="participant").exists():
        return False
    turns = Enrolment.objects.filter(person=person)
    if not turns.exists() or turns.filter(withdrawn_at__isnull=True, course__ends_on__gte=now - KEPT).exists():
        return False
    ends = turns.aggregate(last=Max("withdrawn_at"))["last"]
    return ends is None or ends < now - KEPT


def own_calendar(person: Person, now: datetime) -> OwnCalendar:
    """The address that somebody can give to their calendar."""
    found = CalendarAddress.objects.filter(person=person, ended_at__isnull=True).first()
    url = f"{settings.PUBLIC_ADDRESS}{reverse('courses:calendar_feed', args=[found.key])}" if found else ""
    return OwnCalendar(url, len(calendar_entries(person, now)))
