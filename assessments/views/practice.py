"""Practice: choosing, beginning a round, one look after the other, and its end."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.crypto import get_random_string
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions.practice import NothingToPractise, answer_look, begin_round
from assessments.forms.practice import LookForm
from assessments.models import PracticeRound, Standard
from assessments.queries.flora import the_flora
from assessments.queries.practice import (
    look_answered,
    look_page,
    pairs_in_practice,
    pairs_to_practise,
    round_end,
)
from species.models import Pair

from .access import signed_in, user_of
from .standing import standards_in_use

MOST_PAIRS = 40


@require_safe
@signed_in
def practice(request: HttpRequest) -> HttpResponse:
    """How each pair stands, those most needed first, and the way into a round."""
    standards, standard, pairs = _chosen(request)
    lines = pairs_in_practice(user_of(request), pairs, timezone.now())
    context: dict[str, Any] = {
        "standards": standards,
        "standard": standard,
        "lines": lines,
        "named": request.GET.getlist("pair")[:MOST_PAIRS] if standard is None else [],
        "can_begin": any(line.can_be_shown for line in lines),
        "without": [line.pair for line in lines if not line.can_be_shown],
    }
    return render(request, "assessments/practice.html", context)


@require_POST
@signed_in
def practice_begin(request: HttpRequest) -> HttpResponse:
    """Begin a round over the pairs that are asked for."""
    _standards, _standard, pairs = _chosen(request)
    # the seed only mixes pictures; it decides nothing that counts
    seed = int(get_random_string(12, "0123456789"))
    try:
        begun = begin_round(user_of(request), pairs, timezone.now(), seed)
    except NothingToPractise:
        return redirect("assessments:practice")
    return redirect("assessments:practice_look", begun.key, 1)


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in
def practice_look(request: HttpRequest, key: str, position: int) -> HttpResponse:
    """One look: the picture and three answers; then what it was, with its double beside it."""
    found, flora = _round(request, key), the_flora()
    page = look_page(found, position, flora)
    if page is None:
        raise Http404
    if page.turn.outcome:
        return render(
            request, "assessments/practice_answer.html", {"answer": look_answered(page, flora), "round": found}
        )
    form = LookForm(request.POST if request.method == "POST" else None, gathered=page.gathered, mistaken=page.mistaken)
    if request.method == "POST" and form.is_valid():
        answer_look(page.turn, form.cleaned_data["said"], timezone.now())
        return redirect("assessments:practice_look", key, position)
    context = {"page": page, "form": form, "round": found}
    return render(request, "assessments/practice_look.html", context, status=422 if form.errors else 200)


@require_safe
@signed_in
def practice_end(request: HttpRequest, key: str) -> HttpResponse:
    """The natural end of a round: how the pairs stand now."""
    found = _round(request, key)
    return render(request, "assessments/practice_end.html", {"end": round_end(found, user_of(request), timezone.now())})


def _round(request: HttpRequest, key: str) -> PracticeRound:
    return get_object_or_404(PracticeRound.objects.select_related("person"), key=key, person=user_of(request))


def _chosen(request: HttpRequest) -> tuple[list[Standard], Standard | None, list[Pair]]:
    """The standards to choose from, the chosen one, and its pairs; or no standard and the pairs that are named."""
    asked = request.POST if request.method == "POST" else request.GET
    standards = standards_in_use()
    if names := asked.getlist("pair")[:MOST_PAIRS]:
        rows = Pair.objects.filter(key__in=names).select_related("gathered", "mistaken").order_by("key")
        if pairs := list(rows):
            return standards, None, pairs
    key = asked.get("standard", "")
    standard = next((each for each in standards if each.key == key or not key), None)
    return standards, standard, pairs_to_practise(standard) if standard else []
