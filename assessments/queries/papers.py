"""Papers as those who set them see them."""

from datetime import datetime

from django.db.models import Count, Q, QuerySet

from assessments.models import Paper, Seat

from .sittings import SeatState, seat_state


def papers_with_counts() -> QuerySet[Paper]:
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
