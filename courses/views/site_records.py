"""What is written down of a site: permissions, plants seen, reviews and their print, and what went wrong."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions import site_records as actions
from courses.documents.sheet import draw_sheet
from courses.forms.site_records import IncidentForm, LessonForm, ReviewForm, SitePermissionForm, SiteRecordForm
from courses.models import Incident, Meeting, Role, Site, SitePermission, SiteReview
from courses.queries.incidents import incident_lines, near_misses_for
from courses.queries.site_plants import dangers_at
from courses.queries.site_sheets import emergency_sheet, review_sheet
from courses.queries.visible import meetings_run_by

from .access import for_people, for_roles, person_of, viewer_for
from .files import pdf_answer

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def permission_new(request: HttpRequest, pk: int) -> HttpResponse:
    """Write a permission down."""
    site, today = _site(pk), timezone.localdate()
    form = SitePermissionForm(_posted(request), instance=SitePermission(site=site), initial={"valid_from": today})
    if request.method == "POST" and form.is_valid():
        actions.keep_permission(form.save(commit=False), by=person_of(request), today=today)
        messages.success(request, _("The permission is written down."))
        return redirect("courses:site", pk)
    return _form_page(request, site, form, _("A permission"))


@require_POST
@for_roles(*STAFF)
def permission_end(request: HttpRequest, pk: int) -> HttpResponse:
    """A permission was taken back."""
    found = get_object_or_404(SitePermission, pk=pk)
    actions.end_permission(found, timezone.localdate())
    messages.success(request, _("It no longer holds, from today on."))
    return redirect("courses:site", found.site_id)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def plant_seen(request: HttpRequest, pk: int) -> HttpResponse:
    """A plant was seen at a site."""
    site, today = _site(pk), timezone.localdate()
    form = SiteRecordForm(_posted(request), today=today, initial={"seen_on": today})
    if request.method == "POST" and form.is_valid():
        actions.note_plant(site, **form.cleaned_data, by=person_of(request))
        messages.success(request, _("Written down."))
        return redirect("courses:site", pk)
    return _form_page(request, site, form, _("A plant was seen here"))


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def review_new(request: HttpRequest, pk: int) -> HttpResponse:
    """A recce and its assessment of risks, begun from the last one."""
    site, today = _site(pk), timezone.localdate()
    before = site.reviews.order_by("-reviewed_on", "-pk").first()
    meeting = _meeting(request, site)
    form = ReviewForm(_posted(request), today=today, before=before.headings if before else {})
    if request.method == "POST" and form.is_valid():
        values = {name: form.cleaned_data[name] for name in form.Meta.fields}
        actions.review_site(site, form.headings, meeting=meeting, by=person_of(request), today=today, **values)
        messages.success(request, _("The review is kept; the one before stays as it was."))
        return redirect("courses:site", pk)
    day = timezone.localdate(meeting.starts_at) if meeting else today
    context = {"dangers": dangers_at(site, day), "day": day, "near_misses": near_misses_for(site, ()), "before": before}
    return _form_page(request, site, form, _("Recce and risks"), **context, template="courses/review_new.html")


@require_safe
@for_roles(*STAFF)
def review_print(request: HttpRequest, pk: int) -> HttpResponse:
    """One review for the pocket."""
    review = get_object_or_404(SiteReview.objects.select_related("site__locality", "reviewed_by", "meeting"), pk=pk)
    return pdf_answer(draw_sheet(review_sheet(review)), f"risks-{review.pk}.pdf")


@require_safe
@for_roles(*STAFF)
def emergency_print(request: HttpRequest, pk: int) -> HttpResponse:
    """The emergency card of a site, to be carried."""
    return pdf_answer(draw_sheet(emergency_sheet(_site(pk))), f"emergency-{pk}.pdf")


@require_safe
@for_roles(*STAFF)
def incidents(request: HttpRequest) -> HttpResponse:
    """Everything that nearly went wrong or did, newest first."""
    return render(request, "courses/incidents.html", {"lines": incident_lines()})


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def incident_new(request: HttpRequest) -> HttpResponse:
    """A note on the same day: by those who work for the school, and by whoever leads or stands in at the meeting."""
    now, viewer = timezone.now(), viewer_for(request)
    meeting = meetings_run_by(viewer).filter(key=request.GET.get("meeting", "")).select_related("site").first()
    if meeting is None and not viewer.is_any(*STAFF):
        return redirect("courses:home")
    initial = {"happened_at": now, "site": _site_of(meeting)}
    form = IncidentForm(_posted(request), instance=Incident(meeting=meeting), now=now, initial=initial)
    if request.method == "POST" and form.is_valid():
        actions.note_incident(form.save(commit=False), by=person_of(request), now=now)
        messages.success(request, _("Thank you. Written down without blame, for whoever plans the next one."))
        return redirect("courses:meeting", meeting.key) if meeting else redirect("courses:incidents")
    intro = _("Write it down while it is fresh. Nobody is named, and nobody is blamed.")
    back = (reverse("courses:incidents"), _("Incidents and near misses"))
    if meeting is not None:
        back = (reverse("courses:meeting", args=[meeting.key]), meeting.title)
    context = {"title": _("What happened"), "form": form, "intro": intro, "label": _("Keep it")}
    context |= {"back_url": back[0], "trail": [back]}
    return render(request, "courses/form.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def incident(request: HttpRequest, key: str) -> HttpResponse:
    """One note, and what is done differently now."""
    rows = Incident.objects.select_related("site__locality", "pair__gathered", "pair__mistaken", "picked", "meeting")
    found = get_object_or_404(rows, key=key)
    form = LessonForm(_posted(request), instance=found)
    if request.method == "POST" and form.is_valid():
        actions.draw_lesson(found, form.cleaned_data["lesson"], person_of(request))
        messages.success(request, _("Kept."))
        return redirect("courses:incident", key)
    trail = [(reverse("courses:incidents"), _("Incidents and near misses"))]
    return render(request, "courses/incident.html", {"incident": found, "form": form, "trail": trail})


def _posted(request: HttpRequest) -> Any:
    return request.POST if request.method == "POST" else None


def _site(pk: int) -> Site:
    return get_object_or_404(Site.objects.select_related("locality"), pk=pk)


def _site_of(meeting: Meeting | None) -> Site | None:
    return meeting.site if meeting else None


def _meeting(request: HttpRequest, site: Site) -> Meeting | None:
    key = request.GET.get("meeting", "")
    return meetings_run_by(viewer_for(request)).filter(key=key, site=site).first() if key else None


def _form_page(
    request: HttpRequest, site: Site, form: Any, title: str, template: str = "courses/form.html", **more: Any
) -> HttpResponse:
    back = reverse("courses:site", args=[site.pk])
    trail = [(reverse("courses:sites"), _("Sites")), (back, site.locality.name)]
    context = {"title": title, "form": form, "site": site, "back_url": back, "trail": trail, **more}
    return render(request, template, context, status=422 if form.errors else 200)
