"""Papers as those who set them see them."""

from datetime import datetime
from typing import TYPE_CHECKING, TypedDict

from django.contrib.auth.models import User
from django.db.models import Count, Q, QuerySet

from assessments.models import Paper, Seat, Standard
from species.models import Pair

from .sittings import SeatState, seat_state

if TYPE_CHECKING:
    from django_stubs_ext import WithAnnotations


class Counts(TypedDict):
    """How many may sit a paper, have begun it, and have handed it in."""

    seat_count: int
    opened_count: int
    handed_in_count: int


def papers_with_counts() -> "QuerySet[WithAnnotations[Paper, Counts]]":
    """Papers with `seat_count`, `opened_count` and `handed_in_count`, newest first."""
    return Paper.objects.select_related("standard", "set_by").annotate(
        seat_count=Count("seats"),
        opened_count=Count("seats__sitting"),
        handed_in_count=Count("seats__sitting", filter=Q(seats__sitting__handed_in_at__isnull=False)),
    )


def seats_of_paper(paper: Paper, now: datetime) -> list[tuple[Seat, SeatState]]:
    """Who may sit a paper, by name, how far they are and what was agreed; constant queries. No result is among it."""
    seats = paper.seats.select_related("person", "sitting", "sitting__annulled_by", "paper").prefetch_related(
        "adjustments__made_by"
    )
    ordered = seats.order_by("person__first_name", "person__last_name", "person__email")
    return [(seat, seat_state(seat, now)) for seat in ordered]


def sitters_of(paper: Paper) -> list[User]:
    """Who has a seat in a paper; one query."""
    return list(User.objects.filter(seats__paper=paper).order_by("pk"))


def standards_to_ask(*also: int) -> QuerySet[Standard]:
    """The standards that papers may be set for, for participants first, and those of these ids."""
    in_use = Standard.objects.in_use().values("pk")
    wanted = Standard.objects.filter(Q(pk__in=in_use) | Q(pk__in=also, in_use_since__isnull=False))
    return wanted.order_by("leads_walks", "name", "version")


def pairs_to_ask(standards: QuerySet[Standard]) -> QuerySet[Pair]:
    """The dangerous pairs that any of these standards asks for, with what their names need."""
    asked = Pair.objects.dangerous().filter(in_standards__standard__in=standards.order_by().values("pk")).distinct()
    named = asked.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    return named.order_by("order", "key")
