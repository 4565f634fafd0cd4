"""Appeals against decisions about certificates: appealing, taking back, what waits, deciding."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.decision_appeals import AppealRefused, appeal_decision, decide_appeal, take_back_appeal
from courses.forms.decision_appeals import DecisionAppealForm, VerdictForm
from courses.models import DecisionAppeal, Role
from courses.queries.certificates import certificates_seen_by
from courses.queries.decision_appeals import (
    DecisionTaken,
    appeal_lines,
    appeals_seen_by,
    own_declined,
    steps_of,
)
from courses.queries.sentences.decision_appeals import (
    bar_sentence,
    exception_sentence,
    follows_sentence,
    outcome_sentence,
    refusal_sentence,
    title_of,
)
from courses.rules.decision_appeals import Outcome

from .access import for_people, for_roles, person_of, refused, viewer_for

DECIDED_SHOWN = 50


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def application_appeal(request: HttpRequest, pk: int) -> HttpResponse:
    """Appeal that one's own application was declined."""
    taken = own_declined(person_of(request), pk, timezone.now())
    back = reverse("courses:certificates_mine")
    return _appeal(request, taken, [(back, _("My certificates"))])


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def event_appeal(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """Appeal what happened to one's own certificate."""
    own = certificates_seen_by(viewer_for(request)).filter(person=person_of(request))
    found = get_object_or_404(own, number=number)
    mine, page = reverse("courses:certificates_mine"), reverse("courses:certificate", args=[number])
    taken = steps_of(found, timezone.now()).get(pk)
    return _appeal(request, taken, [(mine, _("My certificates")), (page, number)])


def _appeal(request: HttpRequest, taken: DecisionTaken | None, trail: list[tuple[str, str]]) -> HttpResponse:
    if taken is None:
        raise Http404
    if taken.appeal:
        return redirect("courses:decision_appeal", key=taken.appeal.key)
    if taken.refusal:
        return refused(request, refusal_sentence(taken, taken.refusal), status=409)
    form = DecisionAppealForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            made = appeal_decision(taken, form.cleaned_data["words"], now=timezone.now())
        except AppealRefused as error:
            return refused(request, str(error), status=409)
        messages.success(request, _("Your appeal is received. It counts against you in no way, whatever comes of it."))
        return redirect("courses:decision_appeal", key=made.key)
    context = {"form": form, "taken": taken, "title": title_of(taken), "trail": trail, "back_url": trail[-1][0]}
    return render(request, "courses/certificates/appeal_new.html", context, status=422 if form.errors else 200)


@require_safe
@for_roles(Role.ORGANISER)
def decision_appeals(request: HttpRequest) -> HttpResponse:
    """What waits for a decision, and what was decided."""
    now, rows = timezone.now(), appeals_seen_by(viewer_for(request))
    waiting = rows.undecided().order_by("decide_by", "id")
    done = rows.filter(ended_at__isnull=False).order_by("-ended_at", "-id")[:DECIDED_SHOWN]
    lines = appeal_lines([*waiting, *done], now)
    shown = [(line, title_of(line.taken), outcome_sentence(line)) for line in lines]
    context = {
        "waiting": [each for each in shown if each[0].appeal.ended_at is None],
        "done": [each for each in shown if each[0].appeal.ended_at is not None],
        "trail": [(reverse("courses:certificates"), _("Certificates"))],
    }
    return render(request, "courses/certificates/appeals.html", context)


@require_safe
@for_people
def decision_appeal(request: HttpRequest, key: str) -> HttpResponse:
    """One appeal: for whoever made it, and for organisers."""
    return _appeal_page(request, _found(request, key), VerdictForm())


@require_POST
@for_roles(Role.ORGANISER)
def decision_appeal_decide(request: HttpRequest, key: str) -> HttpResponse:
    """Uphold or dismiss, with reasons."""
    found, form = _found(request, key), VerdictForm(request.POST)
    if not form.is_valid():
        return _appeal_page(request, found, form, status=422)
    said = form.cleaned_data
    upheld = said["outcome"] == Outcome.UPHELD.value
    try:
        decide_appeal(found, person_of(request), upheld=upheld, reasons=said["reasons"], now=timezone.now())
    except AppealRefused as error:
        messages.error(request, str(error))
        return _appeal_page(request, _found(request, key), form, status=409)
    messages.success(request, _("It is decided, and the person is told."))
    return redirect("courses:decision_appeal", key=key)


@require_POST
@for_people
def decision_appeal_take_back(request: HttpRequest, key: str) -> HttpResponse:
    """Take one's own appeal back."""
    own = appeals_seen_by(viewer_for(request)).filter(person=person_of(request))
    try:
        take_back_appeal(get_object_or_404(own, key=key), now=timezone.now())
    except AppealRefused as error:
        messages.info(request, str(error))
    else:
        messages.success(request, _("Your appeal is taken back."))
    return redirect("courses:decision_appeal", key=key)


def _found(request: HttpRequest, key: str) -> DecisionAppeal:
    return get_object_or_404(appeals_seen_by(viewer_for(request)), key=key)


def _appeal_page(request: HttpRequest, found: DecisionAppeal, form: VerdictForm, status: int = 200) -> HttpResponse:
    person = person_of(request)
    line, is_own = appeal_lines([found], timezone.now())[0], found.person == person
    may = line.eligibility(person)
    back = (reverse("courses:decision_appeals"), _("Appeals against decisions"))
    context = {
        "line": line,
        "title": title_of(line.taken),
        "outcome": outcome_sentence(line),
        "exception": exception_sentence(line),
        "follows": follows_sentence(line.taken),
        "bars": [] if is_own else [bar_sentence(bar) for bar in may.bars],
        "may_decide": may.may_decide and found.ended_at is None,
        "sets_aside": bool(may.exception),
        "is_own": is_own,
        "form": form,
        "trail": [(reverse("courses:certificates_mine"), _("My certificates"))] if is_own else [back],
    }
    return render(request, "courses/certificates/appeal.html", context, status=status)
