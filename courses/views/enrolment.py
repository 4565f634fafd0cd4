"""Giving somebody a place in a course, and ending an enrolment."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from courses.actions.enrolment import (
    AlreadyEnrolled,
    AlreadyWithdrawn,
    CourseOver,
    OfferOver,
    decline_offer,
    enrol,
    take_offer,
    withdraw,
)
from courses.forms.courses import EnrolForm
from courses.models import Enrolment, Offer, Role
from courses.queries.visible import courses_run_by

from .access import for_people, for_roles, person_of, viewer_for


@require_POST
@for_roles(Role.ORGANISER, Role.TUTOR)
def enrol_somebody(request: HttpRequest, key: str) -> HttpResponse:
    """A place, or a turn on the waiting list when the course is full."""
    course = get_object_or_404(courses_run_by(viewer_for(request)), key=key)
    url = reverse("courses:course", args=[key])
    form = EnrolForm(request.POST, course=course)
    if not form.is_valid():
        context = {
            "form": form,
            "title": _("Enrol somebody"),
            "back_url": url,
            "trail": [(url, course.title)],
        }
        return render(request, "courses/form.html", context)
    person = form.cleaned_data["person"]
    try:
        enrolment = enrol(person, course, now=timezone.now())
    except AlreadyEnrolled:
        messages.error(request, _("%s is in this course already: nothing was changed.") % person.name)
    except CourseOver:
        messages.error(request, _("This course is over: nobody can be enrolled in it any more."))
    else:
        waits = _("The course is full: %s is on the waiting list.")
        messages.success(request, (waits if enrolment.waiting else _("%s has a place.")) % person.name)
    return redirect(url)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER, Role.TUTOR)
def withdraw_somebody(request: HttpRequest, pk: int) -> HttpResponse:
    """Ask once more, then end an enrolment; whoever waited longest has the place."""
    run = Enrolment.objects.standing().filter(course__in=courses_run_by(viewer_for(request)).values("pk"))
    enrolment = get_object_or_404(run.select_related("person", "course"), pk=pk)
    url = reverse("courses:course", args=[enrolment.course.key])
    if request.method != "POST":
        first = enrolment.course.enrolments.waiting_in_order().exclude(pk=pk).select_related("person").first()
        context = {"enrolment": enrolment, "first": first, "back_url": url}
        return render(request, "courses/withdraw.html", {**context, "trail": [(url, enrolment.course.title)]})
    try:
        offers = withdraw(enrolment, now=timezone.now())
    except AlreadyWithdrawn:
        messages.error(request, _("This enrolment was ended meanwhile: nothing was changed."))
    else:
        messages.success(request, _("%s is no longer in this course.") % enrolment.person.name)
        for offer in offers:
            messages.info(request, _("The place is offered to %s, who waited longest.") % offer.enrolment.person.name)
    return redirect(url)


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def leave(request: HttpRequest, key: str) -> HttpResponse:
    """Ask once more, then give one's own place back."""
    mine = Enrolment.objects.standing().filter(person=person_of(request), course__key=key)
    enrolment = get_object_or_404(mine.select_related("person", "course"))
    url = reverse("courses:course", args=[key])
    if request.method != "POST":
        context = {"enrolment": enrolment, "is_own": True, "back_url": url, "trail": [(url, enrolment.course.title)]}
        return render(request, "courses/withdraw.html", context)
    try:
        withdraw(enrolment, now=timezone.now())
    except AlreadyWithdrawn:
        messages.error(request, _("This enrolment was ended meanwhile: nothing was changed."))
    else:
        messages.success(request, _("You are no longer in this course. Thank you for saying so."))
    return redirect("courses:courses")


@require_POST
@for_people
def offer_take(request: HttpRequest, pk: int) -> HttpResponse:
    """Take the place that is kept for the viewer."""
    offer = _own_offer(request, pk)
    try:
        take_offer(offer, now=timezone.now())
    except OfferOver:
        messages.error(request, _("This place is no longer kept for you: it went to the next. You stay on the list."))
    else:
        messages.success(request, _("The place is yours."))
    return redirect("courses:course", offer.enrolment.course.key)


@require_POST
@for_people
def offer_decline(request: HttpRequest, pk: int) -> HttpResponse:
    """Leave the place to the next."""
    offer = _own_offer(request, pk)
    try:
        decline_offer(offer, now=timezone.now())
    except OfferOver:
        messages.error(request, _("This offer was answered before: nothing was changed."))
    else:
        messages.success(request, _("The next on the list is asked. Thank you for saying so."))
    return redirect("courses:courses")


def _own_offer(request: HttpRequest, pk: int) -> Offer:
    mine = Offer.objects.filter(enrolment__person=person_of(request)).select_related("enrolment__course")
    return get_object_or_404(mine, pk=pk)
