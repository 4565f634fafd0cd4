"""Who leads: one walk, a proposal for all, steps on the way, and leave to lead."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.leading import (
    NotOpen,
    OwnStep,
    confirm_step,
    end_leave,
    grant_leave,
    name_leaders,
    say_availability,
)
from courses.documents.sheet import draw_sheet
from courses.forms.board import BoardForm
from courses.forms.leading import GrantForm, StepForm
from courses.models import LeadingGrant, Meeting, Role
from courses.queries.board import board_choices
from courses.queries.own_leading import leading_record, walks_open_to
from courses.queries.readiness_tables import readiness_sheet, readiness_table
from courses.queries.walk_proposal import Proposed, proposal
from courses.queries.walks import walk_page

from .access import for_people, for_roles, person_of
from .files import csv_answer, pdf_answer

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def walk(request: HttpRequest, key: str) -> HttpResponse:
    """What can be met on one walk, who could lead it, and what the others lack."""
    rows = Meeting.objects.walks().select_related("course", "site__locality", "leader")
    page = walk_page(get_object_or_404(rows, key=key), timezone.now())
    trail = [(reverse("courses:readiness"), _("Readiness")), (reverse("courses:meeting", args=[key]), page.walk.title)]
    return render(request, "courses/readiness/walk.html", {"page": page, "trail": trail})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def leaders_proposed(request: HttpRequest) -> HttpResponse:
    """A leader for every open walk of the season; named only for the walks that are ticked."""
    now = timezone.now()
    lines = proposal(now)
    if request.method == "POST":
        _name_those_ticked(request, lines, now)
        return redirect("courses:leaders_proposed")
    trail = [(reverse("courses:readiness"), _("Readiness"))]
    context = {"lines": lines, "is_anybody": any(line.person for line in lines), "trail": trail}
    return render(request, "courses/readiness/proposal.html", context)


def _name_those_ticked(request: HttpRequest, lines: Sequence[Proposed], now: datetime) -> None:
    """Name whom the organiser saw beside each tick; where somebody else is proposed by now, nobody."""
    ticked = set(request.POST.getlist("walk"))
    chosen = {line.walk.key: line.person for line in lines if line.person and line.tick in ticked}
    if not ticked:
        messages.info(request, _("No walk was ticked, so nobody was named."))
        return
    try:
        if len(chosen) < len(ticked):
            raise NotOpen
        count = name_leaders(chosen, now)
    except NotOpen:
        messages.error(request, _("What is proposed has changed meanwhile, so nobody was named. Look again."))
    else:
        done = ngettext("%s leader is named and written to.", "%s leaders are named and written to.", count)
        messages.success(request, done % count)


@require_safe
@for_people
def my_leading(request: HttpRequest) -> HttpResponse:
    """What the viewer still lacks to lead, and the walks to come: whether they can."""
    person, now = person_of(request), timezone.now()
    context = {"page": leading_record(person, now), "walks": walks_open_to(person, now)}
    return render(request, "courses/readiness/mine.html", context)


@require_POST
@for_people
def availability(request: HttpRequest, key: str) -> HttpResponse:
    """Say whether one can come to a walk."""
    found = get_object_or_404(Meeting.objects.walks().coming(timezone.now()), key=key)
    if request.POST.get("can_come") not in ("yes", "no"):
        raise Http404
    say_availability(person_of(request), found, request.POST["can_come"] == "yes", timezone.now())
    messages.success(request, _("Noted."))
    return redirect(f"{reverse('courses:my_leading')}#walk-{found.key}")


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def step_new(request: HttpRequest) -> HttpResponse:
    """Confirm a step that somebody took on the way to leading."""
    today = timezone.localdate()
    form = StepForm(_posted(request), today=today, initial={"person": request.GET.get("person")})
    if request.method == "POST" and form.is_valid():
        try:
            confirm_step(form.save(commit=False), by=person_of(request), today=today)
        except OwnStep:
            form.add_error("person", _("Nobody confirms a step of their own: ask somebody else."))
        else:
            messages.success(request, _("It is written down."))
            return redirect("courses:readiness")
    return _form_page(request, form, _("A step on the way to leading"))


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def grant_new(request: HttpRequest) -> HttpResponse:
    """Give somebody leave to lead alone."""
    initial = {"person": request.GET.get("person"), "valid_from": timezone.localdate()}
    form = GrantForm(_posted(request), initial=initial)
    if request.method == "POST" and form.is_valid():
        try:
            grant_leave(form.save(commit=False), by=person_of(request))
        except OwnStep:
            form.add_error("person", _("Nobody gives leave to themselves: ask another organiser."))
        else:
            messages.success(request, _("Leave to lead is given."))
            return redirect("courses:readiness")
    return _form_page(request, form, _("Leave to lead alone"))


@require_POST
@for_roles(Role.ORGANISER)
def grant_end(request: HttpRequest, pk: int) -> HttpResponse:
    """Take leave to lead back."""
    found = get_object_or_404(LeadingGrant.objects.select_related("person"), pk=pk)
    end_leave(found, timezone.localdate())
    messages.success(request, _("It no longer holds, from today on."))
    return redirect("courses:person", found.person.uuid)


@require_safe
@for_roles(*STAFF)
def readiness_csv(request: HttpRequest) -> HttpResponse:
    """The board as a table, with the filters of the address."""
    ask = BoardForm(request.GET, choices=board_choices()).ask
    return csv_answer(readiness_table(ask, timezone.now()), "readiness.csv")


@require_safe
@for_roles(*STAFF)
def readiness_pdf(request: HttpRequest) -> HttpResponse:
    """The board on paper, as an insurer asks for it, with the filters of the address."""
    ask = BoardForm(request.GET, choices=board_choices()).ask
    return pdf_answer(draw_sheet(readiness_sheet(ask, timezone.now())), "readiness.pdf")


def _posted(request: HttpRequest) -> Any:
    return request.POST if request.method == "POST" else None


def _form_page(request: HttpRequest, form: Any, title: str) -> HttpResponse:
    back = reverse("courses:readiness")
    context = {"form": form, "title": title, "back_url": back, "trail": [(back, _("Readiness"))]}
    return render(request, "courses/form.html", context, status=422 if form.errors else 200)
