"""Bringing photographs in from a browser."""

from collections.abc import Iterator

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from species.actions.importing import FileReport, Incoming, Outcome, PhotoImport
from species.documents.pictures import Limits
from species.forms.upload import UploadForm
from species.models import Locality
from species.queries.flora import species_matching
from species.queries.import_sentences import sentence_on_refusal
from species.rules.manifest import Entry
from species.rules.vocabulary import Use

from .access import for_holders, user_of


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.add_specimen")
def upload(request: HttpRequest) -> HttpResponse:
    """Several photographs with what is known of all of them; each is taken or refused by itself."""
    today = timezone.localdate()
    if request.method != "POST":
        return _page(request, UploadForm(today=today, initial={"photographer": user_of(request).get_full_name()}))
    form = UploadForm(request.POST, request.FILES, today=today)
    if not form.is_valid():
        return _page(request, form, status=422)
    run = PhotoImport(
        widths=settings.PHOTO_WIDTHS,
        limits=Limits(bytes=settings.PHOTO_LARGEST_BYTES, pixels=settings.PHOTO_LARGEST_PIXELS),
        by=user_of(request),
        now=timezone.now(),
    )
    reports = [run.take(each) for each in _incoming(form)]
    return _page(request, UploadForm(today=today, initial={**form.cleaned_data, "photos": None}), reports)


def _incoming(form: UploadForm) -> Iterator[Incoming]:
    values = form.cleaned_data
    group = f"{timezone.now():%Y-%m-%d %H:%M:%S}" if values["is_one"] else ""
    entry = Entry(
        species=values["species"],
        said=values["said"].strip(),
        stage=values["stage"],
        use=Use(values["use"]),
        locality=values["locality"],
        day=values["day"],
        part=values["part"],
        photographer=values["photographer"],
        licence=values["licence"],
        specimen=group,
    )
    for each in values["photos"]:
        yield _file(each, entry, values["characters"])


def _file(file: UploadedFile, entry: Entry, characters: str) -> Incoming:
    return Incoming(file.name or "?", file.size or 0, file.read, entry, timezone.localdate(), characters)


def _page(
    request: HttpRequest, form: UploadForm, reports: list[FileReport] | None = None, status: int = 200
) -> HttpResponse:
    lines = [
        (each, sentence_on_refusal(each.reason) if each.outcome == Outcome.REFUSED else "") for each in reports or []
    ]
    context = {
        "form": form,
        "lines": lines,
        "taken": sum(each.outcome == Outcome.TAKEN for each in reports or []),
        "plants": species_matching(""),
        "places": Locality.objects.all(),
        "trail": [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/upload.html", context, status=status)
