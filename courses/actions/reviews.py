"""Telling those who decide of certificates whose own evidence no longer carries them. Nothing is suspended by this."""

from datetime import datetime

from django.db import transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from courses.actions.letters import full_address, write_to
from courses.models import Certificate, Person, ReviewOpened, Role
from courses.queries.certificates import certificate_lines


def notify_reviews(now: datetime) -> int:
    """Write to the organisers once of each certificate that came under review; their number. Safe to run twice.

    What is no longer under review, or no longer current, is closed, so that it is told of anew if it comes back.
    """
    rows = Certificate.objects.not_expired(timezone.localdate(now)).select_related("person__user", "standard")
    found = certificate_lines(rows.prefetch_related("events"), now)
    review = {line.certificate.pk: line.certificate for line in found if line.status == "review"}
    told = 0
    with transaction.atomic():
        ReviewOpened.objects.filter(closed_at__isnull=True).exclude(certificate__in=review).update(closed_at=now)
        open_now = set(ReviewOpened.objects.filter(closed_at__isnull=True).values_list("certificate_id", flat=True))
        for pk, certificate in review.items():
            if pk not in open_now:
                _tell(certificate, now)
                told += 1
    return told


def _tell(certificate: Certificate, now: datetime) -> None:
    reason = _("Its evidence as it stands today no longer passes, or a dangerous plant was gathered since.")
    ReviewOpened.objects.create(certificate=certificate, reason=reason, told_at=now)
    link = full_address(reverse("courses:certificate", args=[certificate.number]))
    organisers = Person.objects.here().with_role(Role.ORGANISER, timezone.localdate(now)).select_related("user")
    write_to(organisers, "certificate_review", {"certificate": certificate, "reason": reason, "link": link})
