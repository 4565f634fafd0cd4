"""Papers for a course: setting one, who has sat it, and who can tell what apart."""

import secrets

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from assessments.actions.papers import PaperRefused
from assessments.queries.paper_plan import PaperPlan
from courses.actions.papers import NobodyToSit, set_course_paper
from courses.forms.papers import CoursePaperForm
from courses.models import Course, Role
from courses.queries.cohort import cohort_of
from courses.queries.course_papers import course_paper as paper_of_course
from courses.queries.course_papers import pairs_offered, paper_proposed
from courses.queries.visible import courses_run_by

from .access import for_roles, person_of, viewer_for

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def course_paper_new(request: HttpRequest, key: str) -> HttpResponse:
    """Set a paper for everybody who has a place in the course."""
    course, now = _run_by_viewer(request, key), timezone.now()
    form = CoursePaperForm(request.POST or None, pairs=pairs_offered(course), initial=paper_proposed(course, now))
    if request.method == "POST" and form.is_valid():
        plan = PaperPlan(standard=course.standard, **form.cleaned_data)
        try:
            paper = set_course_paper(course, plan, by=person_of(request), seed=secrets.randbits(62), now=now)
        except NobodyToSit:
            form.add_error(None, _("Nobody has a place in this course yet: enrol people first."))
        except PaperRefused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
        else:
            messages.success(request, _("The paper is set for everybody who has a place."))
            return redirect("courses:course_paper", course.key, paper.key)
    url = reverse("courses:course", args=[key])
    context = {"form": form, "title": _("Set a paper"), "label": _("Set this paper"), "back_url": url}
    note = _("Everybody gets questions of their own, drawn from specimens that they have not seen.")
    return render(request, "courses/form.html", {**context, "intro": note, "trail": _trail(course)})


@require_safe
@for_roles(*STAFF)
def course_paper(request: HttpRequest, key: str, paper_key: str) -> HttpResponse:
    """Who has sat a paper, and who has not; no results."""
    course = _run_by_viewer(request, key)
    paper = get_object_or_404(course.papers.select_related("standard"), key=paper_key)
    page = paper_of_course(paper, timezone.now())
    return render(request, "courses/course_paper.html", {"page": page, "course": course, "trail": _trail(course)})


@require_safe
@for_roles(*STAFF)
def cohort(request: HttpRequest, key: str) -> HttpResponse:
    """People against pairs: who can tell what apart."""
    course = _run_by_viewer(request, key)
    found = cohort_of(course, timezone.now())
    return render(request, "courses/cohort.html", {"cohort": found, "course": course, "trail": _trail(course)})


def _run_by_viewer(request: HttpRequest, key: str) -> Course:
    found: Course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    return found


def _trail(course: Course) -> list[tuple[str, str]]:
    courses = (reverse("courses:courses"), _("Courses"))
    return [courses, (reverse("courses:course", args=[course.key]), course.title)]
