"""What the bank lacks for the papers of a course, counting only what nobody in it has seen."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from assessments.documents.wanted import draw_wanted
from assessments.forms.wanted import NumbersForm
from assessments.queries.people import name_of
from assessments.queries.sentences.wanted import wanted_words
from assessments.queries.wanted import MOST_PAPERS, WantedPage, Wish, wanted_page
from assessments.queries.wanted_exchange import sheet_words, wanted_csv
from courses.models import Course, Role
from courses.queries.visible import courses_run_by
from courses.queries.wanted import users_with_a_place

from .access import for_roles, person_of, viewer_for

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def course_wanted(request: HttpRequest, key: str) -> HttpResponse:
    """The list; unless something else is said, a paper for each person with a place."""
    course = _run_by_viewer(request, key)
    form, page = _asked(request, course)
    courses = (reverse("courses:courses"), _("Courses"))
    trail = [courses, (reverse("courses:course", args=[course.key]), course.title)]
    context: dict[str, Any] = {"form": form, "page": page, "course": course, "trail": trail}
    if page is not None:
        context["words"] = wanted_words(page)
    return render(request, "courses/wanted.html", context, status=422 if page is None else 200)


@require_safe
@for_roles(*STAFF)
def course_wanted_sheet(request: HttpRequest, key: str) -> HttpResponse:
    """The sheet to take along, as PDF."""
    _form, page = _asked(request, _run_by_viewer(request, key))
    if page is None:
        return course_wanted(request, key)
    sheet = draw_wanted(sheet_words(page, name_of(person_of(request).user)))
    return HttpResponse(sheet, "application/pdf", headers={"Content-Disposition": 'inline; filename="wanted.pdf"'})


@require_safe
@for_roles(*STAFF)
def course_wanted_table(request: HttpRequest, key: str) -> HttpResponse:
    """The list as CSV."""
    _form, page = _asked(request, _run_by_viewer(request, key))
    if page is None:
        return course_wanted(request, key)
    headers = {"Content-Disposition": 'attachment; filename="wanted.csv"'}
    return HttpResponse(wanted_csv(page), "text/csv; charset=utf-8", headers=headers)


def _run_by_viewer(request: HttpRequest, key: str) -> Course:
    found: Course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    return found


def _asked(request: HttpRequest, course: Course) -> tuple[NumbersForm, WantedPage | None]:
    """What was asked for, and the list; no list where it cannot be asked for so."""
    people = users_with_a_place(course)
    form = NumbersForm.asked(request.GET, papers=min(max(len(people), 1), MOST_PAPERS))
    if not form.is_valid():
        return form, None
    wish = Wish(course.standard, people=people, **form.cleaned_data)
    return form, wanted_page(wish, timezone.localdate())
