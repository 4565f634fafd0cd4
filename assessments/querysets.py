"""The domain words for finding rows of papers, sittings and evidence."""

from datetime import datetime
from typing import Self

from django.db.models import Q, QuerySet


class StandardQuerySet(QuerySet):
    """Versions of standards."""

    def in_use(self) -> Self:
        """Versions that papers may be set for: put to use, and not followed by a newer one in use."""
        return self.filter(in_use_since__isnull=False).exclude(followed_by__in_use_since__isnull=False)

    def drafts(self) -> Self:
        return self.filter(in_use_since__isnull=True)


class SeatQuerySet(QuerySet):
    """Seats: who may sit which paper, and when."""

    def of(self, person_id: int) -> Self:
        return self.filter(person_id=person_id)

    def open_at(self, now: datetime) -> Self:
        return self.filter(opens_at__lte=now).filter(Q(closes_at__isnull=True) | Q(closes_at__gt=now))

    def not_sat(self) -> Self:
        return self.filter(sitting__isnull=True)


class SittingQuerySet(QuerySet):
    """Sittings, by whose they are and how far they got."""

    def of(self, person_id: int) -> Self:
        return self.filter(seat__person_id=person_id)

    def under_way(self) -> Self:
        return self.filter(handed_in_at__isnull=True, annulled_at__isnull=True)

    def handed_in(self) -> Self:
        return self.filter(handed_in_at__isnull=False)

    def shown(self) -> Self:
        """Sittings whose result is open to the person: the undo is over and the evidence written."""
        return self.filter(result_shown_at__isnull=False)

    def past_their_limit(self, now: datetime) -> Self:
        return self.under_way().filter(closes_at__isnull=False, closes_at__lte=now)


class EvidenceQuerySet(QuerySet):
    """Evidence, in the order in which it counts."""

    def of_people(self, people: list[int]) -> Self:
        return self.filter(person_id__in=people)

    def in_order(self) -> Self:
        return self.order_by("person_id", "opened_at", "position", "id")


class VoidingQuerySet(QuerySet):
    """Voidings of whole specimens."""

    def standing(self) -> Self:
        return self.filter(lifted_at__isnull=True)
