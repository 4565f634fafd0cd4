"""The domain words for finding rows of papers, sittings and evidence."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any, NoReturn, Self

from django.core.exceptions import ValidationError
from django.db.models import F, Q, QuerySet
from django.utils.translation import gettext_lazy as _

from assessments.rules.appeals import ENDS, OUTCOMES, Step
from species.rules.vocabulary import Settlement, Use

MINUTE_FOR_UNDOING = timedelta(seconds=60)
"""How long a handed-in sitting can be taken back; a choice."""


class StandardQuerySet(QuerySet):
    """Versions of standards."""

    def in_use(self) -> Self:
        """Versions that papers may be set for: put to use, and not followed by a newer one in use."""
        return self.put_to_use().exclude(followed_by__in_use_since__isnull=False)

    def put_to_use(self) -> Self:
        """Versions that are, or once were, in use: they never change any more."""
        return self.filter(in_use_since__isnull=False)

    def drafts(self) -> Self:
        return self.filter(in_use_since__isnull=True)


class PaperQuerySet(QuerySet):
    """Papers, by whose they are."""

    def set_by_person(self, person_id: int) -> Self:
        return self.filter(set_by_id=person_id)

    def standing(self) -> Self:
        """Papers that were not withdrawn before they opened."""
        return self.filter(withdrawn_at__isnull=True)


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

    def standing(self) -> Self:
        """Sittings that were not annulled."""
        return self.filter(annulled_at__isnull=True)

    def under_way(self) -> Self:
        return self.standing().filter(handed_in_at__isnull=True)

    def handed_in(self) -> Self:
        return self.filter(handed_in_at__isnull=False)

    def settled(self) -> Self:
        """Sittings whose evidence is written: they can no longer be taken back."""
        return self.filter(settled_at__isnull=False)

    def due(self, now: datetime) -> Self:
        """Sittings that have to be closed or settled by now."""
        late = Q(handed_in_at__isnull=True, closes_at__lte=now)
        over = Q(handed_in_at__lte=now - MINUTE_FOR_UNDOING)
        over |= Q(handed_in_at__isnull=False, closes_at__lte=now)
        return self.standing().filter(late | over, settled_at__isnull=True)


class QuestionQuerySet(QuerySet):
    """Questions of sittings."""

    def shown(self) -> Self:
        """Questions that the person has had before them."""
        return self.filter(first_shown_at__isnull=False)

    def of_seat(self, person_id: int, paper_key: str) -> Self:
        """The questions of one person's sitting of one paper; an annulled one has none."""
        return self.filter(
            sitting__seat__person_id=person_id,
            sitting__seat__paper__key=paper_key,
            sitting__annulled_at__isnull=True,
        )


class EvidenceQuerySet(QuerySet):
    """Evidence, in the order in which it counts. Rows are added, and never changed or removed."""

    def of_people(self, people: list[int]) -> Self:
        return self.filter(person_id__in=people)

    def asked_in(self, papers: Iterable[int], spot_tests: Iterable[int]) -> Self:
        """Evidence from these papers and these spot tests, by their ids; querysets of ids will do."""
        return self.filter(Q(sitting__seat__paper__in=papers) | Q(station__spot_test__in=spot_tests))

    def in_order(self) -> Self:
        return self.order_by("person_id", "opened_at", "position", "id")

    def update(self, **kwargs: Any) -> NoReturn:
        raise ValidationError(_("Evidence is never changed; void the specimen instead."))

    def delete(self) -> NoReturn:
        raise ValidationError(_("Evidence is never deleted; void the specimen instead."))


class VoidingQuerySet(QuerySet):
    """Voidings of whole specimens."""

    def standing(self) -> Self:
        return self.filter(lifted_at__isnull=True)


class AppealQuerySet(QuerySet):
    """Appeals, by whose they are and how far they got."""

    def of(self, person_id: int) -> Self:
        return self.filter(evidence__person_id=person_id)

    def undecided(self) -> Self:
        """Appeals that somebody has to decide: neither decided nor withdrawn."""
        return self.exclude(steps__kind__in=[end.value for end in ENDS])

    def decided(self) -> Self:
        return self.filter(steps__kind__in=[outcome.value for outcome in OUTCOMES])

    def waiting_for_names(self) -> Self:
        """Undecided appeals for which the plant is being named anew."""
        return self.undecided().filter(steps__kind=Step.NAMES_ASKED.value)


class PracticeTurnQuerySet(QuerySet):
    """Turns of rounds of practice."""

    def unanswered(self) -> Self:
        return self.filter(answered_at__isnull=True)

    def answered(self) -> Self:
        return self.filter(answered_at__isnull=False)

    def showable(self) -> Self:
        """Turns whose picture is still a teaching one, with a name that two people agree on and that is of the pair.

        A specimen can be moved to the tests, retired or named anew between the planning of a round and the look.
        """
        species = "photo__specimen__species"
        of_the_pair = Q(**{species: F("pair__gathered")}) | Q(**{species: F("pair__mistaken")})
        return self.filter(
            of_the_pair,
            photo__specimen__use=Use.TEACHING,
            photo__specimen__settlement=Settlement.CONFIRMED,
            photo__specimen__retired_on__isnull=True,
        )
