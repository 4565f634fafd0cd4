"""What the check page of a certificate shows: the holder's own choice."""

from courses.models import Certificate


def show_name(certificate: Certificate, shown: bool) -> Certificate:
    """The holder lets the check page show their name, or takes that back."""
    certificate.name_is_public = shown
    certificate.save(update_fields=["name_is_public"])
    return certificate


def show_pairs(certificate: Certificate, shown: bool) -> Certificate:
    """The holder lets the check page show the pairs, or takes that back."""
    certificate.pairs_are_public = shown
    certificate.save(update_fields=["pairs_are_public"])
    return certificate
