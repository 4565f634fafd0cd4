"""Beginning the renewal of a certificate: a new period of evidence. The last day of the old one is never touched."""

from datetime import datetime

from django.db import transaction
from django.utils import timezone

from assessments.actions.windows import open_renewal
from assessments.models import Window
from courses.actions.certificates import NotPossibleNow
from courses.models import Certificate, Person
from courses.queries.lives import life_on
from courses.rules.life import renewal_refusal


def begin_renewal(certificate: Certificate, by: Person, now: datetime) -> Window:
    """Open the period whose evidence alone a renewal may rest on. Raises NotPossibleNow."""
    today = timezone.localdate(now)
    life = life_on(certificate, today)
    refusal = renewal_refusal(life, today, same_standard=True)
    if refusal:
        raise NotPossibleNow(refusal, life.state)
    with transaction.atomic():
        return open_renewal(certificate.person.user, by.user, certificate.standard.period_months, now)
