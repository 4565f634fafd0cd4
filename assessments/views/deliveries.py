"""Answers that a page's script sends by itself: they carry the device's number, and are answered in a few words."""

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.urls import reverse

from assessments.actions.sittings import Delivery, SittingRefused
from assessments.forms.deliveries import DeliveryForm
from assessments.forms.kinds.shape import KindForm
from assessments.models import Question


def delivery_of(request: HttpRequest) -> Delivery | None:
    """Which delivery this is; None for a form that somebody sent by hand."""
    form = DeliveryForm(request.POST)
    if not form.is_valid():
        return None
    return Delivery(form.cleaned_data["device"], form.cleaned_data["number"])


def saved(key: str, found: Question) -> HttpResponse:
    """It stands; and what comes next."""
    is_last = found.position >= found.sitting.seat.paper.questions
    address = reverse("assessments:review", args=[key])
    if not is_last:
        address = reverse("assessments:question", args=[key, found.position + 1])
    return JsonResponse({"state": "saved", "next": address})


def unfinished(form: KindForm) -> HttpResponse:
    """Nothing was saved, since something is missing; what, in sentences.

    No error: whoever thinks for a second between a name and how sure they are sends half an answer.
    """
    sentences = [str(sentence) for errors in form.errors.values() for sentence in errors]
    return JsonResponse({"state": "unfinished", "sentences": sentences})


def over(refusal: SittingRefused) -> HttpResponse:
    """Nothing was saved, since the sitting takes no more answers."""
    return JsonResponse({"state": "over", "sentences": [str(each) for each in refusal.sentences]}, status=409)
