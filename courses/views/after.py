"""Looking back: what was not taught or tested, per course and year, and a note of thanks for whoever owns the land."""

from datetime import date

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from courses.documents.sheet import draw_sheet
from courses.models import Role, Site
from courses.queries.after import after_course, after_table, courses_of_year, thanks_for
from courses.queries.visible import courses_run_by

from .access import for_roles, viewer_for
from .files import csv_answer, pdf_answer

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def course_after(request: HttpRequest, key: str) -> HttpResponse:
    """What a course did not teach and did not test, and why."""
    course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    page = after_course(course, timezone.now())
    trail = [(reverse("courses:course", args=[key]), course.title)]
    return render(request, "courses/after.html", {"pages": [page], "course": course, "trail": trail})


@require_safe
@for_roles(*STAFF)
def course_after_table(request: HttpRequest, key: str) -> HttpResponse:
    """The same as a table."""
    course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    return csv_answer(after_table([after_course(course, timezone.now())]), f"{key}-not-done.csv")


@require_safe
@for_roles(Role.ORGANISER)
def year(request: HttpRequest, number: int) -> HttpResponse:
    """All courses that ended in a year."""
    now = timezone.now()
    pages = [after_course(each, now) for each in courses_of_year(_year(number))]
    sites = Site.objects.filter(meetings__starts_at__year=number).select_related("locality").distinct()
    trail = [(reverse("courses:courses"), _("Courses"))]
    return render(request, "courses/after.html", {"pages": pages, "year": number, "sites": sites, "trail": trail})


@require_safe
@for_roles(Role.ORGANISER)
def year_table(request: HttpRequest, number: int) -> HttpResponse:
    """The same as a table."""
    now = timezone.now()
    pages = [after_course(each, now) for each in courses_of_year(_year(number))]
    return csv_answer(after_table(pages), f"{number}-not-done.csv")


@require_safe
@for_roles(*STAFF)
def thanks(request: HttpRequest, pk: int, number: int) -> HttpResponse:
    """A note for whoever owns the land, ready to be signed."""
    site = get_object_or_404(Site.objects.select_related("locality"), pk=pk)
    words = thanks_for(site, _year(number), timezone.now())
    return pdf_answer(draw_sheet(words), f"thanks-{pk}-{number}.pdf")


def _year(number: int) -> int:
    if not date.min.year <= number <= 9998:
        raise Http404(_("There is no such year."))
    return number
