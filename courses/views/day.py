"""The day of a meeting: one page for the telephone, the same as a printed pack, and handing it over."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.health import open_notes
from courses.actions.stand_ins import CannotStandIn, name_stand_in, take_back
from courses.documents.sheet import draw_sheet
from courses.forms.stand_ins import StandInForm
from courses.models import Meeting, Role, StandIn
from courses.queries.day_pack import pack_words
from courses.queries.day_page import DayPage, day_page, placed_in
from courses.queries.health import meetings_with_notes_for
from courses.queries.visible import meetings_planned_by, meetings_run_by

from .access import for_people, for_roles, person_of, viewer_for
from .files import pdf_answer


@never_cache
@require_safe
@for_people
def meeting_day(request: HttpRequest, key: str) -> HttpResponse:
    """Access, who comes, who must not eat what, plan, dangerous plants, the emergency card."""
    found = _meeting(request, key)
    trail = [(reverse("courses:meeting", args=[key]), found.title)]
    context = {"page": _page(request, found), "meeting": found, "trail": trail}
    return render(request, "courses/day.html", context)


@never_cache
@require_safe
@for_people
def meeting_pack(request: HttpRequest, key: str) -> HttpResponse:
    """The same on paper."""
    return pdf_answer(draw_sheet(pack_words(_page(request, _meeting(request, key)))), "meeting.pdf")


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def hand_over(request: HttpRequest, key: str) -> HttpResponse:
    """Name a stand-in, also on the same morning."""
    found = get_object_or_404(meetings_planned_by(viewer_for(request)), key=key)
    now, back = timezone.now(), reverse("courses:meeting", args=[key])
    form = StandInForm(request.POST if request.method == "POST" else None, today=timezone.localdate())
    if request.method == "POST" and form.is_valid():
        try:
            name_stand_in(found, **form.cleaned_data, by=person_of(request), now=now)
        except CannotStandIn:
            form.add_error("person", _("The meeting is over or cancelled, or this person is named already."))
        else:
            messages.success(
                request, _("%s is written to, and sees the page of the day.") % form.cleaned_data["person"]
            )
            return redirect(back)
    context = {"form": form, "title": _("Hand it over"), "label": _("Ask them"), "back_url": back}
    trail = [(back, found.title)]
    return render(request, "courses/form.html", {**context, "trail": trail}, status=422 if form.errors else 200)


@require_POST
@for_roles(Role.ORGANISER, Role.TUTOR)
def hand_over_end(request: HttpRequest, pk: int) -> HttpResponse:
    """The stand-in is no longer needed."""
    rows = StandIn.objects.filter(meeting__in=meetings_planned_by(viewer_for(request)).values("pk"))
    found = get_object_or_404(rows.select_related("meeting"), pk=pk)
    take_back(found, timezone.now())
    messages.success(request, _("Taken back."))
    return redirect("courses:meeting_day", found.meeting.key)


def _meeting(request: HttpRequest, key: str) -> Meeting:
    rows = meetings_run_by(viewer_for(request)).select_related(
        "course", "site__locality", "leader", "wet_site__locality"
    )
    return get_object_or_404(rows, key=key)


def _page(request: HttpRequest, meeting: Meeting) -> DayPage:
    """What the reader may see of the day. Reading what was told in confidence is written down."""
    now, placed = timezone.now(), placed_in(meeting)
    may_read = meetings_with_notes_for(viewer_for(request), now).filter(pk=meeting.pk).exists()
    notes = open_notes(placed, person_of(request), now, meeting) if may_read else None
    return day_page(meeting, placed, notes, now)
