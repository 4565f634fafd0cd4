"""The technical report of a standard, as page and PDF for those who set papers, and its public short form."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from assessments.documents.report import draw_report
from assessments.models import Standard
from assessments.queries.report import report_of
from species.documents.fonts import CannotPrint

from .access import for_holders

READ = "assessments.add_paper"


@require_safe
@for_holders(READ)
def report(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """The whole report of any version, a draft too."""
    standard = get_object_or_404(Standard, key=key, version=version)
    context = {"standard": standard, "report": report_of(standard, timezone.now(), _school(request))}
    return render(request, "assessments/report.html", context)


@require_safe
@for_holders(READ)
def report_paper(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """The whole report as PDF."""
    standard = get_object_or_404(Standard, key=key, version=version)
    return _pdf(request, standard, is_short=False)


@require_safe
def report_in_short(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """What everybody may read of a version that is, or was, in use."""
    standard = get_object_or_404(Standard.objects.put_to_use(), key=key, version=version)
    found = report_of(standard, timezone.now(), _school(request)).in_short
    return render(request, "assessments/report.html", {"standard": standard, "report": found, "is_short": True})


@require_safe
def report_in_short_paper(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """The short form as PDF."""
    standard = get_object_or_404(Standard.objects.put_to_use(), key=key, version=version)
    return _pdf(request, standard, is_short=True)


def _pdf(request: HttpRequest, standard: Standard, *, is_short: bool) -> HttpResponse:
    found = report_of(standard, timezone.now(), _school(request))
    try:
        drawn = draw_report(found.in_short if is_short else found)
    except CannotPrint as refused:
        messages.error(
            request,
            _("It cannot be printed: the font lacks the letters %(letters)s. Write them another way in the standard.")
            % {"letters": refused.letters},
        )
        page = "assessments:report_in_short" if is_short else "assessments:report"
        return redirect(page, standard.key, standard.version)
    name = f"report-{standard.key}-{standard.version}{'-short' if is_short else ''}.pdf"
    return HttpResponse(drawn, "application/pdf", headers={"Content-Disposition": f'inline; filename="{name}"'})


def _school(request: HttpRequest) -> str:
    """The name of the school, which only the site's own context knows in this room."""
    return render_to_string("assessments/report_school.txt", request=request).strip()
