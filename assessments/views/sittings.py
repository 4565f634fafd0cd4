"""The pages around a sitting: before it, its review, handing in, taking back, the result."""

from datetime import datetime

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from assessments.actions.handing_in import hand_in as hand_in_sitting
from assessments.actions.handing_in import settle_if_due, show_result, take_back
from assessments.actions.refusals import Refused
from assessments.actions.sittings import open_sitting, refuse_unopened
from assessments.models import Seat, Sitting
from assessments.queries.feedback import feedback_on
from assessments.queries.sittings import SeatState, progress_of, seat_at, seat_state, sitting_of
from assessments.querysets import MINUTE_FOR_UNDOING

from .access import signed_in, user_of
from .refused import refused


def seat_of(request: HttpRequest, key: str, now: datetime) -> Seat:
    """This person's seat at a paper, its sitting closed and settled if its time has come; or not found."""
    person = user_of(request).pk
    seat = seat_at(person, key)
    if seat is None:
        raise Http404
    sitting = sitting_of(seat)
    if sitting is not None and sitting.is_due(now) and settle_if_due(sitting.pk, now):
        return seat_at(person, key) or seat
    return seat


def sitting_at(request: HttpRequest, key: str, now: datetime) -> Sitting:
    """This person's sitting of a paper. Raises Refused before it was opened, and once it was annulled."""
    seat = seat_of(request, key, now)
    sitting = sitting_of(seat)
    refuse_unopened(seat, sitting, now)
    if sitting is None:
        raise Http404
    return sitting


def _back_to_test(request: HttpRequest, refusal: Refused, key: str) -> HttpResponse:
    return refused(request, refusal, reverse("assessments:sit", args=[key]), _("Back to the test"))


@require_safe
@signed_in
def sit(request: HttpRequest, key: str) -> HttpResponse:
    """What this test is and how it stands: to open, to go on with, handed in, or over."""
    now = timezone.now()
    seat = seat_of(request, key, now)
    sitting, state = sitting_of(seat), seat_state(seat, now)
    context: dict[str, object] = {"seat": seat, "paper": seat.paper, "sitting": sitting, "state": state.value}
    if sitting is not None and state is SeatState.UNDER_WAY:
        context["progress"] = progress_of(sitting.pk)
    if sitting is not None and sitting.handed_in_at is not None:
        context["undo_until"] = sitting.handed_in_at + MINUTE_FOR_UNDOING
    if seat.paper.minutes is not None:
        context["minutes"] = int(seat.paper.minutes * seat.time_factor)
    return render(request, "assessments/sit.html", context)


@require_POST
@signed_in
def sit_open(request: HttpRequest, key: str) -> HttpResponse:
    """Open the test; pressing twice opens it once."""
    now = timezone.now()
    seat = seat_of(request, key, now)
    try:
        open_sitting(seat, now)
    except Refused as refusal:
        return refused(request, refusal, reverse("assessments:papers"), _("To your tests"))
    return redirect("assessments:question", key, 1)


@require_safe
@signed_in
def review(request: HttpRequest, key: str) -> HttpResponse:
    """Every question with how it stands, the unanswered ones named, before handing in."""
    now = timezone.now()
    try:
        sitting = sitting_at(request, key, now)
    except Refused as refusal:
        return _back_to_test(request, refusal, key)
    if sitting.handed_in_at is not None:
        return redirect("assessments:sit", key)
    context = {"sitting": sitting, "paper": sitting.seat.paper, "key": key, "now": now}
    return render(request, "assessments/review.html", {**context, "progress": progress_of(sitting.pk)})


@require_POST
@signed_in
def hand_in(request: HttpRequest, key: str) -> HttpResponse:
    """Hand in; pressing twice hands in once."""
    now = timezone.now()
    try:
        hand_in_sitting(sitting_at(request, key, now), now)
    except Refused as refusal:
        return _back_to_test(request, refusal, key)
    return redirect("assessments:sit", key)


@require_POST
@signed_in
def undo(request: HttpRequest, key: str) -> HttpResponse:
    """Take the test back within the minute."""
    now = timezone.now()
    try:
        take_back(sitting_at(request, key, now), now)
    except Refused as refusal:
        return _back_to_test(request, refusal, key)
    messages.success(request, _("The test is yours again: change what you like, and hand it in when ready."))
    return redirect("assessments:review", key)


@require_POST
@signed_in
def show_now(request: HttpRequest, key: str) -> HttpResponse:
    """See the result at once, which ends the undo."""
    now = timezone.now()
    try:
        show_result(sitting_at(request, key, now), now)
    except Refused as refusal:
        return _back_to_test(request, refusal, key)
    return redirect("assessments:feedback", key)


@require_safe
@signed_in
def feedback(request: HttpRequest, key: str) -> HttpResponse:
    """What the plants were and what told them apart, after handing in; never before."""
    now = timezone.now()
    try:
        sitting = sitting_at(request, key, now)
        if sitting.handed_in_at is not None and sitting.settled_at is None:
            return redirect("assessments:sit", key)
        sitting = show_result(sitting, now)
    except Refused as refusal:
        return _back_to_test(request, refusal, key)
    context = {"key": key, "feedback": feedback_on(sitting, user_of(request), now)}
    return render(request, "assessments/feedback.html", context)
