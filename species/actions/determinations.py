"""Saying what a specimen is. The name and its standing on the specimen follow in the same transaction."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from species.models import Determination, DeterminerLink, Species, Specimen
from species.queries.opinions import opinion
from species.rules.determination import settled


def determine(
    specimen: Specimen,
    *,
    said: str,
    now: datetime,
    species: Species | None = None,
    characters: str = "",
    by: User | None = None,
    link: DeterminerLink | None = None,
    brought_by: User | None = None,
) -> Determination:
    """Record one opinion, of a user or of an outsider with a link; a later one of the same person replaces it.

    `species` is what `said` was found to mean, or None where it means none of the school's plants. `brought_by`
    says whose archive brought the opinion along; such a one stands, but confirms only with one that was given here. An
    opinion that is given here answers a second look that was asked for.
    """
    with transaction.atomic():
        locked = Specimen.objects.select_for_update().get(pk=specimen.pk)
        made = Determination.objects.create(
            specimen=locked,
            determiner=by,
            link=link,
            species=species,
            said=said.strip(),
            characters=characters.strip(),
            determined_at=now,
            brought_by=brought_by,
        )
        settle(locked)
        if brought_by is None:  # what a file brings along is no look at the plant
            locked.second_looks.waiting().update(answer=made)
    specimen.species, specimen.settlement = locked.species, locked.settlement
    return made


def settle(specimen: Specimen) -> Specimen:
    """Write on the specimen what its determinations amount to; the same ones always give the same."""
    rows = list(specimen.determinations.select_related("species", "link", "determiner"))
    found = settled(opinion(row) for row in rows)
    by_key = {row.species.key: row.species for row in rows if row.species}
    specimen.species = by_key.get(found.species or "")
    specimen.settlement = found.settlement.value
    specimen.save(update_fields=["species", "settlement"])
    return specimen
