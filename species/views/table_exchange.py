"""The character table as a CSV file, out and in."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from species.actions.table_import import FileHasProblems, import_table
from species.forms.table_import import TableImportForm
from species.queries.table_exchange import character_table_csv
from species.queries.table_sentences import sentence_about

from .access import for_holders, user_of
from .table import MAY_EDIT


@require_safe
@for_holders(MAY_EDIT)
def table_csv(request: HttpRequest) -> HttpResponse:
    """The whole table."""
    headers = {"Content-Disposition": 'attachment; filename="characters.csv"', "Cache-Control": "private, no-store"}
    return HttpResponse(character_table_csv(), content_type="text/csv; charset=utf-8", headers=headers)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(MAY_EDIT)
def table_import(request: HttpRequest) -> HttpResponse:
    """A file is checked whole; then it is tried, or taken."""
    if request.method != "POST":
        return _page(request, TableImportForm())
    form = TableImportForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, form, status=422)
    values = form.cleaned_data
    file = values["table"]
    try:
        report = import_table(
            file.name or "?",
            file.read(),
            by=user_of(request),
            now=timezone.now(),
            why=values["why"],
            dry_run=values["only_try"],
        )
    except FileHasProblems as refusal:
        return _page(request, form, status=422, problems=[sentence_about(each) for each in refusal.problems])
    again = TableImportForm(initial={"why": values["why"], "only_try": not values["only_try"]})
    return _page(request, again, report=report, was_tried=values["only_try"])


def _page(request: HttpRequest, form: TableImportForm, status: int = 200, **context: Any) -> HttpResponse:
    trail = [(reverse("species:index"), _("Plants")), (reverse("species:tables"), _("Character table"))]
    return render(request, "species/table_import.html", {"form": form, "trail": trail, **context}, status=status)
