"""One question of a sitting, on a page made for a phone; and its pictures."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from assessments.actions.sittings import Given, Over, SittingRefused, refuse_unopened, save_answer, show_question
from assessments.forms.kinds.catalogue import form_of
from assessments.forms.kinds.shape import KindForm
from assessments.models import Question
from assessments.queries.flora import the_flora
from assessments.queries.questions_set_aside import is_set_aside
from assessments.queries.sittings import (
    answer_to,
    pictures_of,
    progress_of,
    question_at,
    rendition_for,
    seat_at,
    sitting_of,
)
from assessments.rules.kinds.catalogue import kind_called

from . import deliveries
from .access import signed_in, user_of
from .refused import refused

WIDTHS = (400, 800, 1200, 1600)
"""The same few for every picture. A telephone asks for the third at most, which weighs little (see the bank)."""
NEXT, BACK = "next", "back"


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in
def question(request: HttpRequest, key: str, position: int) -> HttpResponse:
    """Show a question and keep its answer. Saving the same again, or twice, changes nothing."""
    found = question_at(user_of(request).pk, key, position)
    if found is None:
        return _say_why(request, key)
    if request.method == "POST":
        return _keep(request, key, found)
    now = timezone.now()
    if found.sitting.is_over(now):
        return redirect("assessments:sit", key)
    try:
        show_question(found, now)
    except Over:
        return redirect("assessments:sit", key)
    flora = the_flora()
    form_class = form_of(found.kind)
    form = form_class(flora=flora, asks=found.asks, initial=form_class.initial_from(answer_to(found), flora))
    return _page(request, key, found, form)


def _say_why(request: HttpRequest, key: str) -> HttpResponse:
    """There is no such question: the test is not opened yet, or annulled; or there is really none."""
    seat, now = seat_at(user_of(request).pk, key), timezone.now()
    if seat is None:
        raise Http404
    try:
        refuse_unopened(seat, sitting_of(seat), now)
    except SittingRefused as refusal:
        if deliveries.delivery_of(request):
            return deliveries.over(refusal)
        return refused(request, refusal, reverse("assessments:sit", args=[key]), _("To the test"))
    raise Http404


def _keep(request: HttpRequest, key: str, found: Question) -> HttpResponse:
    form = form_of(found.kind)(request.POST, flora=the_flora(), asks=found.asks)
    back = request.POST.get("go") == BACK
    if back and form.is_blank:
        return _go_on(key, found, back=True)
    delivery = deliveries.delivery_of(request)
    if not form.is_valid():
        return deliveries.unfinished(form) if delivery else _page(request, key, found, form, status=422)
    try:
        save_answer(found, Given(**form.given), timezone.now(), delivery)
    except Over as refusal:
        if delivery:
            return deliveries.over(refusal)
        context = {"key": key, "question": found, "refusal": refusal, "form": form}
        return render(request, "assessments/too_late.html", context, status=409)
    return deliveries.saved(key, found) if delivery else _go_on(key, found, back=back)


def _go_on(key: str, found: Question, *, back: bool) -> HttpResponse:
    target = found.position - 1 if back else found.position + 1
    if target < 1:
        return redirect("assessments:sit", key)
    if target > found.sitting.seat.paper.questions:
        return redirect("assessments:review", key)
    return redirect("assessments:question", key, target)


def _page(request: HttpRequest, key: str, found: Question, form: KindForm, status: int = 200) -> HttpResponse:
    context = {
        "key": key,
        "question": found,
        "paper": found.sitting.seat.paper,
        "closes_at": found.sitting.closes_at,
        "form": form,
        "saved": answer_to(found) is not None,
        "set_aside": is_set_aside(found),
        "progress": progress_of(found.sitting_id),
        "pictures": pictures_of(found),
        "widths": WIDTHS,
        "kind": kind_called(found.kind),
        "kind_template": f"assessments/kinds/{found.kind}.html",
    }
    return render(request, "assessments/question.html", context, status=status)


@require_safe
@signed_in
def question_photo(request: HttpRequest, key: str, position: int, number: int, width: int) -> HttpResponse:
    """One picture of a question that was shown to this person. Nothing about it names the plant."""
    if width not in WIDTHS:
        raise Http404
    takes_webp = "image/webp" in request.headers.get("Accept", "")
    rendition = rendition_for(user_of(request).pk, key, position, number, width, takes_webp=takes_webp)
    if rendition is None:
        raise Http404
    try:
        with rendition.file.open("rb") as file:
            content = file.read()
    except FileNotFoundError:
        raise Http404 from None
    response = HttpResponse(content, content_type=rendition.media_type)
    response["Content-Disposition"] = "inline"
    response["Content-Security-Policy"] = "default-src 'none'; sandbox"
    patch_cache_control(response, private=True, no_store=True)
    return response
