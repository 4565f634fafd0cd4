"""Pages for people without an account: courses that are to come, one course, and asking something."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.enquiries import ask
from courses.forms.enquiries import EnquiryForm
from courses.queries.public_courses import public_course, public_courses

from .limits import asked_too_often, too_often

QUESTIONS_AN_HOUR, HOUR = 5, 3600


@require_safe
def learn(request: HttpRequest) -> HttpResponse:
    """The courses that anybody may ask for."""
    return render(request, "courses/learn.html", {"lines": public_courses(timezone.localdate())})


@require_http_methods(["GET", "HEAD", "POST"])
def learn_course(request: HttpRequest, key: str) -> HttpResponse:
    """One course, and a question about it."""
    found = public_course(key, timezone.localdate())
    if found is None:
        raise Http404
    trail = [(reverse("courses:learn"), _("Courses"))]
    return _asking(request, "courses/learn_course.html", {"page": found, "trail": trail}, found.course)


def _asking(request: HttpRequest, template: str, context: dict[str, Any], course: Any) -> HttpResponse:
    form = EnquiryForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        if asked_too_often(request, "enquiry", QUESTIONS_AN_HOUR, HOUR):
            return too_often(request, HOUR)
        ask(course, **form.cleaned_data, now=timezone.now())
        messages.success(request, _("Thank you. Somebody of the school answers by e-mail."))
        return redirect(request.path)
    return render(request, template, {**context, "form": form}, status=422 if form.errors else 200)
