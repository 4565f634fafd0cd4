"""A small school and its two archives."""

import pytest

from tests.species.darwin.archives import (
    full_plant,
    named,
    photographed,
    species_archive,
    specimen,
    specimen_archive,
    user,
    with_region,
)


@pytest.fixture
def specimens() -> bytes:
    """An archive of one find with two determinations, a picture and a region on it."""
    sorrel = full_plant()
    row = specimen(sorrel)
    named(row, sorrel, user("a@example.org", "Ann One"), 'sorrel, "sour"\nor dock')
    named(row, sorrel, user("b@example.org", "Bea Two"), "cf. Rumex acetosa")
    with_region(photographed(row))
    return specimen_archive(with_pictures=True)


@pytest.fixture
def both(specimens: bytes) -> list[bytes]:
    return [species_archive(), specimens]
