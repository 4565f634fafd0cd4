"""Appealing against a question, following one's appeals, and taking one back."""

from datetime import datetime

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions import appeals as actions
from assessments.actions.appeals import AlreadyAppealed, Complaint
from assessments.actions.handing_in import show_result
from assessments.actions.previews import note_previews
from assessments.actions.refusals import Refused
from assessments.forms.appeals import AppealForm, NamesForm, VerdictForm
from assessments.models import Appeal, Evidence
from assessments.queries.appeal_answer import answer_shown
from assessments.queries.appeal_pages import appeal_page, changes_told, my_appeals, plants_to_name_anew
from assessments.queries.appeals import DECIDE, answer_at, obstacle_to, terms_of, whole_appeals

from .access import holds_any, signed_in, user_of
from .refused import refused


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in
def appeal(request: HttpRequest, key: str, position: int) -> HttpResponse:
    """Say what is wrong with one question of one's own test, once its result is there.

    `?plant=2`: with the second plant of a question that showed two.
    """
    now, person = timezone.now(), user_of(request)
    evidence = answer_at(person.pk, key, position, 2 if request.GET.get("plant") == "2" else 1)
    if evidence is None or evidence.sitting is None:
        raise Http404
    show_result(evidence.sitting, now)  # the page names the plant
    before = Appeal.objects.filter(evidence=evidence).first()
    if before is not None:
        return redirect("assessments:one_appeal", before.key)
    form = AppealForm(request.POST or None)
    back = reverse("assessments:feedback", args=[evidence.sitting.seat.paper.key])
    try:
        if request.method == "POST" and form.is_valid():
            made = actions.appeal(evidence, Complaint(**form.cleaned_data), now)
            messages.success(request, _("Your appeal is received. Here you can follow what becomes of it."))
            return redirect("assessments:one_appeal", made.key)
        obstacle = obstacle_to(evidence, now)
        if obstacle is not None:
            raise actions.refusal_for(evidence, obstacle)
    except AlreadyAppealed:
        return redirect("assessments:one_appeal", Appeal.objects.get(evidence=evidence).key)
    except Refused as refusal:
        return refused(request, refusal, back, _("Back to the result"))
    return _appeal_form(request, evidence, form, back)


def _appeal_form(request: HttpRequest, evidence: Evidence, form: AppealForm, back: str) -> HttpResponse:
    context = {
        "form": form,
        "answer": answer_shown(evidence, is_own=True),
        "terms": terms_of(evidence),
        "trail": [(back, _("How it came out"))],
    }
    return render(request, "assessments/appeal_new.html", context, status=422 if form.is_bound else 200)


@require_safe
@signed_in
def appeals(request: HttpRequest) -> HttpResponse:
    """One's own appeals, what decisions changed for oneself, and plants that one may name anew."""
    now, person = timezone.now(), user_of(request)
    context = {
        "lines": my_appeals(person, now),
        "changes": changes_told(person),
        "to_name": plants_to_name_anew(person),
        "decides": holds_any(person, DECIDE),
        "trail": [(reverse("assessments:papers"), _("Tests"))],
    }
    return render(request, "assessments/appeals.html", context)


@require_safe
@signed_in
def one_appeal(request: HttpRequest, key: str) -> HttpResponse:
    """One appeal with everything done about it: for the person, and for those who decide appeals."""
    return appeal_answer(request, appeal_seen_by(request, key), timezone.now())


@require_POST
@signed_in
def appeal_withdraw(request: HttpRequest, key: str) -> HttpResponse:
    """Take one's appeal back."""
    found = get_object_or_404(Appeal.objects.of(user_of(request).pk), key=key)
    try:
        actions.withdraw(found, user_of(request), timezone.now())
    except Refused as refusal:
        return refused(request, refusal, reverse("assessments:one_appeal", args=[key]), _("Back to the appeal"))
    messages.success(request, _("Your appeal is withdrawn. Your answer counts as it did before."))
    return redirect("assessments:one_appeal", key)


def appeal_seen_by(request: HttpRequest, key: str) -> Appeal:
    """An appeal that the viewer may see: their own, or any for those who decide appeals; or not found."""
    person, rows = user_of(request), whole_appeals()
    if not holds_any(person, DECIDE):
        rows = rows.filter(evidence__person=person)
    found: Appeal = get_object_or_404(rows, key=key)
    return found


def appeal_answer(
    request: HttpRequest,
    found: Appeal,
    now: datetime,
    verdict: VerdictForm | None = None,
    names: NamesForm | None = None,
    status: int = 200,
) -> HttpResponse:
    """The page of one appeal, with the forms of the decision for whoever may decide."""
    page = appeal_page(found, user_of(request), now)
    context: dict[str, object] = {"page": page, "appeal": found}
    if page.may_decide:
        context["verdict"] = verdict or VerdictForm(outcomes=page.outcomes, asks_why=bool(page.eligibility.exception))
        context["names"] = names or NamesForm()
    if not page.is_own:
        note_previews(user_of(request), [found.evidence.specimen.key], now)
    up = "assessments:appeals" if page.is_own else "assessments:appeals_to_decide"
    context["trail"] = [(reverse(up), _("Appeals"))]
    return render(request, "assessments/appeal.html", context, status=status)
