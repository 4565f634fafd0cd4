"""Serving pictures: teaching ones to everybody, others only to those who keep the bank."""

from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import patch_vary_headers
from django.views.decorators.http import require_safe

from species.documents.renditions import WEBP
from species.models import DeterminerLink, PhotoRendition
from species.rules.vocabulary import Use

A_YEAR = 60 * 60 * 24 * 365


@require_safe
def photo(request: HttpRequest, key: str, width: int) -> HttpResponse:
    """One picture in one width. What is unknown and what may not be seen look alike: not found."""
    row = _rendition(request, key, width)
    specimen = row.photo.specimen
    is_public = specimen.use == Use.TEACHING and specimen.retired_on is None
    if not is_public and not request.user.has_perm("species.view_specimen"):
        raise Http404
    response = _file(row)
    response["Cache-Control"] = f"public, max-age={A_YEAR}, immutable" if is_public else "private, no-store"
    return response


@require_safe
def photo_by_link(request: HttpRequest, link_key: str, key: str, width: int) -> HttpResponse:
    """A picture of a specimen that an outsider was asked to name."""
    row = _rendition(request, key, width)
    usable = DeterminerLink.objects.usable(timezone.localdate())
    if not usable.filter(key=link_key, specimens=row.photo.specimen_id).exists():
        raise Http404
    response = _file(row)
    response["Cache-Control"] = "private, no-store"
    return response


def _rendition(request: HttpRequest, key: str, width: int) -> PhotoRendition:
    """The lighter kind for browsers that say they take it; else the JPEG, which is always there."""
    rows = PhotoRendition.objects.select_related("photo__specimen").filter(photo__key=key, width=width)
    by_type = {row.media_type: row for row in rows.order_by("-media_type")}
    if not by_type:
        raise Http404
    takes_webp = WEBP in request.headers.get("Accept", "")
    return by_type[WEBP] if takes_webp and WEBP in by_type else next(reversed(by_type.values()))


def _file(row: PhotoRendition) -> HttpResponse:
    try:
        with row.file.open("rb") as file:
            content = file.read()
    except FileNotFoundError:
        raise Http404 from None
    response = HttpResponse(content, content_type=row.media_type)
    response["Content-Security-Policy"] = "default-src 'none'; sandbox"
    response["Content-Disposition"] = "inline"
    patch_vary_headers(response, ["Accept"])
    return response
