"""The domain words for finding rows of the botany and of the photo bank."""

from datetime import date
from typing import Self

from django.db.models import Q, QuerySet

from species.rules.vocabulary import Danger, Settlement, Use


class SpeciesQuerySet(QuerySet):
    """Species, found by name or by key."""

    def matching(self, normalised: str) -> Self:
        """Species any of whose names holds this text, which was put through `rules.names.normalise`."""
        return self.filter(search_text__contains=normalised) if normalised else self.all()

    def named(self, key: str) -> Self:
        return self.filter(key=key)


class PairQuerySet(QuerySet):
    """Lookalike pairs, by danger and by the species that take part."""

    def dangerous(self) -> Self:
        return self.filter(danger=Danger.DANGEROUS)

    def core(self) -> Self:
        """The pairs that the school proposes as the dangerous pairs of its standards."""
        return self.filter(core=True)

    def of_species(self, species_id: int) -> Self:
        return self.filter(Q(gathered_id=species_id) | Q(mistaken_id=species_id))

    def with_both_species(self) -> Self:
        return self.select_related("gathered", "mistaken")


class SpecimenQuerySet(QuerySet):
    """Specimens, by what they are for and how well their name is established."""

    def for_teaching(self) -> Self:
        return self.filter(use=Use.TEACHING)

    def for_assessment(self) -> Self:
        return self.filter(use=Use.ASSESSMENT)

    def confirmed(self) -> Self:
        return self.filter(settlement=Settlement.CONFIRMED)

    def disputed(self) -> Self:
        return self.filter(settlement=Settlement.DISPUTED)

    def in_the_bank(self) -> Self:
        """Specimens that may be shown: sorted, and not retired."""
        return self.filter(retired_on__isnull=True).exclude(use="")

    def in_the_tray(self) -> Self:
        """Specimens that came in and are not sorted yet: nobody is taught or tested with them."""
        return self.filter(retired_on__isnull=True, use="")

    def drawn(self) -> Self:
        return self.filter(drawing_seed__isnull=False)

    def photographed(self) -> Self:
        return self.filter(drawing_seed__isnull=True)

    def waiting_for_determination_by(self, user_id: int) -> Self:
        """Specimens in the bank that lack a second name and that this person has not named here yet, and those for
        which a second look was asked for, unless by this person, who saw the name."""
        named_here = self.filter(determinations__determiner_id=user_id, determinations__brought_by=None)
        unsettled = self.exclude(settlement=Settlement.CONFIRMED).exclude(pk__in=named_here.values("pk"))
        asked_by_them = self.filter(second_looks__asked_by_id=user_id)
        again = self.to_be_looked_at_again().exclude(pk__in=asked_by_them.values("pk"))
        return self.in_the_bank().filter(Q(pk__in=unsettled.values("pk")) | Q(pk__in=again.values("pk")))

    def to_be_looked_at_again(self) -> Self:
        """Specimens for which a second look was asked for and not given yet."""
        return self.filter(second_looks__isnull=False, second_looks__answer__isnull=True)


class SecondLookQuerySet(QuerySet):
    """Requests for a second look."""

    def waiting(self) -> Self:
        """Those that nobody has answered by a name yet."""
        return self.filter(answer__isnull=True)


class PhotoQuerySet(QuerySet):
    """Photographs, by whom they may be shown to."""

    def for_teaching(self) -> Self:
        """What everybody may see."""
        return self.filter(specimen__use=Use.TEACHING, specimen__retired_on__isnull=True)


class DeterminerLinkQuerySet(QuerySet):
    """Invitations to an outside determiner."""

    def usable(self, today: date) -> Self:
        return self.filter(closes_on__gte=today, withdrawn_on__isnull=True)
