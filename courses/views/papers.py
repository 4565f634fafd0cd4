"""Papers for a course: setting one, and who has sat it."""

import secrets
from collections.abc import Mapping

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from assessments.actions.papers import BankTooSmall, PaperRefused
from assessments.forms.papers import LOOK, PlanForm, new_example
from assessments.queries.papers import pairs_to_ask, standards_to_ask
from assessments.queries.setting import Setting, setting_of
from courses.actions.papers import NobodyToSit, look_at_course_paper, set_course_paper
from courses.models import Course, Role
from courses.queries.course_papers import course_paper as paper_of_course
from courses.queries.course_papers import paper_proposed
from courses.queries.incidents import misses_by_pair
from courses.queries.visible import courses_run_by

from .access import for_roles, person_of, viewer_for

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def course_paper_new(request: HttpRequest, key: str) -> HttpResponse:
    """Set a paper for everybody who has a place in the course."""
    course, now = _run_by_viewer(request, key), timezone.now()
    standards, taught = standards_to_ask(course.standard_id), paper_proposed(course, now)
    pairs = pairs_to_ask(standards)
    form = PlanForm(
        request.POST or None,
        standards=standards,
        pairs=pairs,
        pairs_help=_help_for(taught),
        initial={**taught, **new_example()},
    )

    setting: Setting | None = None
    status = 422 if form.is_bound else 200
    if form.is_valid():
        plan, by = form.plan, person_of(request)
        try:
            if request.POST.get("step") == LOOK:
                setting, status = look_at_course_paper(course, plan, by=by, seed=form.seed, now=now), 200
            else:
                paper = set_course_paper(course, plan, by=by, seed=secrets.randbits(62), now=now)
                messages.success(request, _("The paper is set for everybody who has a place."))
                return redirect("courses:course_paper", course.key, paper.key)
        except NobodyToSit:
            form.refuse([_("Nobody has a place in this course yet: enrol people first.")])
        except BankTooSmall as refusal:
            form.refuse(refusal.sentences)
            setting = setting_of(plan, refusal.outlook)
        except PaperRefused as refusal:
            form.refuse(refusal.sentences)
    found = {"form": form, "setting": setting, "offers": form.offers_in(setting)}
    return _page(request, course, {**found, "misses": misses_by_pair(pairs, now)}, status)


def _page(request: HttpRequest, course: Course, context: dict[str, object], status: int) -> HttpResponse:
    note = _("Everybody gets questions of their own, drawn from specimens that they have not seen.")
    titles = {"title": _("Set a paper"), "label": _("Set this paper"), "intro": note, "trail": _trail(course)}
    back = {"course": course, "back_url": reverse("courses:course", args=[course.key])}
    return render(request, "courses/paper_form.html", {**titles, **back, **context}, status=status)


def _help_for(taught: Mapping[str, object]) -> str:
    if taught["pairs"]:
        return _("Ticked already: what the meetings have taught so far.")
    return _("No meeting of this course has taught a pair yet: tick those that you want to ask about.")


@require_safe
@for_roles(*STAFF)
def course_paper(request: HttpRequest, key: str, paper_key: str) -> HttpResponse:
    """Who has sat a paper, and who has not; no results."""
    course = _run_by_viewer(request, key)
    paper = get_object_or_404(course.papers.select_related("standard"), key=paper_key)
    page = paper_of_course(paper, timezone.now())
    return render(request, "courses/course_paper.html", {"page": page, "course": course, "trail": _trail(course)})


def _run_by_viewer(request: HttpRequest, key: str) -> Course:
    found: Course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    return found


def _trail(course: Course) -> list[tuple[str, str]]:
    courses = (reverse("courses:courses"), _("Courses"))
    return [courses, (reverse("courses:course", args=[course.key]), course.title)]
