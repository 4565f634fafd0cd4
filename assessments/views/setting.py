"""What the pages that set and change a paper share: look at it first, keep it, or be told what could be set."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.functional import Promise

from assessments.actions.papers import BankTooSmall
from assessments.actions.previews import look_at_paper
from assessments.actions.refusals import Refused
from assessments.forms.papers import LOOK, PlanForm
from assessments.queries.paper_plan import PaperPlan
from assessments.queries.setting import Setting, setting_of

from .access import user_of


@dataclass(frozen=True)
class Page:
    """What such a page is called, and its button; the way back from it (optional)."""

    title: str | Promise
    label: str | Promise
    back_url: str = ""


def answer_to_plan(
    request: HttpRequest,
    form: PlanForm,
    people: Callable[[], Sequence[User]],
    keep: Callable[[PaperPlan], HttpResponse],
    page: Page,
) -> HttpResponse:
    """The answer of `keep`, or the form with what came of it. `people` is asked only where the form is valid."""
    setting: Setting | None = None
    status = 422 if form.is_bound else 200
    if form.is_valid():
        plan = form.plan
        try:
            if request.POST.get("step") != LOOK:
                return keep(plan)
            setting, status = look_at_paper(plan, people(), user_of(request), form.seed, timezone.now()), 200
        except BankTooSmall as refusal:
            form.refuse(refusal.sentences)
            setting = setting_of(plan, refusal.outlook)
        except Refused as refusal:
            form.refuse(refusal.sentences)
    context = {"form": form, "setting": setting, "offers": form.offers_in(setting)}
    titles = {"title": page.title, "label": page.label, "back_url": page.back_url}
    return render(request, "assessments/paper_form.html", {**titles, **context}, status=status)
