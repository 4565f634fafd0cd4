"""Meetings: list, page, planning and moving, cancelling and restoring."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.meetings import (
    MeetingOver,
    NoWetPlan,
    cancel_meeting,
    change_to_wet_plan,
    keep_meeting,
    note_taught,
    restore_meeting,
)
from courses.forms.meetings import MeetingForm
from courses.models import Meeting, Role
from courses.queries.meeting_page import meeting_page
from courses.queries.meetings import meeting_lines, proposal_for
from courses.queries.visible import courses_run_by, meetings_planned_by, meetings_run_by, meetings_seen_by

from .access import for_people, for_roles, refused, viewer_for


@require_safe
@for_people
def meetings(request: HttpRequest) -> HttpResponse:
    """The meetings that the viewer has to do with: those to come, then those that are over."""
    now = timezone.now()
    lines = meeting_lines(meetings_seen_by(viewer_for(request)), now)
    coming = [line for line in lines if line.meeting.ends_at > now]
    over = [line for line in reversed(lines) if line.meeting.ends_at <= now]
    return render(request, "courses/meetings.html", {"coming": coming, "over": over})


@require_safe
@for_people
def meeting(request: HttpRequest, key: str) -> HttpResponse:
    """One meeting: when, where, how to get there, what is taught and shows, whom to call."""
    viewer = viewer_for(request)
    seen = meetings_seen_by(viewer).select_related("course", "site__locality", "leader", "spot_test")
    found = get_object_or_404(seen, key=key)
    page = meeting_page(found, viewer, timezone.now())
    return render(request, "courses/meeting.html", {"page": page, "meeting": found, "trail": _trail(found)})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def meeting_new(request: HttpRequest) -> HttpResponse:
    """Plan a meeting of the course named in the address; without one, a walk that stands alone."""
    key, viewer = request.GET.get("course"), viewer_for(request)
    if key is None and not viewer.is_organiser:
        return refused(request, _("Only organisers plan walks outside a course: open the page of your course first."))
    course = get_object_or_404(courses_run_by(viewer), key=key) if key else None
    initial = proposal_for(course) if course else None
    row = Meeting(course=course)
    back = reverse("courses:course", args=[course.key]) if course else reverse("courses:meetings")
    return _form_page(request, row, initial, title=_("A new meeting"), back_url=back, trail=_trail(row))


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def meeting_edit(request: HttpRequest, key: str) -> HttpResponse:
    """Move or replan a meeting; everybody with a place hears of a new time or place."""
    planned = meetings_planned_by(viewer_for(request)).select_related("course")
    found = get_object_or_404(planned.prefetch_related("modules_in_order", "assistants"), key=key)
    url = reverse("courses:meeting", args=[key])
    trail = [*_trail(found), (url, found.title)]
    return _form_page(request, found, None, title=_("Change the meeting"), back_url=url, trail=trail)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def meeting_cancel(request: HttpRequest, key: str) -> HttpResponse:
    """Ask once more, then cancel; everybody with a place is written to."""
    found = get_object_or_404(meetings_planned_by(viewer_for(request)).select_related("course"), key=key)
    url = reverse("courses:meeting", args=[key])
    if request.method != "POST":
        trail = [*_trail(found), (url, found.title)]
        return render(request, "courses/meeting_cancel.html", {"meeting": found, "back_url": url, "trail": trail})
    try:
        cancel_meeting(found, now=timezone.now(), because=request.POST.get("because", ""))
    except MeetingOver:
        messages.error(request, _("This meeting has begun: it can no longer be cancelled."))
    else:
        messages.success(request, _("The meeting is cancelled. Everybody who has a place is written to."))
    return redirect(url)


@require_POST
@for_people
def meeting_taught(request: HttpRequest, key: str) -> HttpResponse:
    """What of the plan was taught, by whoever keeps the register."""
    found = get_object_or_404(meetings_run_by(viewer_for(request)), key=key)
    left_out = {
        row.module_id: request.POST.get(f"why_{row.module_id}", "")
        for row in found.modules_in_order.all()
        if request.POST.get(f"left_out_{row.module_id}")
    }
    note_taught(found, left_out)
    messages.success(request, _("Kept: what was taught, and what was left out."))
    return redirect("courses:meeting", key)


@require_POST
@for_people
def meeting_wet(request: HttpRequest, key: str) -> HttpResponse:
    """Change to the plan for bad weather, by whoever keeps the register."""
    found = get_object_or_404(meetings_run_by(viewer_for(request)), key=key)
    try:
        change_to_wet_plan(found, now=timezone.now())
    except MeetingOver:
        messages.error(request, _("This meeting is over or cancelled: nothing was changed."))
    except NoWetPlan:
        messages.error(request, _("Nothing is planned for bad weather: change the meeting, or write to everybody."))
    else:
        messages.success(request, _("The plan for bad weather holds. Everybody who has a place is written to."))
    return redirect("courses:meeting_day", key)


@require_POST
@for_roles(Role.ORGANISER, Role.TUTOR)
def meeting_restore(request: HttpRequest, key: str) -> HttpResponse:
    """Hold a cancelled meeting after all."""
    found = get_object_or_404(meetings_planned_by(viewer_for(request)), key=key)
    restore_meeting(found, now=timezone.now())
    messages.success(request, _("The meeting takes place after all. Everybody who has a place is written to."))
    return redirect("courses:meeting", key)


def _form_page(request: HttpRequest, row: Meeting, initial: dict[str, Any] | None, **context: Any) -> HttpResponse:
    form = MeetingForm(request.POST or None, instance=row, initial=initial, today=timezone.localdate())
    if request.method == "POST" and form.is_valid():
        values = form.cleaned_data
        kept = keep_meeting(
            form.save(commit=False),
            modules=values["chosen_modules"],
            assistants=values["chosen_assistants"],
            now=timezone.now(),
        )
        messages.success(request, _("The meeting is saved."))
        return redirect("courses:meeting", kept.key)
    return render(request, "courses/form.html", {"form": form, **context})


def _trail(meeting: Meeting) -> list[tuple[str, str]]:
    if meeting.course is None:
        return [(reverse("courses:meetings"), _("Meetings"))]
    return [
        (reverse("courses:courses"), _("Courses")),
        (reverse("courses:course", args=[meeting.course.key]), meeting.course.title),
    ]
