"""The wanted list: what the bank lacks to set papers, as a page, a sheet for the walk and a table."""

from typing import Any

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from assessments.documents.wanted import draw_wanted
from assessments.forms.wanted import WantedForm
from assessments.models import Standard
from assessments.queries.people import name_of
from assessments.queries.sentences.wanted import wanted_words
from assessments.queries.wanted import WantedPage, Wish, wanted_page
from assessments.queries.wanted_exchange import sheet_words, wanted_csv

from .access import for_holders, user_of

SETS, NAMES = "assessments.add_paper", "species.add_determination"


@require_safe
@for_holders(SETS, NAMES)
def wanted(request: HttpRequest) -> HttpResponse:
    """What is wanted, first what can be photographed now."""
    form = _form(request)
    page = _page(form)
    has_standards = Standard.objects.in_use().exists()
    context: dict[str, Any] = {"form": form, "page": page, "has_standards": has_standards}
    if page is not None:
        said = QueryDict(mutable=True)
        said.update({name: form[name].value() for name in form.fields})
        context |= {"words": wanted_words(page), "asked": said.urlencode()}
    status = 422 if has_standards and page is None else 200
    return render(request, "assessments/wanted.html", context, status=status)


@require_safe
@for_holders(SETS, NAMES)
def wanted_sheet(request: HttpRequest) -> HttpResponse:
    """The sheet to take along, as PDF."""
    page = _page(_form(request))
    if page is None:
        return wanted(request)
    sheet = draw_wanted(sheet_words(page, name_of(user_of(request))))
    return HttpResponse(sheet, "application/pdf", headers={"Content-Disposition": 'inline; filename="wanted.pdf"'})


@require_safe
@for_holders(SETS, NAMES)
def wanted_table(request: HttpRequest) -> HttpResponse:
    """The list as CSV."""
    page = _page(_form(request))
    if page is None:
        return wanted(request)
    headers = {"Content-Disposition": 'attachment; filename="wanted.csv"'}
    return HttpResponse(wanted_csv(page), "text/csv; charset=utf-8", headers=headers)


def _form(request: HttpRequest) -> WantedForm:
    first = Standard.objects.in_use().order_by("leads_walks", "name").values_list("key", flat=True).first()
    return WantedForm.asked(request.GET, standard=first)


def _page(form: WantedForm) -> WantedPage | None:
    """The list; nothing where what was asked for cannot be."""
    return wanted_page(Wish(**form.cleaned_data), timezone.localdate()) if form.is_valid() else None
