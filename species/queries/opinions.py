"""Determinations as the rule reads them."""

from species.models import Determination
from species.rules.determination import DeterminationFacts

from .archive_people import came_in


def opinion(row: Determination) -> DeterminationFacts:
    """One opinion; `determiner`, `link` and `species` are read from the row, so select them together with it."""
    return DeterminationFacts(
        determiner=determiner_of(row),
        said=row.said,
        determined_at=row.determined_at,
        species=row.species.key if row.species else None,
        species_name=row.species.name if row.species else "",
        order=row.pk,
        is_known=not came_in(row),
    )


def determiner_of(row: Determination) -> str:
    """Who speaks. The e-mail tells people apart, so that nobody confirms their own name through an invitation."""
    email = row.determiner.email if row.determiner else row.link.email if row.link else ""
    return email.strip().lower() or f"user {row.determiner_id}"
