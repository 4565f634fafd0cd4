"""Bringing photographs in from a browser: several at once, or each in a request of its own by the page's script."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from species.actions.archives import opened_archive
from species.actions.importing import FileReport, Incoming, Outcome, PhotoImport
from species.documents.archives import ArchiveLimits, BadArchive
from species.documents.pictures import Limits
from species.forms.upload import UploadForm
from species.models import Locality
from species.queries.flora import species_matching
from species.queries.import_sentences import sentence_on_refusal
from species.queries.table_sentences import sentence_about
from species.rules.keys import new_key
from species.rules.manifest import Entry
from species.rules.vocabulary import Use

from .access import for_holders, user_of

IN_A_BROWSER = ArchiveLimits(bytes=300_000_000, members=60, unpacked=600_000_000)
"""What an archive may hold that is taken in one request; a larger one goes by the command."""
Line = tuple[FileReport, str]


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.add_specimen")
def upload(request: HttpRequest) -> HttpResponse:
    """Several photographs with what is known of all of them; each is taken or refused by itself."""
    today = timezone.localdate()
    if request.method != "POST":
        initial = {"photographer": user_of(request).get_full_name(), "batch": new_key()}
        return _page(request, UploadForm(today=today, initial=initial))
    form = UploadForm(request.POST, request.FILES, today=today)
    if not form.is_valid():
        return _page(request, form, status=422)
    again = UploadForm(today=today, initial={**form.cleaned_data, "photos": None, "batch": new_key()})
    return _page(request, again, list(_brought_in(request, form)), dry_run=form.cleaned_data["dry_run"])


@require_POST
@for_holders("species.add_specimen")
def upload_one(request: HttpRequest) -> HttpResponse:
    """The same for one file, answered with nothing but what became of it."""
    form = UploadForm(request.POST, request.FILES, today=timezone.localdate())
    if not form.is_valid():
        return render(request, "species/_not_sent.html", {"form": form}, status=422)
    lines = list(_brought_in(request, form))
    return render(request, "species/_lines.html", {"lines": lines, "dry_run": form.cleaned_data["dry_run"]})


def _brought_in(request: HttpRequest, form: UploadForm) -> Iterator[Line]:
    run = PhotoImport(
        widths=settings.PHOTO_WIDTHS,
        limits=Limits(bytes=settings.PHOTO_LARGEST_BYTES, pixels=settings.PHOTO_LARGEST_PIXELS),
        by=user_of(request),
        now=timezone.now(),
        dry_run=form.cleaned_data["dry_run"],
    )
    for file in form.cleaned_data["photos"]:
        yield from _lines_of(run, file, form)


def _lines_of(run: PhotoImport, file: UploadedFile, form: UploadForm) -> Iterator[Line]:
    """What became of one file that was sent; for an archive, of everything in it."""
    entry, characters, name = _entry(form), form.cleaned_data["characters"], file.name or "?"
    files: Iterable[Incoming] = [Incoming(name, file.size or 0, file.read, entry, run.today, characters)]
    if name.lower().endswith(".zip"):
        try:
            # one name for all of an archive is no name for each of its pictures
            unpacked = opened_archive(file, file.size or 0, replace(entry, specimen=""), run.today, IN_A_BROWSER)
        except BadArchive as reason:
            yield FileReport(name, Outcome.REFUSED, reason), sentence_on_refusal(reason)
            return
        files = unpacked.files
        for problem in unpacked.manifest.of_table:
            yield FileReport(problem.file, Outcome.REFUSED, (problem,)), sentence_about(problem)
        if not files and not unpacked.manifest.of_table:
            yield FileReport(name, Outcome.REFUSED), _("there is no photograph in it.")
    for report in run.take_all(files):
        refused = report.outcome is Outcome.REFUSED
        yield report, sentence_on_refusal(report.reason, report.lacking) if refused else ""


def _entry(form: UploadForm) -> Entry:
    values = form.cleaned_data
    return Entry(
        species=values["species"],
        said=values["said"].strip(),
        stage=values["stage"],
        use=Use(values["use"]) if values["use"] else None,
        locality=values["locality"],
        day=values["day"],
        part=values["part"],
        photographer=values["photographer"],
        licence=values["licence"],
        specimen=values["batch"] if values["is_one"] else "",
        rights=values["rights"],
    )


def _page(
    request: HttpRequest,
    form: UploadForm,
    lines: list[Line] | None = None,
    status: int = 200,
    dry_run: bool = False,
) -> HttpResponse:
    context = {
        "form": form,
        "lines": lines or [],
        "taken": sum(report.outcome is Outcome.TAKEN for report, _why in lines or []),
        "dry_run": dry_run,
        "plants": species_matching(""),
        "places": Locality.objects.all(),
        "trail": [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/upload.html", context, status=status)
