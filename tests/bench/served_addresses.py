"""The addresses of the site, and one that writes a bare row behind the same middleware."""

from django.http import HttpRequest, HttpResponse
from django.urls import path
from django.utils import timezone

from assessments.models import Notice
from courses.config.urls import urlpatterns as site


def bare_insert(request: HttpRequest) -> HttpResponse:
    """One row for whoever is signed in, and nothing else."""
    Notice.objects.create(person_id=request.user.pk, kind="bench", happened_at=timezone.now())
    return HttpResponse(status=204)


urlpatterns = [*site, path("bench/insert/", bare_insert)]
