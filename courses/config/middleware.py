"""What every request shares: the school's time zone, and privacy for whoever is signed in."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

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
