"""Sites as a list and one by one."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db.models import Count, Q

from courses.models import Site

from .meetings import MeetingLine, meeting_lines

SOON = timedelta(days=60)


@dataclass(frozen=True)
class SiteLine:
    """A site; its permission holds, ends soon, has ended, or was never written down; meetings to come."""

    site: Site
    permission: str
    coming: int


@dataclass(frozen=True)
class SitePage:
    """One site with the meetings planned there."""

    site: Site
    permission: str
    coming: tuple[MeetingLine, ...]


def site_lines(now: datetime, today: date) -> list[SiteLine]:
    """All sites by name, in one query."""
    to_come = Q(meetings__ends_at__gte=now, meetings__cancelled_at__isnull=True)
    rows = Site.objects.select_related("locality").annotate(coming=Count("meetings", to_come))
    return [SiteLine(row, permission_state(row, today), row.coming) for row in rows.order_by("locality__name")]


def site_page(site: Site, now: datetime, today: date) -> SitePage:
    """What the page of a site shows, in a constant number of queries."""
    return SitePage(site, permission_state(site, today), tuple(meeting_lines(site.meetings.coming(now), now)))


def permission_state(site: Site, today: date) -> str:
    """none, ended, soon (ends within sixty days) or given."""
    if not site.permission:
        return "none"
    if site.permission_until is None or site.permission_until >= today + SOON:
        return "given"
    return "ended" if site.permission_until < today else "soon"
