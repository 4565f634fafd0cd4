"""How often an address may be asked from one place, for pages that strangers can open."""

import hashlib
from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec

from allauth.account.adapter import get_adapter
from django.core.cache import cache
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

Rest = ParamSpec("Rest")
View = Callable[Concatenate[HttpRequest, Rest], HttpResponse]


def limited(what: str, most: int, seconds: int = 60) -> Callable[[View[Rest]], View[Rest]]:
    """At most so many requests from one internet address in a stretch of so many seconds.

    Counted in the cache: with the default one, by each server process for itself. What is over the limit gets
    status 429 and one sentence, the same whatever was asked.
    """

    def limit(view: View[Rest]) -> View[Rest]:
        @wraps(view)
        def counted(request: HttpRequest, /, *args: Rest.args, **kwargs: Rest.kwargs) -> HttpResponse:
            if asked_too_often(request, what, most, seconds):
                return too_often(request, seconds)
            return view(request, *args, **kwargs)

        return counted

    return limit


def asked_too_often(request: HttpRequest, what: str, most: int, seconds: int) -> bool:
    """Count this request, and say whether it is one too many."""
    # the address itself is kept nowhere, not even for a minute
    place = hashlib.sha256(get_adapter(request).get_client_ip(request).encode()).hexdigest()
    return _counted_over(f"asked:{what}:{place}", most, seconds)


def asked_by_all_too_often(what: str, most: int, seconds: int) -> bool:
    """Count this request among those of everybody, and say whether it is one too many."""
    return _counted_over(f"asked:{what}:all", most, seconds)


def _counted_over(key: str, most: int, seconds: int) -> bool:
    if cache.add(key, 1, seconds):
        return False
    try:
        return cache.incr(key) > most
    except ValueError:  # the stretch ended between the two lines
        return False


def too_often(request: HttpRequest, seconds: int) -> HttpResponse:
    """The answer to one request too many."""
    answer = render(request, "courses/too_often.html", status=429)
    answer["Retry-After"] = str(seconds)
    answer["Cache-Control"] = "no-store"
    return answer
