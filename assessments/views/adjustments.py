"""Giving one person more time, or whatever else was agreed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from assessments.actions.adjustments import Agreed, adjust_seat
from assessments.actions.refusals import Refused
from assessments.forms.adjustments import AdjustmentForm
from assessments.models import Seat
from assessments.queries.people import name_of

from .access import for_holders, user_of


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("assessments.add_paper")
def adjust(request: HttpRequest, key: str, pk: int) -> HttpResponse:
    """Say what was agreed and why; it holds from now on, and stays on record."""
    seat = get_object_or_404(Seat.objects.select_related("person", "paper"), pk=pk, paper__key=key)
    initial = {"time_factor": seat.time_factor.normalize(), "what": seat.adjustment}
    form = AdjustmentForm(request.POST) if request.method == "POST" else AdjustmentForm(initial=initial)
    if form.is_bound and form.is_valid():
        try:
            adjust_seat(seat, Agreed(**form.agreed), user_of(request), timezone.now())
        except Refused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
        else:
            messages.success(request, _("The adjustment holds from now on, and is on record."))
            return redirect("assessments:paper", key)
    title = _("%(paper)s: what was agreed with %(name)s") % {"paper": seat.paper.title, "name": name_of(seat.person)}
    context = {"form": form, "title": title}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)
