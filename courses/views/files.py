"""Answers that are files."""

from django.http import HttpResponse
from django.utils.cache import patch_cache_control


def pdf_answer(content: bytes, name: str) -> HttpResponse:
    """A paper to be shown or kept by whoever asked, and by nobody in between."""
    return _private(HttpResponse(content, content_type="application/pdf"), f'inline; filename="{name}"')


def csv_answer(content: bytes, name: str) -> HttpResponse:
    """A table to be kept."""
    return _private(HttpResponse(content, content_type="text/csv; charset=utf-8"), f'attachment; filename="{name}"')


def _private(answer: HttpResponse, disposition: str) -> HttpResponse:
    answer["Content-Disposition"] = disposition
    patch_cache_control(answer, private=True, no_store=True)
    return answer
