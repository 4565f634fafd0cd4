"""What the answers of a course show those who teach it: who can do what, confusions, photographs, who needs what."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from assessments.actions.handing_in import note_results_seen, settle_overdue
from assessments.actions.previews import note_previews
from courses.actions.second_looks import ask_again
from courses.models import Course, Role
from courses.queries.calibration import calibration_page, calibration_table
from courses.queries.cohort import cohort_of
from courses.queries.confusion import confusion_page, confusion_table
from courses.queries.course_items import item_to_look_at, items_page, items_table
from courses.queries.next_week import next_week as needs_of
from courses.queries.next_week import next_week_table
from courses.queries.tables import cohort_table
from courses.queries.visible import courses_run_by
from species.actions.second_looks import NothingToLookAt, NotInTheBank

from .access import for_roles, person_of, viewer_for
from .files import csv_answer

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def cohort(request: HttpRequest, key: str) -> HttpResponse:
    """People against pairs: who can tell what apart."""
    course = _course_looked_at(request, key)
    return _page(request, "courses/cohort.html", course, cohort_of(course, timezone.now()))


@require_safe
@for_roles(*STAFF)
def cohort_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The same as a table."""
    return _table(request, key, "cohort", lambda course: cohort_table(course, timezone.now()))


@require_safe
@for_roles(*STAFF)
def confusion(request: HttpRequest, key: str) -> HttpResponse:
    """What is taken for what, what somebody was sure and wrong about first, and the answers behind one cell."""
    course = _course_looked_at(request, key)
    page = confusion_page(course, request.GET.get("shown", ""), request.GET.get("said", ""))
    return _page(request, "courses/confusion.html", course, page)


@require_safe
@for_roles(*STAFF)
def confusion_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The map as a table."""
    return _table(request, key, "confusion", lambda course: confusion_table(confusion_page(course)))


@require_safe
@for_roles(*STAFF)
def calibration(request: HttpRequest, key: str) -> HttpResponse:
    """How sure people are, and how often right."""
    course = _course_looked_at(request, key)
    return _page(request, "courses/calibration.html", course, calibration_page(course))


@require_safe
@for_roles(*STAFF)
def calibration_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The same as a table."""
    return _table(request, key, "sure", lambda course: calibration_table(calibration_page(course)))


@require_safe
@for_roles(*STAFF)
def items(request: HttpRequest, key: str) -> HttpResponse:
    """The photographs to look at again, and every specimen that was answered."""
    course = _course_looked_at(request, key)
    page = items_page(course)
    note_previews(person_of(request).user, page.pictured, timezone.now())
    return _page(request, "courses/items.html", course, page)


@require_safe
@for_roles(*STAFF)
def items_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The same as a table."""
    return _table(request, key, "photographs", lambda course: items_table(items_page(course)))


@require_POST
@for_roles(*STAFF)
def item_again(request: HttpRequest, key: str, specimen: str) -> HttpResponse:
    """Ask for a second look at a specimen that is flagged."""
    course, now = _course_looked_at(request, key), timezone.now()
    item = item_to_look_at(course, specimen)
    if item is None:
        messages.info(request, _("Nothing speaks against that photograph any more: nothing was asked."))
        return redirect("courses:items", key)
    try:
        made = ask_again(item, by=person_of(request), now=now)
    except NotInTheBank:
        messages.error(request, _("That specimen was taken out of the bank: there is nothing left to name."))
    except NothingToLookAt:
        messages.error(request, _("That specimen has no photograph: add one, and it can be named from it."))
    else:
        asked = _("It waits to be named by somebody else, who is not told its name. No mark changes by that.")
        messages.success(request, asked if made else _("It was asked for already, and nobody has named it since."))
    return redirect("courses:items", key)


@require_safe
@for_roles(*STAFF)
def next_week(request: HttpRequest, key: str) -> HttpResponse:
    """Who needs what next week."""
    course = _course_looked_at(request, key)
    return _page(request, "courses/next_week.html", course, needs_of(course, timezone.now()))


@require_safe
@for_roles(*STAFF)
def next_week_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The same as a table, with everything that is left out on the page."""
    return _table(request, key, "needs", lambda course: next_week_table(needs_of(course, timezone.now())))


def _course_looked_at(request: HttpRequest, key: str) -> Course:
    """The course, whose results count as seen from now on."""
    course: Course = get_object_or_404(courses_run_by(viewer_for(request)).select_related("standard"), key=key)
    now = timezone.now()
    settle_overdue(now)
    note_results_seen(list(course.enrolments.with_a_place().values_list("person__user", flat=True)), now)
    return course


def _page(request: HttpRequest, template: str, course: Course, page: Any) -> HttpResponse:
    trail = [(reverse("courses:courses"), _("Courses")), (reverse("courses:course", args=[course.key]), course.title)]
    return render(request, template, {"page": page, "course": course, "trail": trail})


def _table(request: HttpRequest, key: str, name: str, written: Callable[[Course], bytes]) -> HttpResponse:
    return csv_answer(written(_course_looked_at(request, key)), f"{key}-{name}.csv")
