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
from assessments.actions.refusals import Refused
from assessments.forms.papers import PaperForm, new_example
from assessments.models import Paper, Seat, Sitting
from assessments.queries.paper_plan import PaperPlan, plan_of
from assessments.queries.papers import pairs_to_ask, papers_with_counts, seats_of_paper, standards_to_ask
from assessments.queries.people import name_of
from assessments.queries.setting import holds_of
from assessments.queries.sittings import seat_state, seats_with_papers

from .access import for_holders, holds_any, signed_in, user_of
from .setting import Page, answer_to_plan

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
    """Set a paper for single people, or look first at what would come of it."""
    now = timezone.now()
    standards = standards_to_ask()
    form = PaperForm(
        request.POST or None,
        standards=standards,
        pairs=pairs_to_ask(standards),
        initial={"opens_at": timezone.localtime(now), **new_example()},
    )

    def keep(plan: PaperPlan) -> HttpResponse:
        seed = SystemRandom().getrandbits(60)
        paper = actions.set_paper(plan, form.cleaned_data["people"], user_of(request), seed, now)
        messages.success(request, _("The test is set."))
        return redirect("assessments:paper", paper.key)

    page = Page(_("Set a test"), _("Set this test"))
    return answer_to_plan(request, form, lambda: form.cleaned_data["people"], keep, page)


@require_safe
@for_holders(SET, SEE)
def paper(request: HttpRequest, key: str) -> HttpResponse:
    """One paper: who may sit it and how far they are. No result is shown here."""
    now = timezone.now()
    asked = Paper.objects.select_related("standard", "set_by", "withdrawn_by").prefetch_related("pairs")
    found = get_object_or_404(asked, key=key)
    seats = [(seat, state.value, name_of(seat.person)) for seat, state in seats_of_paper(found, now)]
    context = {
        "paper": found,
        "seats": seats,
        "setter": name_of(found.set_by),
        "holds": holds_of(plan_of(found)) if found.blueprint else (),
        "is_coming": found.withdrawn_at is None and now < found.opens_at,
        "takes_sitters": found.withdrawn_at is None and (found.closes_at is None or now < found.closes_at),
    }
    return render(request, "assessments/paper.html", context)


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
