"""Sites as a list and one by one."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Count, Q

from courses.models import Incident, Site, SitePermission, SiteReview
from courses.queries.sentences.risk import HEADING_WORDS
from courses.rules.permissions import PermissionFacts, Standing, standing_on
from courses.rules.risk import Change, changes_between

from .meetings import MeetingLine, meeting_lines
from .site_plants import Met, plants_at

MOST_INCIDENTS = 10


@dataclass(frozen=True)
class SiteLine:
    """A site; how its permissions stand; meetings to come."""

    site: Site
    permission: Standing
    coming: int


@dataclass(frozen=True)
class ChangeWords:
    """A heading in words, and what stood and stands under it."""

    word: str
    before: str
    now: str


@dataclass(frozen=True)
class ReviewLine:
    """A review of a site and what changed in it against the one before."""

    review: SiteReview
    changes: tuple[ChangeWords, ...]
    is_first: bool


@dataclass(frozen=True)
class SitePage:
    """One site: its permissions, what grows there, its last reviews, what happened there, what is planned.

    `plants` are deadly ones first, then the other dangerous ones, then the rest, each by scientific name.
    """

    site: Site
    permission: Standing
    permissions: tuple[SitePermission, ...]
    plants: tuple[Met, ...]
    reviews: tuple[ReviewLine, ...]
    review_is_due: bool
    incidents: tuple[Incident, ...]
    coming: tuple[MeetingLine, ...]


def site_lines(now: datetime, today: date) -> list[SiteLine]:
    """All sites by name, in two queries."""
    to_come = Q(meetings__ends_at__gte=now, meetings__cancelled_at__isnull=True)
    rows = Site.objects.select_related("locality").prefetch_related("permissions")
    rows = rows.annotate(coming=Count("meetings", to_come, distinct=True)).order_by("locality__name")
    return [SiteLine(row, permission_on(row.permissions.all(), today), row.coming) for row in rows]


def site_page(site: Site, now: datetime, today: date) -> SitePage:
    """What the page of a site shows, in a constant number of queries."""
    permissions = tuple(site.permissions.select_related("recorded_by"))
    reviews = review_lines(site)
    happened = site.incidents.select_related("pair__gathered", "pair__mistaken", "picked")
    return SitePage(
        site,
        permission_on(permissions, today),
        permissions,
        tuple(sorted(plants_at(site, today), key=lambda met: (not met.is_deadly, not met.is_dangerous))),
        reviews,
        not reviews or reviews[0].review.review_again_by < today,
        tuple(happened[:MOST_INCIDENTS]),
        tuple(meeting_lines(site.meetings.coming(now), now)),
    )


def review_lines(site: Site, most: int = 10) -> tuple[ReviewLine, ...]:
    """The latest reviews, newest first, each beside the one before it; one query."""
    rows = list(site.reviews.select_related("reviewed_by", "meeting").order_by("-reviewed_on", "-pk")[: most + 1])
    before: list[SiteReview | None] = [*rows, None][1:]
    lines = [
        ReviewLine(row, _in_words(changes_between(old.headings if old else {}, row.headings)), old is None)
        for row, old in zip(rows, before, strict=True)
    ]
    return tuple(lines[:most])


def _in_words(changes: Iterable[Change]) -> tuple[ChangeWords, ...]:
    return tuple(ChangeWords(str(HEADING_WORDS[each.heading]), each.before, each.now) for each in changes)


def permission_on(permissions: Iterable[SitePermission], day: date) -> Standing:
    """How the permissions of a site stand on a day."""
    return standing_on([facts_of(each) for each in permissions], day)


def facts_of(permission: SitePermission) -> PermissionFacts:
    """A permission as the rule reads it."""
    uses = [name for name in ("walking", "picking", "digging") if getattr(permission, name)]
    return PermissionFacts(permission.valid_from, permission.valid_until, permission.ended_on, frozenset(uses))
