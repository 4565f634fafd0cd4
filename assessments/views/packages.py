"""The questions of the bank for another program: a package, and the table beside it."""

from tempfile import TemporaryFile

from django.http import FileResponse, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from assessments.actions.packages import NothingToTake, Outlet, take_questions
from assessments.forms.packages import PackageForm
from assessments.models import PackageRun
from assessments.queries.sentences.packages import LOSES_THE_RULE, left_out_sentences

from .access import for_holders, user_of
from .proof import Lack, lack_of_proof, way_to_prove

MAY_TAKE = "assessments.add_packagerun"
PACKAGE, TABLE = "package", "table"
SHOWN = 20


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(MAY_TAKE)
def packages(request: HttpRequest) -> HttpResponseBase:
    """Choose the questions and take them, or the table beside them; those of tests only when asked a second time."""
    if request.method != "POST":
        return _page(request, PackageForm(initial=request.GET.dict()))
    form = PackageForm(request.POST, asks_again="assessment" in request.POST)
    if not form.is_valid():
        return _page(request, form, status=422)
    lack = lack_of_proof(request, timezone.now(), is_grave=form.scope.with_assessment)
    if lack is not None:
        return _page(request, form, status=403, lack=lack)
    if form.scope.with_assessment and not form.cleaned_data["sure"]:
        return _page(request, form, asks_again=True)
    return _taken(request, form)


def _taken(request: HttpRequest, form: PackageForm) -> HttpResponseBase:
    is_table, now = request.POST.get("take") == TABLE, timezone.now()
    out = TemporaryFile()  # closed by the answer  # noqa: SIM115
    outlet = Outlet(table=out) if is_table else Outlet(package=out)
    try:
        take_questions(outlet, form.scope, by=user_of(request), now=now, confirmed=form.cleaned_data.get("sure", False))
    except NothingToTake as nothing:
        out.close()
        form.add_error(None, _("There is no question to take: no confirmed plant of these pairs has a picture for it."))
        for sentence in left_out_sentences(nothing.packaged):
            form.add_error(None, sentence)
        return _page(request, form, status=422)
    out.seek(0)
    kind, ending = ("text/csv; charset=utf-8", "csv") if is_table else ("application/zip", "zip")
    name = f"questions-{timezone.localdate(now):%Y-%m-%d}.{ending}"
    response = FileResponse(out, as_attachment=True, filename=name, content_type=kind)
    response["Cache-Control"] = "private, no-store"
    return response


def _page(
    request: HttpRequest, form: PackageForm, status: int = 200, asks_again: bool = False, lack: Lack | None = None
) -> HttpResponse:
    context = {
        "form": form,
        "asks_again": asks_again,
        "rule": LOSES_THE_RULE,
        "runs": PackageRun.objects.select_related("by", "standard")[:SHOWN],
        "trail": [(reverse("assessments:papers"), _("Tests"))],
        "proof": way_to_prove(lack, _way_back(request)) if lack else None,
    }
    return render(request, "assessments/packages.html", context, status=status)


def _way_back(request: HttpRequest) -> str:
    """This page with what was chosen on it; the confirmation is asked for anew."""
    chosen = request.POST.copy()
    for name in list(chosen):
        if name not in ("standard", "assessment"):
            del chosen[name]
    return f"{request.path}?{chosen.urlencode()}"
