"""A table as a CSV file: RFC 4180, UTF-8 with a byte order mark, and nothing in it that a spreadsheet would run."""

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

RISKY = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins like this is taken for a formula by spreadsheets; an apostrophe in front makes it text."""


def written_table(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """The file; whole numbers stay numbers, everything else is text."""
    out = StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([safe_cell(column) for column in columns])
    writer.writerows([safe_cell(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def safe_cell(cell: object) -> object:
    """The cell as it may stand in a spreadsheet."""
    if isinstance(cell, int | float):
        return cell
    text = str(cell)
    return f"'{text}" if text.startswith(RISKY) else text
