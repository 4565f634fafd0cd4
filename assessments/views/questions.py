"""One question of a sitting, on a page made for a phone; and its pictures."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_http_methods, require_safe

from assessments.actions.sittings import Given, Over, save_answer, show_question
from assessments.forms.kinds.catalogue import FORMS
from assessments.forms.kinds.name_and_decide import NameAndDecide
from assessments.models import Question
from assessments.queries.flora import the_flora
from assessments.queries.sittings import answer_to, pictures_of, progress_of, question_at, rendition_for

from .access import signed_in, user_of

WIDTHS = (400, 800, 1200, 1600)
"""The same few for every picture. A telephone asks for the third at most, which weighs little (see the bank)."""
NEXT, BACK = "next", "back"


@require_http_methods(["GET", "HEAD", "POST"])
@signed_in
def question(request: HttpRequest, key: str, position: int) -> HttpResponse:
    """Show a question and keep its answer. Saving the same again, or twice, changes nothing."""
    found = question_at(user_of(request).pk, key, position)
    if found is None:
        raise Http404
    if request.method == "POST":
        return _keep(request, key, found)
    try:
        show_question(found, timezone.now())
    except Over:
        return redirect("assessments:sit", key)
    flora = the_flora()
    form_class, initial_from = FORMS[found.kind]
    form = form_class(flora=flora, initial=initial_from(answer_to(found), flora))
    return _page(request, key, found, form)


def _keep(request: HttpRequest, key: str, found: Question) -> HttpResponse:
    form_class, _initial = FORMS[found.kind]
    form = form_class(request.POST, flora=the_flora())
    back = request.POST.get("go") == BACK
    if back and form.is_blank:
        return _go_on(key, found, back=True)
    if not form.is_valid():
        return _page(request, key, found, form, status=422)
    try:
        save_answer(found, Given(**form.given), timezone.now())
    except Over as refusal:
        context = {"key": key, "question": found, "refusal": refusal, "form": form}
        return render(request, "assessments/too_late.html", context, status=409)
    return _go_on(key, found, back=back)


def _go_on(key: str, found: Question, *, back: bool) -> HttpResponse:
    target = found.position - 1 if back else found.position + 1
    if target < 1:
        return redirect("assessments:sit", key)
    if target > found.sitting.seat.paper.questions:
        return redirect("assessments:review", key)
    return redirect("assessments:question", key, target)


def _page(request: HttpRequest, key: str, found: Question, form: NameAndDecide, status: int = 200) -> HttpResponse:
    context = {
        "key": key,
        "question": found,
        "paper": found.sitting.seat.paper,
        "closes_at": found.sitting.closes_at,
        "form": form,
        "saved": answer_to(found) is not None,
        "progress": progress_of(found.sitting_id),
        "pictures": pictures_of(found),
        "widths": WIDTHS,
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
