"""Messages by hand with a look before they go, one's own notices, and the school's letters."""

from collections.abc import Iterable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.letters import draft_letter, full_address, write_to
from courses.actions.posting import try_again
from courses.forms.letters import MessageForm
from courses.models import Letter, Person, Role
from courses.queries.letters import notices_to, post_office, readers_at, readers_in
from courses.queries.visible import courses_run_by, meetings_run_by

from .access import for_people, for_roles, person_of, viewer_for


@require_safe
@for_people
def notices(request: HttpRequest) -> HttpResponse:
    """What the school has told the person who looks."""
    return render(request, "courses/notices.html", {"lines": notices_to(person_of(request))})


@require_safe
@for_roles(Role.ORGANISER)
def letters(request: HttpRequest) -> HttpResponse:
    """What waits to be posted, what could not be delivered, what went out."""
    return render(request, "courses/letters.html", {"office": post_office()})


@require_POST
@for_roles(Role.ORGANISER)
def letter_again(request: HttpRequest, pk: int) -> HttpResponse:
    """Put a letter that was given up back among those that wait."""
    found = get_object_or_404(Letter.objects.undelivered(), pk=pk)
    try_again(found, timezone.now())
    messages.success(request, _("The letter to %s waits to be posted again.") % found.to)
    return redirect("courses:letters")


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def course_message(request: HttpRequest, key: str) -> HttpResponse:
    """A message to everybody with a place in a course."""
    course = get_object_or_404(courses_run_by(viewer_for(request)), key=key)
    back = reverse("courses:course", args=[course.key])
    return _message_page(request, course.title, back, readers_in(course))


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def meeting_message(request: HttpRequest, key: str) -> HttpResponse:
    """A message to everybody who comes to a meeting: the wet-weather plan, a new meeting point."""
    meeting = get_object_or_404(meetings_run_by(viewer_for(request)), key=key)
    back = reverse("courses:meeting", args=[meeting.key])
    return _message_page(request, meeting.title, back, readers_at(meeting))


def _message_page(request: HttpRequest, about: str, back: str, readers: Iterable[Person]) -> HttpResponse:
    form, by, people = MessageForm(request.POST or None), person_of(request), list(readers)
    context: dict[str, Any] = {"form": form, "about": about, "readers": people, "trail": [(back, about)]}
    if request.method == "POST" and form.is_valid() and "change" not in request.POST:
        facts = {**form.cleaned_data, "by": by, "about": about, "link": full_address(back)}
        if "send" in request.POST and people:
            write_to(people, "message", facts)
            done = ngettext(
                "The message is on its way to %s person.", "The message is on its way to %s people.", len(people)
            )
            messages.success(request, done % len(people))
            return redirect(back)
        context["draft"] = draft_letter("message", {**facts, "person": people[0] if people else by})
    status = 422 if form.errors else 200
    return render(request, "courses/message.html", {**context, "back_url": back}, status=status)
