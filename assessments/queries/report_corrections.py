"""What the report of a standard counts in appeals, and in specimens that were voided."""

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass
from statistics import median

from django.db.models import Count, Exists, OuterRef, Q

from assessments.models import Appeal, AppealStep, Evidence, Voiding
from assessments.rules.appeals import ENDS, Step


@dataclass(frozen=True, slots=True)
class AppealCounts:
    """Appeals against questions on these species: received, decided, upheld either way, withdrawn, by someone involved.

    `days`: from receiving to deciding, median, in days; None where none is decided.
    """

    received: int
    voided: int
    named_anew: int
    dismissed: int
    withdrawn: int
    by_somebody_involved: int
    days: float | None

    @property
    def upheld(self) -> int:
        return self.voided + self.named_anew

    @property
    def decided(self) -> int:
        return self.upheld + self.dismissed


@dataclass(frozen=True, slots=True)
class Corrections:
    """Voidings of specimens that somebody had answered: still standing, lifted, and the people concerned."""

    standing: int
    lifted: int
    people: int


def corrections(species: Collection[str]) -> Corrections:
    """What was voided after somebody had answered it, and whom that concerned; two queries."""
    answered = Evidence.objects.filter(specimen=OuterRef("specimen"))
    voidings = Voiding.objects.filter(Exists(answered), specimen__species__key__in=species)
    counted = voidings.aggregate(
        standing=Count("pk", filter=Q(lifted_at__isnull=True)), lifted=Count("pk", filter=Q(lifted_at__isnull=False))
    )
    void = Voiding.objects.filter(specimen=OuterRef("specimen"))
    people = Evidence.objects.filter(Exists(void), specimen__species__key__in=species)
    return Corrections(
        **counted,
        people=people.order_by().values("person").distinct().count(),
    )


def appeal_counts(species: Collection[str]) -> AppealCounts:
    """Appeals against answers that were held against these species, whatever the plant is called now; two queries."""
    appeals = Appeal.objects.filter(held_for__key__in=species)
    ended = AppealStep.objects.filter(appeal__in=appeals, kind__in=[end.value for end in ENDS])
    kinds: Counter[str] = Counter()
    involved, days = 0, []
    for kind, at, received_at, exception in ended.values_list("kind", "at", "appeal__received_at", "exception"):
        kinds[kind] += 1
        if kind != Step.WITHDRAWN.value:
            involved += bool(exception)
            days.append((at - received_at).total_seconds() / 86400)
    return AppealCounts(
        received=appeals.count(),
        voided=kinds[Step.VOIDED.value],
        named_anew=kinds[Step.NAMED_ANEW.value],
        dismissed=kinds[Step.DISMISSED.value],
        withdrawn=kinds[Step.WITHDRAWN.value],
        by_somebody_involved=involved,
        days=median(days) if days else None,
    )
