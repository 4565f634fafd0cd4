"""Practice: choosing, beginning a round, one look after the other, and its end. Everybody's own, and nobody else's."""

from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.crypto import get_random_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions.practice import LookGone, NothingToPractise, answer_look, begin_round, forget_practice
from assessments.forms.practice import LookForm
from assessments.models import PracticeRound, Standard
from assessments.queries.flora import the_flora
from assessments.queries.practice import (
    every_pair,
    pairs_in_practice,
    pairs_named,
    pairs_to_practise,
    round_end,
    round_to_go_on_with,
)
from assessments.queries.practice_looks import look_answered, look_page, next_look
from assessments.rules.practice import PAIRS_MIXED, Said
from species.models import Pair

from .access import signed_in, user_of
from .standing import standards_in_use

MOST_PAIRS = 40


@dataclass(frozen=True)
class Chosen:
    """What somebody wants to practise: the pairs of a standard, or pairs by name (then there is no standard)."""

    standards: list[Standard]
    standard: Standard | None
    pairs: list[Pair]

    @property
    def named(self) -> list[str]:
        return [pair.key for pair in self.pairs] if self.standard is None else []


@require_safe
@signed_in
def practice(request: HttpRequest) -> HttpResponse:
    """How each pair stands, those most needed first, and the way into a round."""
    chosen, now, person = _chosen(request), timezone.now(), user_of(request)
    lines = pairs_in_practice(person, chosen.pairs, now)
    shown = [line for line in lines if line.can_be_shown]
    due = [line.due_at for line in shown if line.due_at]
    context: dict[str, Any] = {
        "chosen": chosen,
        "lines": lines,
        "without": [line for line in lines if not line.can_be_shown],
        "can_begin": bool(shown),
        "few": bool(shown) and len(shown) < PAIRS_MIXED,
        "all_fresh_until": min(due) if shown and all(line.state == "fresh" for line in shown) else None,
        "has_practised": any(line.state != "new" for line in lines),
        "broken_off": round_to_go_on_with(person, now),
    }
    return render(request, "assessments/practice.html", context)


@require_POST
@signed_in
def practice_begin(request: HttpRequest) -> HttpResponse:
    """Begin a round over the pairs that are asked for, mixed with others where they are few."""
    chosen = _chosen(request)
    # the seed only mixes pictures; it decides nothing that counts
    seed = int(get_random_string(12, "0123456789"))
    try:
        begun = begin_round(user_of(request), chosen.pairs, timezone.now(), seed, every_pair())
    except NothingToPractise as refusal:
        messages.error(request, refusal.sentence)
        asked = [("pair", each) for each in chosen.named] or [
            ("standard", each.key) for each in [chosen.standard] if each
        ]
        return redirect(f"{reverse('assessments:practice')}?{urlencode(asked)}")
    return redirect("assessments:practice_look", begun.key, 1)


@require_POST
@signed_in
def practice_forget(request: HttpRequest) -> HttpResponse:
    """Forget what this person has practised."""
    forget_practice(user_of(request))
    messages.success(request, _("What you have practised is forgotten. Your tests and standings are as they were."))
    return redirect("assessments:practice")


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in
def practice_look(request: HttpRequest, key: str, position: int) -> HttpResponse:
    """One look: the picture and three answers; then what it was, with its double beside it."""
    found, flora = _round(request, key), the_flora()
    page = look_page(found, position, flora)
    if page is None:
        return _onward(request, found, position)
    if page.turn.outcome and request.method != "POST":
        return render(request, "assessments/practice_answer.html", {"answer": look_answered(page, flora)})
    form = LookForm(request.POST if request.method == "POST" else None, gathered=page.gathered, mistaken=page.mistaken)
    if request.method == "POST" and form.is_valid():
        try:
            answer_look(page.turn, Said(form.cleaned_data["said"]), timezone.now())
        except LookGone:
            return _onward(request, found, position)
        return redirect("assessments:practice_look", key, position)
    context = {"page": page, "form": form}
    return render(request, "assessments/practice_look.html", context, status=422 if form.errors else 200)


@require_safe
@signed_in
def practice_end(request: HttpRequest, key: str) -> HttpResponse:
    """The natural end of a round: how the pairs stand now."""
    found = _round(request, key)
    end = round_end(found, user_of(request), timezone.now())
    return render(request, "assessments/practice_end.html", {"end": end, "round": found, "next": next_look(found, 0)})


def _onward(request: HttpRequest, practice: PracticeRound, position: int) -> HttpResponse:
    """A look that cannot be shown is passed over, with a sentence that says so."""
    messages.info(request, _("One picture has left practice meanwhile. It is passed over, and nothing else changes."))
    onward = next_look(practice, position)
    if onward is None:
        return redirect("assessments:practice_end", practice.key)
    return redirect("assessments:practice_look", practice.key, onward)


def _round(request: HttpRequest, key: str) -> PracticeRound:
    return get_object_or_404(PracticeRound, key=key, person=user_of(request))


def _chosen(request: HttpRequest) -> Chosen:
    asked = request.POST if request.method == "POST" else request.GET
    standards = standards_in_use()
    if keys := asked.getlist("pair")[:MOST_PAIRS]:
        if pairs := pairs_named(keys):
            return Chosen(standards, None, pairs)
        messages.info(request, _("There is no pair of that name. Choose one of these."))
    key = asked.get("standard", "")
    standard = next((each for each in standards if each.key == key or not key), None)
    if standard is None and key:
        raise Http404
    return Chosen(standards, standard, pairs_to_practise(standard) if standard else [])
