"""Determinations as the rule reads them."""

from collections.abc import Iterable

from species.models import Determination
from species.rules.determination import DeterminationFacts, Ground, settled


def opinion(row: Determination) -> DeterminationFacts:
    """One opinion; `determiner`, `link` and `species` are read from the row, so select them together with it."""
    return DeterminationFacts(
        determiner=determiner_of(row),
        said=row.said,
        determined_at=row.determined_at,
        species=row.species.key if row.species else None,
        species_name=row.species.name if row.species else "",
        order=row.pk,
        is_known=row.determiner_id is not None and row.brought_by_id is None,
    )


def waits_for_the_school(rows: Iterable[Determination]) -> bool:
    """Whether enough people agree, but nobody of the school among them; the rows as for `opinion`."""
    return settled(opinion(row) for row in rows).ground is Ground.ONLY_OUTSIDERS


def determiner_of(row: Determination) -> str:
    """Who speaks. The e-mail tells people apart, so that nobody confirms their own name through an invitation."""
    email = row.determiner.email if row.determiner else row.link.email if row.link else ""
    return email.strip().lower() or f"user {row.determiner_id}"
