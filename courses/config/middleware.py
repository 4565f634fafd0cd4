"""What every request shares: the school's time zone, privacy for whoever is signed in, and a second factor for whoever
works for the school."""

import re
from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from courses.queries.people import lacks_second_factor
from courses.views.access import viewer_for
from courses.views.second_factor import second_factor_first

OPEN_WITHOUT = re.compile(r"/(account|static|check|privacy)/|/sites/\d+/emergency\.pdf$")
"""Where somebody of the school without a second factor may go: to set one up, to sign out, and where strangers may.
Nor does anything stand between somebody outdoors and the emergency card of a site."""

Answer = Callable[[HttpRequest], HttpResponse]


def school_day(get_response: Answer) -> Answer:
    """Show times in the school's zone; let no shared cache keep a page made for somebody."""

    def answer(request: HttpRequest) -> HttpResponse:
        timezone.activate(settings.TIME_ZONE)
        response = get_response(request)
        if request.user.is_authenticated and "Cache-Control" not in response:
            response["Cache-Control"] = "private, no-store"
        return response

    return answer


def second_factor(get_response: Answer) -> Answer:
    """Organisers, tutors and assessors whose sign-in hangs on one thing alone are asked for a second first (SEC-28)."""

    def answer(request: HttpRequest) -> HttpResponse:
        if settings.STAFF_NEED_A_SECOND_FACTOR and not OPEN_WITHOUT.match(request.path):
            viewer = viewer_for(request)
            if viewer.is_staff and lacks_second_factor(viewer):
                return second_factor_first(request, viewer)
        return get_response(request)

    return answer
