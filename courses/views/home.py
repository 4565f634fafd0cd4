"""The first page: a welcome for whoever is not signed in, otherwise what matters to this person today."""

from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from courses.models import Role
from courses.queries.demo import entries, school_is_invented
from courses.queries.home_organiser import organiser_home
from courses.queries.home_participant import participant_home
from courses.queries.home_tutor import specimens_to_name, tutor_home
from courses.queries.people import Viewer

from .access import viewer_for

WHAT_EACH_SEES = {
    Role.PARTICIPANT: (
        _("Participant"),
        _("When and where the next walk is, a test that is open, and for each pair how far you are."),
        _("Enter as a participant"),
    ),
    Role.TUTOR: (
        _("Tutor"),
        _("What is next, who mixes up what, registers to keep, papers to set and spot tests to hold."),
        _("Enter as a tutor"),
    ),
    Role.ASSESSOR: (
        _("Assessor"),
        _("Specimens that wait for a second, independent name before anybody is tested with them."),
        _("Enter as an assessor"),
    ),
    Role.ORGANISER: (
        _("Organiser"),
        _("Who is ready to lead which walk, what is overdue, certificates, courses and people."),
        _("Enter as an organiser"),
    ),
}


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """What matters today, part by part for every role that the viewer holds."""
    if not request.user.is_authenticated:
        return render(request, "courses/welcome.html", {"entries": _ways_in()})
    viewer = viewer_for(request)
    if viewer.person is None:
        return render(request, "courses/unknown.html")
    return render(request, "courses/home.html", {"parts": _parts(viewer), "person": viewer.person})


def _parts(viewer: Viewer) -> dict[str, Any]:
    person, now, today = viewer.person, timezone.now(), timezone.localdate()
    assert person is not None
    learns = viewer.is_any(Role.PARTICIPANT) or not viewer.is_staff
    return {
        "organiser": organiser_home(now, today) if viewer.is_organiser else None,
        "tutor": tutor_home(person, now, today) if viewer.is_tutor else None,
        "to_name": specimens_to_name(person) if viewer.is_any(Role.TUTOR, Role.ASSESSOR) else None,
        "participant": participant_home(person, now) if learns else None,
    }


def _ways_in() -> list[dict[str, Any]]:
    if not settings.DEMO or not school_is_invented():
        return []
    ways = []
    for role, person in entries(timezone.localdate()).items():
        label, sees, button = WHAT_EACH_SEES[role]
        ways.append({"role": role.value, "person": person, "label": label, "sees": sees, "button": button})
    return ways
