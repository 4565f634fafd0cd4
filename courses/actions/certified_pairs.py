"""The pairs of a certificate as rows: written with it, marked by what narrows it."""

from courses.models import Certificate, CertificateEvent, CertifiedPair


def write_pairs(certificate: Certificate) -> None:
    """A row for every pair of the frozen facts. Call it in the transaction that issues the certificate."""
    CertifiedPair.objects.bulk_create(
        CertifiedPair(certificate=certificate, key=pair["key"]) for pair in certificate.facts["pairs"]
    )


def drop_pairs(event: CertificateEvent) -> None:
    """Mark the pairs that a narrowing takes away; every other step leaves them. In the transaction of the step."""
    if event.kind == CertificateEvent.Kind.NARROWED:
        rows = event.certificate.certified_pairs.left()
        rows.exclude(key__in=event.facts["pairs"]).update(dropped_by=event)
