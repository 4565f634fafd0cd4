"""Changing, withdrawing and adding to a paper that is set."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from assessments.actions.paper_changes import change_paper, refuse_change, withdraw_paper
from assessments.actions.papers import BankTooSmall, add_late_sitters
from assessments.actions.refusals import Refused
from assessments.forms.papers import PlanForm, SittersForm, WithdrawalForm, initial_of, new_example
from assessments.models import Paper
from assessments.queries.paper_plan import PaperPlan, plan_of
from assessments.queries.papers import pairs_to_ask, sitters_of, standards_to_ask
from assessments.queries.setting import OutlookWords, setting_of

from .access import for_holders, user_of
from .papers import SET
from .refused import refused
from .setting import Page, answer_to_plan


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(SET)
def paper_change(request: HttpRequest, key: str) -> HttpResponse:
    """Set a paper anew that nobody can have opened, for the same people."""
    found, now, back = _paper(key), timezone.now(), reverse("assessments:paper", args=[key])
    try:
        refuse_change(found, user_of(request), now)
    except Refused as refusal:
        return refused(request, refusal, back, _("To the test"))
    standards = standards_to_ask(found.standard_id)
    initial = {**initial_of(plan_of(found)), **new_example()}
    form = PlanForm(request.POST or None, standards=standards, pairs=pairs_to_ask(standards), initial=initial)

    def keep(plan: PaperPlan) -> HttpResponse:
        change_paper(found, plan, user_of(request), now)
        messages.success(request, _("The test is changed."))
        return redirect(back)

    page = Page(_("Change “%(title)s”") % {"title": found.title}, _("Change it"), back)
    return answer_to_plan(request, form, lambda: sitters_of(found), keep, page)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(SET)
def paper_withdraw(request: HttpRequest, key: str) -> HttpResponse:
    """Let a paper not be held, with a reason, before it opens."""
    found, form = _paper(key), WithdrawalForm(request.POST or None)
    if form.is_valid():
        try:
            withdraw_paper(found, user_of(request), form.cleaned_data["why"], timezone.now())
        except Refused as refusal:
            return refused(request, refusal, reverse("assessments:paper", args=[key]), _("To the test"))
        messages.success(request, _("The test is withdrawn; whoever was to sit it is told."))
        return redirect("assessments:paper", key)
    title = _("Withdraw “%(title)s”") % {"title": found.title}
    context = {"form": form, "title": title, "label": _("Withdraw it")}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(SET)
def paper_add_sitters(request: HttpRequest, key: str) -> HttpResponse:
    """Seats for whoever comes later, to the same plan."""
    found, form = _paper(key), SittersForm(request.POST or None)
    words: OutlookWords | None = None
    if form.is_valid():
        try:
            add_late_sitters(found, form.cleaned_data["people"], timezone.now())
        except Refused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
            if isinstance(refusal, BankTooSmall):
                words = setting_of(plan_of(found), refusal.outlook).outlook
        else:
            messages.success(request, _("They have a place in this test now, and are told."))
            return redirect("assessments:paper", key)
    title = _("Who else sits “%(title)s”") % {"title": found.title}
    context = {"form": form, "title": title, "label": _("Give them a place"), "cures": words.cures if words else ()}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)


def _paper(key: str) -> Paper:
    found: Paper = get_object_or_404(Paper.objects.select_related("standard"), key=key)
    return found
