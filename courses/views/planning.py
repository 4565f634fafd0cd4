"""Planning a course: a draft of its meetings, the season check, what testing still needs, last year's again."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.courses import keep_skipped_days
from courses.actions.planning import NothingDrafted, Times, copy_course, make_meetings
from courses.forms.planning import CopyForm, DraftForm
from courses.models import Course, Role
from courses.queries.course_plan import course_needs, draft_of, season_check
from courses.queries.visible import courses_run_by

from .access import for_roles, viewer_for

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def course_draft(request: HttpRequest, key: str) -> HttpResponse:
    """Meetings for a weekday over some weeks: looked at first, and made on a second press."""
    course = _course(request, key)
    initial = {"weekday": course.starts_on.weekday(), "weeks": 8, "skipped": "\n".join(course.skipped_days)}
    form = DraftForm(request.POST if request.method == "POST" else None, course=course, initial=initial)
    context: dict[str, Any] = {"form": form, "course": course, "trail": _trail(course)}
    if request.method == "POST" and form.is_valid():
        values = form.cleaned_data
        keep_skipped_days(course, values["skipped"])
        drafted = draft_of(course, values["weekday"], values["weeks"], values["site"])
        if "make" in request.POST:
            return _make(request, course, drafted, form)
        context["drafted"] = drafted
    return render(request, "courses/draft.html", context, status=422 if form.errors else 200)


def _make(request: HttpRequest, course: Course, drafted: list[Any], form: DraftForm) -> HttpResponse:
    values = form.cleaned_data
    times = Times(values["begins"], values["ends"], values["site"], values["place"], values["leader"])
    try:
        made = make_meetings(course, [(each.day, each.module) for each in drafted], times, timezone.now())
    except NothingDrafted:
        messages.error(request, _("There is no day left for a meeting: nothing was made."))
    else:
        done = ngettext("%s meeting is planned.", "%s meetings are planned.", len(made)) % len(made)
        messages.success(request, done + " " + _("Change each as you like."))
    return redirect("courses:course_season", course.key)


@require_safe
@for_roles(*STAFF)
def course_season(request: HttpRequest, key: str) -> HttpResponse:
    """The plan against the season, and what everybody still needs by the end."""
    course, now = _course(request, key), timezone.now()
    context = {"course": course, "lines": season_check(course, now), "needs": course_needs(course, now)}
    return render(request, "courses/season.html", {**context, "trail": _trail(course)})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def course_copy(request: HttpRequest, key: str) -> HttpResponse:
    """Last year's course on new days; the season check is run on it at once."""
    course = _course(request, key)
    form = CopyForm(
        request.POST if request.method == "POST" else None, today=timezone.localdate(), initial={"title": course.title}
    )
    if request.method == "POST" and form.is_valid():
        made = copy_course(course, **form.cleaned_data, now=timezone.now())
        messages.success(request, _("The course is copied. This is what its new weeks show."))
        return redirect("courses:course_season", made.key)
    intro = _("Meetings, plans and texts come along; people, papers and leaders do not.")
    context = {"form": form, "title": _("Run it again"), "label": _("Copy it"), "intro": intro}
    back = {"back_url": reverse("courses:course", args=[key]), "trail": _trail(course)}
    return render(request, "courses/form.html", {**context, **back}, status=422 if form.errors else 200)


def _course(request: HttpRequest, key: str) -> Course:
    return get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)


def _trail(course: Course) -> list[tuple[str, str]]:
    return [(reverse("courses:courses"), _("Courses")), (reverse("courses:course", args=[course.key]), course.title)]
