"""Whether a credential that somebody shows is ours, unaltered, and worth something now; and the list for others."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils.translation import gettext as _

from courses.documents.credential import status_list
from courses.models import Certificate
from courses.queries.credentials import revoked_editions, the_issuer
from courses.queries.signing_keys import published_keys, signing_keys
from courses.rules.tokens import NotGenuine, claims_of, genuine, key_address_in, signed

KEYS_FOLDER = "/issuer/keys/"


@dataclass(frozen=True)
class CredentialVerdict:
    """What a token is worth. `status`: genuine, expired, not yet, revoked, or not genuine; `number`: of the
    certificate, where it is genuine; `reason`: the word of NotGenuine where it is not."""

    status: str
    sentence: str
    number: str = ""
    reason: str = ""

    @property
    def holds(self) -> bool:
        """Whether somebody may rely on it now."""
        return self.status == "genuine"


def credential_verdict(token: str, now: datetime) -> CredentialVerdict:
    """Look at a token as a stranger must, and at the list of what was revoked as it is now."""
    try:
        said = genuine(token.strip(), _keys_by_address(token.strip()))
        number = str(said["credentialSubject"]["licenseNumber"])
        place = int(said["credentialStatus"]["statusListIndex"])
    except NotGenuine as error:
        return CredentialVerdict("not genuine", _not_genuine(error.reason), reason=error.reason)
    except (LookupError, TypeError, ValueError):
        return CredentialVerdict("not genuine", _not_genuine(NotGenuine.CLAIMS), reason=NotGenuine.CLAIMS)
    if place in revoked_editions().places:
        words = _("This credential was revoked: the check page of certificate %(number)s says what became of it.")
        return CredentialVerdict("revoked", words % {"number": number}, number)
    if now.timestamp() >= said["exp"]:
        return CredentialVerdict("expired", _("Certificate %(number)s has run out.") % {"number": number}, number)
    if now.timestamp() < said["nbf"]:
        return CredentialVerdict("not yet", _("Certificate %(number)s has not begun.") % {"number": number}, number)
    return CredentialVerdict(
        "genuine", _("Certificate %(number)s is genuine and current.") % {"number": number}, number
    )


def _keys_by_address(token: str) -> dict[str, Any]:
    """Our keys by the address that the token names, whatever the name of the host was when it was signed."""
    address = key_address_in(token)
    name = address.rpartition(KEYS_FOLDER)[2].removesuffix(".json")
    found = published_keys().get(name)
    return {address: found} if found and address.endswith(f"{KEYS_FOLDER}{name}.json") else {}


def _not_genuine(reason: str) -> str:
    words = {
        NotGenuine.UNREADABLE: _("This is no signed credential: choose the file that ends in .jwt."),
        NotGenuine.HEADER: _("Its head holds what a credential of this school never holds: do not rely on it."),
        NotGenuine.ALGORITHM: _("It is not signed in the one way in which this school signs: do not rely on it."),
        NotGenuine.UNKNOWN_KEY: _("It is signed with a key that is none of this school's: do not rely on it."),
        NotGenuine.SIGNATURE: _("It was altered after it was signed, or never signed by us: do not rely on it."),
    }
    return words.get(reason, _("What it claims does not agree with what it holds: do not rely on it."))


def status_list_token(now: datetime) -> str:
    """The signed list of revoked editions, as its address answers. Raises NoSigningKeys."""
    keys, issuer, revoked = signing_keys(), the_issuer(), revoked_editions()
    changed = revoked.changed or _first_issue() or now
    said = status_list(issuer, revoked.places, changed)
    return signed(said | claims_of(said), keys.private, issuer.key(keys.current))


def _first_issue() -> datetime | None:
    return Certificate.objects.order_by("issued_at").values_list("issued_at", flat=True).first()
