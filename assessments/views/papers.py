"""The tests of a person, and papers as those who set them see them."""

from random import SystemRandom

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions import papers as actions
from assessments.actions.handing_in import annul, settle_overdue
from assessments.actions.papers import PaperPlan
from assessments.actions.refusals import Refused
from assessments.forms.papers import PaperForm
from assessments.models import Paper, Seat, Sitting
from assessments.queries.papers import papers_with_counts, seats_of_paper
from assessments.queries.people import name_of
from assessments.queries.sittings import seat_state, seats_with_papers

from .access import for_holders, holds_any, signed_in, user_of

SET = "assessments.add_paper"
SEE = "assessments.view_evidence"


@require_safe
@signed_in
def papers(request: HttpRequest) -> HttpResponse:
    """What can be sat now, what comes, what was handed in; for setters the papers they set."""
    now, user = timezone.now(), user_of(request)
    settle_overdue(now)
    seats = [(seat, seat_state(seat, now)) for seat in seats_with_papers().of(user.pk).order_by("-opens_at", "-id")]
    context = {"seats": [(seat, state.value) for seat, state in seats], "may_set": holds_any(user, SET)}
    if holds_any(user, SET, SEE):
        context["papers"] = papers_with_counts()[:50]
    return render(request, "assessments/papers.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(SET)
def set_paper(request: HttpRequest) -> HttpResponse:
    """Set a paper for single people."""
    now = timezone.now()
    if request.method != "POST":
        form = PaperForm(initial={"opens_at": timezone.localtime(now)})
        return render(request, "assessments/form.html", {"form": form, "title": _("Set a test")})
    form = PaperForm(request.POST)
    if form.is_valid():
        values = dict(form.cleaned_data)
        people = values.pop("people")
        try:
            paper = actions.set_paper(
                PaperPlan(**{**values, "pairs": list(values["pairs"])}),
                people,
                user_of(request),
                SystemRandom().getrandbits(60),
                now,
            )
        except Refused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
        else:
            messages.success(request, _("The test is set."))
            return redirect("assessments:paper", paper.key)
    return render(request, "assessments/form.html", {"form": form, "title": _("Set a test")}, status=422)


@require_safe
@for_holders(SET, SEE)
def paper(request: HttpRequest, key: str) -> HttpResponse:
    """One paper: who may sit it and how far they are. No result is shown here."""
    now = timezone.now()
    found = get_object_or_404(Paper.objects.select_related("standard", "set_by").prefetch_related("pairs"), key=key)
    seats = [(seat, state.value, name_of(seat.person)) for seat, state in seats_of_paper(found, now)]
    return render(request, "assessments/paper.html", {"paper": found, "seats": seats, "setter": name_of(found.set_by)})


@require_POST
@for_holders(SEE)
def annul_sitting(request: HttpRequest, key: str, pk: int) -> HttpResponse:
    """Take a whole sitting out, with a reason, before anybody saw its result."""
    seat = get_object_or_404(Seat, pk=pk, paper__key=key)
    sitting = get_object_or_404(Sitting, seat=seat)
    try:
        annul(sitting, user_of(request), request.POST.get("why", ""), timezone.now())
    except Refused as refusal:
        messages.error(request, " ".join(str(sentence) for sentence in refusal.sentences))
    else:
        messages.success(request, _("The sitting is annulled; the person is told."))
    return redirect("assessments:paper", key)
