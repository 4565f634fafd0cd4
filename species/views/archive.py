"""Archives of species and specimens for others, and for the school itself."""

from tempfile import TemporaryFile

from django.http import FileResponse, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from species.actions.exchange.exporting import write_species, write_specimens
from species.forms.archive import SPECIES, ArchiveForm
from species.models import ArchiveRun
from species.queries.archive_people import determiners

from .access import for_holders, user_of

MAY_KEEP = "species.add_archiverun"
SHOWN = 20


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.view_specimen")
def archives(request: HttpRequest) -> HttpResponseBase:
    """Choose what goes into an archive, and get it; what serves for tests only after being asked a second time."""
    if request.method != "POST":
        return _page(request, _form(request))
    asks_again = "assessment" in request.POST
    form = _form(request, asks_again=asks_again)
    if not form.is_valid():
        return _page(request, form, status=422)
    if form.scope.with_assessment and not form.cleaned_data["sure"]:
        return _page(request, form, asks_again=True)
    return _archive(request, form)


def _form(request: HttpRequest, asks_again: bool = False) -> ArchiveForm:
    may_own = user_of(request).has_perm(MAY_KEEP)
    data = request.POST if request.method == "POST" else None
    return ArchiveForm(data, people=determiners(), may_own=may_own, asks_again=asks_again and may_own)


def _archive(request: HttpRequest, form: ArchiveForm) -> FileResponse:
    values, by, now = form.cleaned_data, user_of(request), timezone.now()
    out = TemporaryFile()  # closed by the answer  # noqa: SIM115
    if values["kind"] == SPECIES:
        write_species(out, publisher=values["publisher"], by=by, now=now)
    else:
        sure = values.get("sure", False)
        write_specimens(out, form.scope, publisher=values["publisher"], by=by, now=now, confirmed=sure)
    out.seek(0)
    name = f"{values['kind']}-{timezone.localdate(now):%Y-%m-%d}.zip"
    response = FileResponse(out, as_attachment=True, filename=name, content_type="application/zip")
    response["Cache-Control"] = "private, no-store"
    return response


def _page(request: HttpRequest, form: ArchiveForm, status: int = 200, asks_again: bool = False) -> HttpResponse:
    context = {
        "form": form,
        "asks_again": asks_again,
        "runs": ArchiveRun.objects.select_related("by")[:SHOWN] if user_of(request).has_perm(MAY_KEEP) else [],
        "trail": [(reverse("species:index"), _("Plants")), (reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/archives.html", context, status=status)
