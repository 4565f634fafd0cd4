"""Who may open a page: signed in, known to the school, holding a role.

What somebody may see of the things on a page is settled where they are found (`queries/visible.py`), so that
what belongs to others answers "not found" and gives nothing away.
"""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, cast

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django_htmx.http import HttpResponseClientRedirect

from courses.models import Person, Role
from courses.queries.people import Viewer, viewer_of

Rest = ParamSpec("Rest")
View = Callable[Concatenate[HttpRequest, Rest], HttpResponse]


class _Asked(HttpRequest):
    """A request that knows already who looks."""

    viewer: Viewer


def viewer_for(request: HttpRequest) -> Viewer:
    """The viewer of a request, asked for once."""
    asked = cast("_Asked", request)
    if not hasattr(asked, "viewer"):
        asked.viewer = viewer_of(request.user, timezone.localdate())
    return asked.viewer


def is_by_htmx(request: HttpRequest) -> bool:
    """Whether a part of a page is asked for, and not a page."""
    return request.headers.get("HX-Request") == "true"


def person_of(request: HttpRequest) -> Person:
    """The person behind a request that was let through by `for_people` or `for_roles`."""
    person = viewer_for(request).person
    if person is None:
        raise PermissionDenied
    return person


def for_people(view: View[Rest]) -> View[Rest]:
    """Let in whoever is signed in and known to the school."""

    @wraps(view)
    def guarded(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> HttpResponse:
        return _turned_away(request) or view(request, *args, **kwargs)

    return guarded


def for_roles(*roles: str) -> Callable[[View[Rest]], View[Rest]]:
    """Let in whoever holds one of these roles today; the others read who could help them."""

    def guard(view: View[Rest]) -> View[Rest]:
        @wraps(view)
        def guarded(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> HttpResponse:
            away = _turned_away(request)
            if away is not None:
                return away
            if not viewer_for(request).is_any(*roles):
                return refused(request, _sentence_for(roles))
            return view(request, *args, **kwargs)

        return guarded

    return guard


def refused(request: HttpRequest, sentence: str, status: int = 403) -> HttpResponse:
    """A page that says in one sentence why not, and whom to ask."""
    return render(request, "courses/refused.html", {"sentence": sentence}, status=status)


def _turned_away(request: HttpRequest) -> HttpResponse | None:
    if not request.user.is_authenticated:
        return _to_sign_in(request)
    if viewer_for(request).person is None:
        return refused(request, _("You are signed in, but the school does not know you: ask it for an invitation."))
    return None


def _to_sign_in(request: HttpRequest) -> HttpResponse:
    by_htmx = is_by_htmx(request)
    # A change cannot be repeated by following a link, so whoever sent one comes back to the first page.
    back = request.get_full_path() if request.method == "GET" and not by_htmx else reverse("courses:home")
    answer = redirect_to_login(back)
    # htmx would follow the redirect and put the sign-in page into a row of the list.
    return HttpResponseClientRedirect(answer.url) if by_htmx else answer


def _sentence_for(roles: tuple[str, ...]) -> str:
    if set(roles) == {Role.ORGANISER}:
        return _("This page is for the organisers of the school: ask one of them.")
    return _("This page is for those who work for the school: ask an organiser if you should see it.")
