"""Certificates as the rules of their life see them."""

from datetime import date

from courses.models import Certificate
from courses.rules.life import Happened, Life, life_of


def life_on(certificate: Certificate, today: date) -> Life:
    """Where a certificate stands on a day; costs nothing where its events were fetched with it."""
    named = [pair["key"] for pair in certificate.facts["pairs"]]
    past = [Happened(each.kind, frozenset(each.facts.get("pairs", ()))) for each in certificate.events.all()]
    return life_of(certificate.valid_from, certificate.valid_until, named, past, today)
