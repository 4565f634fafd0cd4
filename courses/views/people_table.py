"""People from a table: a dry run that names every problem, then all of them at once. And tables to take away."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_safe

from assessments.actions.handing_in import note_results_seen, settle_overdue
from assessments.documents.tables import written_table
from courses.actions.people import AddressTaken
from courses.actions.people_table import NotClean, take_in_table
from courses.documents.table_file import BadTable
from courses.forms.people_table import PeopleTableForm
from courses.models import Meeting, Role
from courses.queries import tables
from courses.queries.course_results import course_results_table
from courses.queries.people_table import bad_table_sentence, people_of, problem_sentence
from courses.queries.visible import courses_run_by, courses_seen_by, meetings_run_by, meetings_seen_by, people_seen_by
from courses.rules.people_table import COLUMNS

from .access import for_people, for_roles, person_of, viewer_for
from .files import csv_answer

STAFF = (Role.ORGANISER, Role.TUTOR)
MOST_PROBLEMS = 200


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def people_import(request: HttpRequest) -> HttpResponse:
    """Look at a table, then take its people in."""
    form = PeopleTableForm(request.POST or None, request.FILES or None)
    trail = [(reverse("courses:people"), _("People"))]
    context = {"form": form, "columns": COLUMNS, "trail": trail}
    if request.method != "POST" or not form.is_valid():
        return render(request, "courses/people_import.html", context, status=422 if form.errors else 200)
    try:
        read = people_of(form.cleaned_data["table"].read())
        if "take_in" in request.POST:
            done = take_in_table(read, by=person_of(request), now=timezone.now())
            came = ngettext("%s person came in.", "%s people came in.", done.people) % done.people
            messages.success(request, came)
            return redirect("courses:people")
    except BadTable as error:
        form.add_error("table", bad_table_sentence(error))
        return render(request, "courses/people_import.html", context, status=422)
    except NotClean:
        messages.error(request, _("Nothing was done: mend what is named below and send the file again."))
    except AddressTaken:
        messages.error(request, _("Somebody in the table came in meanwhile: nothing was done. Look at it again."))
    problems = [problem_sentence(each) for each in read.problems[:MOST_PROBLEMS]]
    return render(request, "courses/people_import.html", {**context, "read": read, "problems": problems})


@require_safe
@for_roles(Role.ORGANISER)
def people_template(_request: HttpRequest) -> HttpResponse:
    """An empty table with the right headings."""
    return csv_answer(written_table(COLUMNS, []), "people.csv")


@require_safe
@for_roles(*STAFF)
def people_csv(request: HttpRequest) -> HttpResponse:
    """The people whom the viewer sees."""
    found = people_seen_by(viewer_for(request)).here()
    return csv_answer(tables.people_table(found, timezone.localdate()), "people.csv")


@require_safe
@for_people
def courses_csv(request: HttpRequest) -> HttpResponse:
    """The courses that the viewer sees."""
    return csv_answer(tables.courses_table(courses_seen_by(viewer_for(request)), timezone.localdate()), "courses.csv")


@require_safe
@for_people
def meetings_csv(request: HttpRequest) -> HttpResponse:
    """The meetings that the viewer sees."""
    return csv_answer(tables.meetings_table(meetings_seen_by(viewer_for(request))), "meetings.csv")


@require_safe
@for_roles(*STAFF)
def places_csv(request: HttpRequest, key: str) -> HttpResponse:
    """Places and turns in one course."""
    course = get_object_or_404(courses_run_by(viewer_for(request)), key=key)
    return csv_answer(tables.places_table(course), f"{key}-places.csv")


@require_safe
@for_people
def register_csv(request: HttpRequest, key: str) -> HttpResponse:
    """The register of one meeting."""
    meeting: Meeting = get_object_or_404(meetings_run_by(viewer_for(request)), key=key)
    return csv_answer(tables.register_table(meeting, timezone.now()), "register.csv")


@require_safe
@for_roles(*STAFF)
def results_csv(request: HttpRequest, key: str) -> HttpResponse:
    """What everybody in one course answered, and what it counts as; seen results can no longer be annulled."""
    course, now = get_object_or_404(courses_run_by(viewer_for(request)), key=key), timezone.now()
    settle_overdue(now)
    table, shown = course_results_table(course, now)
    note_results_seen(shown, now)
    return csv_answer(table, f"{key}-results.csv")


@require_safe
@for_roles(*STAFF)
def sites_csv(request: HttpRequest) -> HttpResponse:
    """The sites with how their permissions stand."""
    return csv_answer(tables.sites_table(timezone.now(), timezone.localdate()), "sites.csv")
