"""What is kept of people: the notice for everybody; the record of processing with its table, sheet and grounds."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.protection import keep_grounds
from courses.documents.sheet import draw_sheet
from courses.forms.protection import GroundsForm
from courses.models import Role
from courses.queries.processing import (
    caution,
    not_filled_in,
    processing_sheet,
    processing_table,
    processings,
    recipients,
)

from .access import for_roles
from .files import csv_answer, pdf_answer


@require_safe
def data_notice(request: HttpRequest) -> HttpResponse:
    """What the school keeps of people and what they can ask of it, for anybody; linked from every page."""
    context = {"lines": processings(), "recipients": recipients()}
    return render(request, "courses/protection/notice.html", context)


@require_safe
@for_roles(Role.ORGANISER)
def processing(request: HttpRequest) -> HttpResponse:
    """What is held of whom, why, who sees it, how long, and what protects it."""
    context = {"lines": processings(), "recipients": recipients(), "caution": caution(), "missing": not_filled_in()}
    return render(request, "courses/protection/processing.html", context)


@require_safe
@for_roles(Role.ORGANISER)
def processing_csv(request: HttpRequest) -> HttpResponse:
    """The same as a table."""
    return csv_answer(processing_table(), "processing.csv")


@require_safe
@for_roles(Role.ORGANISER)
def processing_pdf(request: HttpRequest) -> HttpResponse:
    """The same on paper."""
    return pdf_answer(draw_sheet(processing_sheet(timezone.localdate())), "processing.pdf")


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def processing_grounds(request: HttpRequest) -> HttpResponse:
    """Fill in the legal grounds."""
    lines = processings()
    form = GroundsForm(
        request.POST if request.method == "POST" else None,
        labels={each.activity: each.title for each in lines},
        initial={each.activity.value: each.ground for each in lines},
    )
    if request.method == "POST" and form.is_valid():
        keep_grounds(form.grounds)
        messages.success(request, _("The legal grounds are saved."))
        return redirect("courses:processing")
    context = {"form": form, "title": _("Legal grounds"), "back_url": reverse("courses:processing")}
    note = _("For instance a contract with the person, a duty in law, or consent. Local law decides: ask an adviser.")
    trail = [(reverse("courses:processing"), _("Record of processing"))]
    answer = {**context, "intro": note, "trail": trail}
    return render(request, "courses/form.html", answer, status=422 if form.errors else 200)
