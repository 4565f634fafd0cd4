"""The page that says why something was not done."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from assessments.actions.refusals import Refused


def refused(request: HttpRequest, refusal: Refused, back_url: str, back_label: str, status: int = 409) -> HttpResponse:
    """A page with the sentences of a refusal and a way on."""
    context = {"sentences": refusal.sentences, "back_url": back_url, "back_label": back_label}
    return render(request, "assessments/refused.html", context, status=status)
