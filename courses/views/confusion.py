"""What the people of a course take for what."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from assessments.documents.tables import written_table
from courses.models import Course, Role
from courses.queries.confusion import ConfusionPage, confusion_page
from courses.queries.visible import courses_run_by

from .access import for_roles, viewer_for
from .files import csv_answer

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def confusion(request: HttpRequest, key: str) -> HttpResponse:
    """The map, how sure people were, which photographs to look at again, and the answers behind one cell."""
    course = _course(request, key)
    page = confusion_page(course, request.GET.get("shown", ""), request.GET.get("said", ""))
    trail = [(reverse("courses:courses"), _("Courses")), (reverse("courses:course", args=[key]), course.title)]
    return render(request, "courses/confusion.html", {"page": page, "course": course, "trail": trail})


@require_safe
@for_roles(*STAFF)
def confusion_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The map as a table: a row for each plant shown, a column for each name said."""
    return csv_answer(_table(confusion_page(_course(request, key))), f"{key}-confusion.csv")


def _table(page: ConfusionPage) -> bytes:
    columns = [_("shown"), _("dangerous"), *(name for _key, name in page.columns), _("would be gathered")]
    rows = (
        [
            row.name,
            _("yes") if row.is_dangerous else _("no"),
            *(cell[1] for cell in row.cells),
            sum(cell[2] for cell in row.cells),
        ]
        for row in page.rows
    )
    return written_table(columns, rows)


def _course(request: HttpRequest, key: str) -> Course:
    return get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
