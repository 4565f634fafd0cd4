"""What an assessor has to show for themselves: current certificates, or a founding record with its reason."""

from collections.abc import Iterable
from datetime import date, datetime

from django.utils import timezone

from assessments.rules.competence import Competence
from courses.models import Certificate, CertificateEvent, FoundingAssessor
from courses.rules.certification import State
from courses.rules.life import Happened, life_of


def competence_of(user: int, at: datetime) -> Competence:
    """The pairs over which a user held a certificate at a moment, whatever its standard; three queries.

    What became of a certificate since then counts as well: who lost it vouches for nothing any more.
    """
    day = timezone.localdate(at)
    if FoundingAssessor.objects.filter(person__user=user, recorded_on__lte=day).exists():
        return Competence(frozenset(), is_founder=True)
    held = Certificate.objects.filter(person__user=user, issued_at__lte=at, valid_until__gte=day)
    pairs: set[str] = set()
    for certificate in held.prefetch_related("events"):
        past = list(certificate.events.all())
        pairs |= _stands_for(certificate, past, day) & _stands_for(
            certificate, (each for each in past if each.happened_at <= at), day
        )
    return Competence(frozenset(pairs))


def _stands_for(certificate: Certificate, events: Iterable[CertificateEvent], day: date) -> frozenset[str]:
    named = [pair["key"] for pair in certificate.facts["pairs"]]
    past = [Happened(each.kind, frozenset(each.facts.get("pairs", ()))) for each in events]
    life = life_of(certificate.valid_from, certificate.valid_until, named, past, day)
    return life.pairs if life.state is State.CURRENT else frozenset()
