"""What programs of other people read to check our credentials: who signs, with which keys, and what was revoked.

Anybody may read these from anywhere, and nothing is kept of who asked.
"""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from courses.documents.credential import FRESH_MILLISECONDS, W3C, achievement_object, profile
from courses.models import Certificate
from courses.queries.certificates import certificates_seen_by
from courses.queries.credential_check import status_list_token
from courses.queries.credentials import NoIssuer, achievement_asked, standards_achieved, the_issuer
from courses.queries.signing_keys import published_keys, signing_keys_file

from .access import for_people, refused, viewer_for


def _open_to_all(response: HttpResponse, seconds: int = FRESH_MILLISECONDS // 1000) -> HttpResponse:
    response["Access-Control-Allow-Origin"] = "*"
    response["Cache-Control"] = f"public, max-age={seconds}"
    return response


def _issuer() -> Any:
    try:
        return the_issuer()
    except NoIssuer as error:
        raise Http404 from error


@require_safe
def issuer(request: HttpRequest) -> HttpResponse:
    """The profile of the school."""
    return _open_to_all(JsonResponse(profile(_issuer())))


@require_safe
def issuer_key(request: HttpRequest, name: str) -> HttpResponse:
    """One key, its public part alone."""
    found = published_keys().get(name)
    if found is None:
        raise Http404
    return _open_to_all(JsonResponse(_as_published(found), content_type="application/jwk+json"))


@require_safe
def key_set(request: HttpRequest) -> HttpResponse:
    """All keys that ever signed, public parts alone."""
    keys = [_as_published(each) for each in published_keys().values()]
    return _open_to_all(JsonResponse({"keys": keys}, content_type="application/jwk-set+json"))


def _as_published(key: Any) -> dict[str, Any]:
    found = _issuer()
    return {**key, "kid": found.key(key["kid"]), "iss": found.id}


@require_safe
def issuer_status(request: HttpRequest) -> HttpResponse:
    """The signed list of revoked credentials."""
    if not signing_keys_file().exists():
        raise Http404
    return _open_to_all(HttpResponse(status_list_token(timezone.now()), content_type="text/plain; charset=utf-8"))


@require_safe
def issuer_achievement(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """What was achieved under one version of a standard."""
    found = get_object_or_404(standards_achieved(), key=key, version=version)
    issued_by = _issuer()
    said = {"@context": [W3C], **achievement_object(issued_by, achievement_asked(found, issued_by))}
    return _open_to_all(JsonResponse(said))


@require_safe
def check_edition(request: HttpRequest, key: str, edition: int) -> HttpResponse:
    """The address that a credential is named by: the check page says what it is worth."""
    return redirect("courses:check", key=key)


@require_safe
@for_people
def certificate_credential(request: HttpRequest, number: str) -> HttpResponse:
    """The signed file, for its holder and those who work for the school."""
    found: Certificate = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    if not found.credential:
        return refused(request, _("No file was signed for this certificate; ask the school for one."), status=409)
    response = HttpResponse(found.credential, content_type="text/plain; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="certificate-{found.number}.jwt"'
    response["Cache-Control"] = "no-store"
    return response
