"""What somebody of the school reads whose sign-in has no second factor yet."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from courses.queries.people import Viewer


def second_factor_first(request: HttpRequest, viewer: Viewer) -> HttpResponse:
    """The reason in a sentence, and the two ways to have one in a minute."""
    answer = render(request, "courses/second_factor.html", {"viewer": viewer}, status=403)
    # htmx would put this page into a row of a list.
    answer["HX-Refresh"] = "true"
    return answer
