"""The public check: whether a certificate is real, and what it is worth now. For strangers, and for programs."""

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from courses.forms.certificates import CheckForm
from courses.queries.checked import Checked, checked_by_key, checked_by_number

from .limits import asked_by_all_too_often, asked_too_often, limited, too_often

LOOKS_A_MINUTE, TRIES_A_MINUTE, TRIES_OF_ALL_AN_HOUR = 60, 10, 1000


@require_safe
@limited("check", LOOKS_A_MINUTE)
def check(request: HttpRequest, key: str) -> HttpResponse:
    """As of now; only what the holder allowed. An unknown key gets one sentence and nothing else."""
    found = checked_by_key(key, timezone.now())
    wants_json = request.get_preferred_type(["text/html", "application/json"]) == "application/json"
    return _as_json(found) if wants_json else _as_page(request, found)


@require_safe
@limited("check", LOOKS_A_MINUTE)
def check_json(request: HttpRequest, key: str) -> HttpResponse:
    """The same for programs that send no header."""
    return _as_json(checked_by_key(key, timezone.now()))


@require_http_methods(["GET", "HEAD", "POST"])
def check_number(request: HttpRequest) -> HttpResponse:
    """By number and family name: one answer whichever of the two is wrong."""
    form = CheckForm(request.POST if request.method == "POST" else None)
    if not form.is_valid():
        answer = render(request, "courses/check/number.html", {"form": form}, status=422 if form.errors else 200)
        return _unkept(answer)
    if asked_too_often(request, "check-number", TRIES_A_MINUTE, 60) or asked_by_all_too_often(
        "check-number", TRIES_OF_ALL_AN_HOUR, 3600
    ):
        return too_often(request, 60)
    return _as_page(request, checked_by_number(**form.cleaned_data, now=timezone.now()))


def _as_page(request: HttpRequest, found: Checked | None) -> HttpResponse:
    if found is None:
        return _unkept(render(request, "courses/check/unknown.html", status=404))
    return _unkept(render(request, "courses/check/check.html", {"found": found, "line": found.line}))


def _as_json(found: Checked | None) -> HttpResponse:
    said = found.as_json() if found else {"status": "unknown"}
    answer = _unkept(JsonResponse(said, status=200 if found else 404))
    answer["Access-Control-Allow-Origin"] = "*"
    return answer


def _unkept(answer: HttpResponse) -> HttpResponse:
    answer["X-Robots-Tag"] = "noindex, nofollow"
    answer["Cache-Control"] = "no-store"
    answer["Vary"] = "Accept"
    return answer
