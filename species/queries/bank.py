"""The bank as its keepers see it, and the next specimen that wants a name."""

from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Q, QuerySet

from species.models import DeterminerLink, Specimen
from species.rules.vocabulary import Settlement, Use


def specimens_in_bank(filters: dict[str, str]) -> QuerySet[Specimen]:
    """Specimens by species key, stage, use and settlement; words that are no such value find nothing."""
    rows = Specimen.objects.in_the_bank().select_related("species", "individual__locality")
    columns = {"species": "species__key", "stage": "stage", "use": "use", "settlement": "settlement"}
    wanted: dict[str, Any] = {columns[name]: value for name, value in filters.items() if name in columns and value}
    return rows.filter(**wanted).annotate(photo_count=Count("photos")).order_by("-seen_on", "-pk")


@dataclass(frozen=True)
class BankCount:
    """How many specimens of one species the bank holds."""

    key: str
    name: str
    teaching: int
    assessment: int
    waiting: int


def bank_counts() -> list[BankCount]:
    """Counts by species: what can teach, what can assess, what lacks a second name; one query."""
    confirmed = Q(settlement=Settlement.CONFIRMED)
    rows = (
        Specimen.objects.in_the_bank()
        .values("species__key", "species__name")
        .annotate(
            teaching=Count("pk", filter=Q(use=Use.TEACHING)),
            assessment=Count("pk", filter=Q(use=Use.ASSESSMENT) & confirmed),
            waiting=Count("pk", filter=~confirmed),
        )
        .order_by("species__name")
    )
    return [
        BankCount(
            row["species__key"] or "", row["species__name"] or "", row["teaching"], row["assessment"], row["waiting"]
        )
        for row in rows
    ]


def next_to_name(user_id: int) -> Specimen | None:
    """The next specimen that lacks a second name and that this person has not named; the oldest first."""
    rows = Specimen.objects.waiting_for_determination_by(user_id).filter(photos__isnull=False)
    return rows.prefetch_related("photos__renditions").order_by("added_at", "pk").distinct().first()


def next_to_name_by_link(link: DeterminerLink) -> Specimen | None:
    """The next specimen of an invitation that the outsider has not named."""
    rows = link.specimens.exclude(determinations__link=link).prefetch_related("photos__renditions")
    return rows.order_by("added_at", "pk").first()
