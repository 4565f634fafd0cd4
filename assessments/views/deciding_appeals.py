"""Deciding appeals: what waits, taking one up, asking for new names, giving one, deciding."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions import deciding_appeals as actions
from assessments.actions.deciding_appeals import Verdict
from assessments.actions.refusals import Refused
from assessments.forms.appeals import NamesForm, VerdictForm
from assessments.models import Appeal
from assessments.queries.appeal_pages import appeals_decided, appeals_to_decide
from assessments.queries.appeals import DECIDE, NAME_ANEW, eligibility_of, new_names_of
from assessments.queries.flora import the_flora
from assessments.rules.appeals import Step, outcomes_open
from species.forms.naming import NamingForm
from species.models import Specimen
from species.queries.pictures import Picture, picture_of

from .access import for_holders, user_of
from .appeals import appeal_answer, appeal_seen_by
from .refused import refused


@require_safe
@for_holders(DECIDE)
def to_decide(request: HttpRequest) -> HttpResponse:
    """What waits for a decision, and what was decided."""
    now = timezone.now()
    context = {
        "waiting": appeals_to_decide(user_of(request), now),
        "decided": appeals_decided(now),
        "trail": [(reverse("assessments:papers"), _("Tests"))],
    }
    return render(request, "assessments/appeals_to_decide.html", context)


@require_POST
@for_holders(DECIDE)
def take_up(request: HttpRequest, key: str) -> HttpResponse:
    """Say that one looks at it."""
    found, by = appeal_seen_by(request, key), user_of(request)
    return _step(request, found, lambda: actions.take_up(found, by, timezone.now()), _("It is yours to look at."))


@require_POST
@for_holders(DECIDE)
def ask_for_names(request: HttpRequest, key: str) -> HttpResponse:
    """Have the plant named anew."""
    found, by, form = appeal_seen_by(request, key), user_of(request), NamesForm(request.POST)
    if not form.is_valid():
        return appeal_answer(request, found, timezone.now(), names=form, status=422)
    why = form.cleaned_data["why"]
    done = _("Two people can name it anew now. Until then the plant counts for nobody.")
    return _step(request, found, lambda: actions.ask_for_names(found, by, why, timezone.now()), done)


@require_POST
@for_holders(DECIDE)
def decide(request: HttpRequest, key: str) -> HttpResponse:
    """Decide, with reasons."""
    found, by, now = appeal_seen_by(request, key), user_of(request), timezone.now()
    exception = bool(eligibility_of(by, found).exception)
    form = VerdictForm(request.POST, outcomes=outcomes_open(new_names_of(found)), asks_why=exception)
    if not form.is_valid():
        return appeal_answer(request, found, now, verdict=form, status=422)
    values = form.cleaned_data
    verdict = Verdict(Step(values["outcome"]), values["reasons"], values.get("exception", ""))
    done = _("It is decided, everything is computed again, and everybody concerned is told.")
    return _step(request, found, lambda: actions.decide(found, by, verdict, now), done)


def _step(request: HttpRequest, found: Appeal, step: Callable[[], object], done: str) -> HttpResponse:
    back = reverse("assessments:one_appeal", args=[found.key])
    try:
        step()
    except Refused as refusal:
        return refused(request, refusal, back, _("Back to the appeal"))
    messages.success(request, done)
    return redirect(back)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(NAME_ANEW)
def name_anew(request: HttpRequest, key: str) -> HttpResponse:
    """Name the plant of an appeal anew, without being told what anybody called it."""
    rows = Appeal.objects.waiting_for_names().exclude(evidence__person=user_of(request))
    found = get_object_or_404(rows.select_related("evidence__specimen"), key=key)
    form = NamingForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.name_anew(
                found, user_of(request), said["said"], said["species"], said["characters"], timezone.now()
            )
        except Refused as refusal:
            return refused(request, refusal, reverse("assessments:appeals"), _("To the appeals"))
        messages.success(request, _("Thank you, it is recorded."))
        return redirect("assessments:appeals")
    context = {
        "form": form,
        "pictures": _blind(found.evidence.specimen),
        "flora": the_flora(),
        "trail": [(reverse("assessments:appeals"), _("Appeals"))],
    }
    return render(request, "assessments/appeal_name.html", context, status=422 if form.is_bound else 200)


def _blind(specimen: Specimen) -> list[Picture]:
    """Its pictures, none of which says what the plant is."""
    photos = specimen.photos.select_related("specimen").prefetch_related("renditions").order_by("order", "id")
    return [picture_of(photo, blind=True) for photo in photos if photo.renditions.all()]
