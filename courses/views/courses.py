"""Courses: list, page, opening a new one, changing one."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.courses import PlacesTaken, keep_course
from courses.forms.courses import CourseForm, EnrolForm, places_taken
from courses.models import Course, Role
from courses.queries.course_page import course_lines, course_page
from courses.queries.visible import courses_run_by, courses_seen_by

from .access import for_people, for_roles, viewer_for


@require_safe
@for_people
def courses(request: HttpRequest) -> HttpResponse:
    """The viewer's own courses; all of them for organisers."""
    lines = course_lines(courses_seen_by(viewer_for(request)), timezone.localdate())
    return render(request, "courses/courses.html", {"lines": lines})


@require_safe
@for_people
def course(request: HttpRequest, key: str) -> HttpResponse:
    """One course: dates, tutors, meetings; for those who run it also people and papers."""
    viewer = viewer_for(request)
    seen = courses_seen_by(viewer).select_related("standard")
    found = get_object_or_404(seen, key=key)
    page = course_page(found, viewer, timezone.now(), timezone.localdate())
    form = EnrolForm(course=found) if page.is_run and page.when != "over" else None
    context = {"page": page, "course": found, "form": form, "trail": _trail()}
    return render(request, "courses/course.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def course_new(request: HttpRequest) -> HttpResponse:
    """Open a course."""
    return _form_page(request, Course(), title=_("A new course"), back_url=reverse("courses:courses"), trail=_trail())


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def course_edit(request: HttpRequest, key: str) -> HttpResponse:
    """Change a course: organisers any, tutors their own."""
    found = get_object_or_404(courses_run_by(viewer_for(request)), key=key)
    url = reverse("courses:course", args=[key])
    trail = [*_trail(), (url, found.title)]
    return _form_page(request, found, title=_("Change the course"), back_url=url, trail=trail)


def _form_page(request: HttpRequest, row: Course, **context: Any) -> HttpResponse:
    form = CourseForm(request.POST or None, instance=row, today=timezone.localdate())
    if request.method == "POST" and form.is_valid():
        try:
            kept = keep_course(form.save(commit=False), tutors=form.cleaned_data["tutors"], now=timezone.now())
        except PlacesTaken as refusal:
            form.add_error("capacity", places_taken(refusal.taken))
        else:
            messages.success(request, _("The course is saved."))
            return redirect("courses:course", kept.key)
    return render(request, "courses/form.html", {"form": form, **context})


def _trail() -> list[tuple[str, str]]:
    return [(reverse("courses:courses"), _("Courses"))]
