"""What every page knows: the school, who looks, and which sections are open to them."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse
from django.utils import timezone
from django.utils.functional import SimpleLazyObject
from django.utils.translation import gettext as _

from courses.queries.people import Viewer, the_school
from courses.views.access import viewer_for

STALE_AFTER_DAYS = 14
# Addresses that belong to a section beside the one it begins at.
ALSO = {
    "species:index": ("/pairs/", "/modules/", "/season/", "/bank/"),
    "assessments:papers": ("/sit/", "/appeals/", "/standing/", "/practice/", "/standards/", "/spot-tests/"),
    "courses:courses": ("/meetings/", "/sites/"),
}


@dataclass(frozen=True)
class Section:
    """One link of the header."""

    url: str
    label: str
    current: bool


def sections_for(viewer: Viewer, path: str) -> list[Section]:
    """The sections that this viewer may open, in the order of use."""
    wanted = [("courses:home", _("Today")), ("species:index", _("Plants"))]
    if viewer.person is not None:
        wanted += [("assessments:papers", _("Tests")), ("courses:courses", _("Courses"))]
    if viewer.is_staff:
        wanted += [("courses:people", _("People")), ("courses:certificates", _("Certificates"))]
    if viewer.is_any("organiser", "tutor"):
        wanted += [("courses:readiness", _("Readiness"))]
    sections = []
    for name, label in wanted:
        try:
            url = reverse(name)
        except NoReverseMatch:
            continue
        own = tuple(each for each in (url, *ALSO.get(name, ())) if each != "/")
        sections.append(Section(url, label, path == url or path.startswith(own)))
    return sections


def school(request: HttpRequest) -> dict[str, Any]:
    """Context for every template; nothing is read unless a page uses it."""
    row = cache(the_school)  # one read for however many pieces ask

    def age() -> int | None:
        found = row()
        if found is None or found.seeded_on is None:
            return None
        return (timezone.localdate() - found.seeded_on).days

    return {
        "school": SimpleLazyObject(row),
        "viewer": SimpleLazyObject(lambda: viewer_for(request)),
        "sections": SimpleLazyObject(lambda: sections_for(viewer_for(request), request.path)),
        "demo_age_days": SimpleLazyObject(age),
        "demo_is_stale": SimpleLazyObject(lambda: (age() or 0) > STALE_AFTER_DAYS),
    }
