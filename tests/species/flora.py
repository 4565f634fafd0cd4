"""The project's own tables, read once for the tests that ask them."""

from functools import cache
from pathlib import Path

from species.rules.tables.layout import COLUMNS
from species.rules.tables.reading import FloraReading, read_flora
from species.rules.tables.records import Flora

FOLDER = Path(__file__).resolve().parents[2] / "species" / "data"


def contents() -> dict[str, bytes | None]:
    """The bytes of every table, free to be changed by a test."""
    return {file: (FOLDER / file).read_bytes() for file in COLUMNS}


@cache
def reading() -> FloraReading:
    return read_flora(dict(contents()))


def flora() -> Flora:
    return reading().flora
