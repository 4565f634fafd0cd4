"""Who may open a page of this room that is not for everybody."""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar

from django.contrib.auth.models import User
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.utils.translation import gettext as _

Rest = ParamSpec("Rest")
Answer = TypeVar("Answer", bound=HttpResponseBase)
View = Callable[Concatenate[HttpRequest, Rest], Answer]


def user_of(request: HttpRequest) -> User:
    """The signed-in user behind a request that was let through."""
    if not isinstance(request.user, User):
        raise PermissionDenied
    return request.user


def for_holders(permission: str) -> Callable[[View[Rest, Answer]], View[Rest, Answer | HttpResponse]]:
    """Let in whoever holds this permission."""

    def guard(view: View[Rest, Answer]) -> View[Rest, Answer | HttpResponse]:
        @wraps(view)
        def guarded(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> Answer | HttpResponse:
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path())
            if not user_of(request).has_perm(permission):
                raise PermissionDenied(_("This page is for those who work for the school."))
            return view(request, *args, **kwargs)

        return guarded

    return guard
