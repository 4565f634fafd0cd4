"""Trying out the invented school: one tap to enter as each role, and its mails with their codes.

These pages do not exist unless the site was started for the demo *and* its school is an invented one.
"""

from django.conf import settings
from django.contrib.auth import login
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from courses.queries.demo import entry_as, kept_mails, school_is_invented


def _only_in_the_demo() -> None:
    if not settings.DEMO or not school_is_invented():
        raise Http404


@require_POST
def enter_as(request: HttpRequest, role: str) -> HttpResponse:
    """Sign in as the person who stands for a role."""
    _only_in_the_demo()
    person = entry_as(role, timezone.localdate())
    if person is None:
        raise Http404
    login(request, person.user, backend=settings.AUTHENTICATION_BACKENDS[0])
    return redirect("courses:home")


@require_safe
def demo_mail(request: HttpRequest) -> HttpResponse:
    """The mails kept instead of sent, newest first."""
    _only_in_the_demo()
    return render(request, "courses/demo_mail.html", {"mails": kept_mails()})
