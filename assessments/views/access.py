"""Who may open a page of this room: whoever sits or set something, and holders of its permissions."""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar

from django.contrib.auth.models import User
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _

Rest = ParamSpec("Rest")
Answer = TypeVar("Answer", bound=HttpResponseBase)
View = Callable[Concatenate[HttpRequest, Rest], Answer]


def user_of(request: HttpRequest) -> User:
    """Whoever sent a request that was let through by one of the guards below."""
    if not isinstance(request.user, User):
        raise PermissionDenied
    return request.user


def signed_in(view: View[Rest, Answer]) -> View[Rest, Answer | HttpResponse]:
    """Let in whoever is signed in; the others come back here after signing in."""

    @wraps(view)
    def guarded(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> Answer | HttpResponse:
        if not request.user.is_authenticated:
            return redirect_to_login(_way_back(request))
        return view(request, *args, **kwargs)

    return guarded


def for_holders(*permissions: str) -> Callable[[View[Rest, Answer]], View[Rest, Answer | HttpResponse]]:
    """Let in whoever holds one of these permissions."""

    def guard(view: View[Rest, Answer]) -> View[Rest, Answer | HttpResponse]:
        @wraps(view)
        def guarded(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> Answer | HttpResponse:
            if not request.user.is_authenticated:
                return redirect_to_login(_way_back(request))
            if not holds_any(user_of(request), *permissions):
                raise PermissionDenied(_("This page is for those who work for the school."))
            return view(request, *args, **kwargs)

        return guarded

    return guard


def holds_any(user: User, *permissions: str) -> bool:
    """Whether somebody holds one of these permissions."""
    return any(user.has_perm(permission) for permission in permissions)


def _way_back(request: HttpRequest) -> str:
    """Where to go after signing in: this page, or for a change, which no link repeats, the page before it."""
    if request.method in ("GET", "HEAD"):
        return request.get_full_path()
    before = request.headers.get("Referer", "")
    if url_has_allowed_host_and_scheme(before, {request.get_host()}, require_https=request.is_secure()):
        return before
    return reverse("assessments:papers")
