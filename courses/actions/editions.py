"""Signing certificates as open credentials. What was signed is never changed: it is revoked, for ever, or followed.

A revoked bit cannot be taken back, so a suspension revokes the edition that is about, and lifting it signs a new
one: another id and another place in the list under the same number.
"""

import secrets

from courses.actions.signing_keys import keys_to_sign_with
from courses.documents.credential import open_credential
from courses.models import Certificate, CertificateEvent
from courses.queries.credentials import RETIRED, achievement_of, edition_of, places_taken, the_issuer
from courses.rules.status_bits import LENGTH
from courses.rules.tokens import claims_of, signed

SALT_BYTES = 16
REVOKES = frozenset({CertificateEvent.Kind.SUSPENDED, CertificateEvent.Kind.NARROWED, CertificateEvent.Kind.WITHDRAWN})
SIGNS = frozenset({CertificateEvent.Kind.LIFTED, CertificateEvent.Kind.NARROWED})


class ListIsFull(Exception):
    """Too few places of the status list are left to draw one at random."""


def sign_edition(certificate: Certificate) -> Certificate:
    """Sign the certificate anew, with a place and a salt drawn at random. Inside a transaction of the caller."""
    keys, issuer = keys_to_sign_with(), the_issuer()
    certificate.status_index = _free_place(places_taken())
    edition = edition_of(certificate, certificate.status_index, secrets.token_hex(SALT_BYTES))
    credential = open_credential(issuer, achievement_of(certificate, issuer), edition)
    certificate.credential = signed(credential | claims_of(credential), keys.private, issuer.key(keys.current))
    certificate.save(update_fields=["status_index", "credential"])
    return certificate


def follow_with_editions(event: CertificateEvent) -> None:
    """Revoke or sign, as a step of a certificate asks. Inside the transaction that records the step."""
    certificate = event.certificate
    if event.kind in REVOKES and certificate.status_index is not None:
        event.facts = {**event.facts, RETIRED: certificate.status_index}
        event.save(update_fields=["facts"])
    # The file names its holder by an address, and whoever was erased has none.
    if event.kind in SIGNS and certificate.person.erased_on is None and not _is_suspended(certificate):
        sign_edition(certificate)


def _is_suspended(certificate: Certificate) -> bool:
    """Whether the last suspension was not lifted: what is narrowed meanwhile is signed when it is lifted."""
    steps = certificate.events.filter(kind__in=(CertificateEvent.Kind.SUSPENDED, CertificateEvent.Kind.LIFTED))
    last = steps.order_by("happened_at", "id").values_list("kind", flat=True).last()
    return last == CertificateEvent.Kind.SUSPENDED


def sign_unsigned(certificate: Certificate) -> Certificate:
    """Sign a certificate that was issued before there were credentials; nothing where one was signed."""
    return certificate if certificate.credential else sign_edition(certificate)


def _free_place(taken: frozenset[int]) -> int:
    if len(taken) > LENGTH // 2:
        raise ListIsFull
    while True:
        place = secrets.randbelow(LENGTH)
        if place not in taken:
            return place
