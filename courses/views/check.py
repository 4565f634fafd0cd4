"""The public check page: whether a certificate is real, and what it is worth now."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from courses.documents.facts import CertificateFacts
from courses.models import Certificate
from courses.queries.certificate_words import certificate_words
from courses.queries.certificates import certificate_lines


@require_safe
def check(request: HttpRequest, key: str) -> HttpResponse:
    """As of now; the name only as the holder allowed. An unknown key gets one sentence and nothing else."""
    found = (
        Certificate.objects.filter(key=key).select_related("person__user", "standard").prefetch_related("events")
    ).first()
    if found is None:
        response = render(request, "courses/check/unknown.html", status=404)
    else:
        line = certificate_lines([found], timezone.now())[0]
        facts = CertificateFacts.from_json(found.facts)
        context = {"line": line, "facts": facts, "words": certificate_words(facts)}
        response = render(request, "courses/check/check.html", context)
    response["X-Robots-Tag"] = "noindex, nofollow"
    response["Cache-Control"] = "no-store"
    return response
