"""CSV text to rows: header checked, cells trimmed, rows numbered as a spreadsheet shows them."""

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import StringIO

from species.rules.names import nearest_names
from species.rules.tables.layout import COLUMNS
from species.rules.tables.problems import Fault, Problems

_DELIMITERS = ",;\t"


@dataclass(frozen=True)
class RawRow:
    """One row as it stands in a file; every column of the layout has a cell, perhaps empty."""

    file: str
    number: int
    cells: Mapping[str, str]


def raw_rows(
    file: str,
    content: bytes | None,
    problems: Problems,
    columns: Sequence[str] | None = None,
    required: Sequence[str] | None = None,
) -> tuple[RawRow, ...]:
    """The rows of one file; blank rows are passed over. `columns`: by default those of the file in the layout,
    and all of them `required`.

    Commas, semicolons or tabs may separate the cells: which of them is read off the header. A file that is
    missing (`None`) or has not the right columns is a problem, and gives the rows that can still be read.
    """
    if content is None:
        problems.add(file, 0, "", Fault.FILE_MISSING)
        return ()
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        problems.add(file, content.count(b"\n", 0, error.start) + 1, "", Fault.NOT_TEXT)
        return ()
    header_line = text.split("\n", 1)[0]
    delimiter = max(_DELIMITERS, key=header_line.count)
    try:
        rows = list(csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True))
    except csv.Error as error:
        problems.add(file, 0, "", Fault.NOT_A_TABLE, reason=error)
        return ()
    header = [cell.strip() for cell in rows[0]] if rows else []
    wanted = COLUMNS[file] if columns is None else columns
    _check_header(file, header, problems, wanted, wanted if required is None else required)
    return tuple(
        _row(file, number, header, cells, problems, wanted)
        for number, cells in enumerate(rows[1:], start=2)
        if any(cell.strip() for cell in cells)
    )


def _check_header(
    file: str, header: list[str], problems: Problems, wanted: Sequence[str], required: Sequence[str]
) -> None:
    for column in required:
        if column not in header:
            problems.add(file, 1, column, Fault.COLUMN_MISSING, columns=", ".join(wanted))
    for column in header:
        if column and column not in wanted:
            near = nearest_names(column, wanted, 1)
            problems.add(file, 1, column, Fault.COLUMN_UNKNOWN, nearest=", ".join(near))
        elif column and header.count(column) > 1:
            problems.add(file, 1, column, Fault.TWICE, value=column, what="column", first=1)


def _row(
    file: str, number: int, header: list[str], cells: list[str], problems: Problems, wanted: Sequence[str]
) -> RawRow:
    if any(cell.strip() for cell in cells[len(header) :]):
        problems.add(file, number, "", Fault.TOO_MANY_CELLS, cells=len(cells), columns=len(header))
    given = dict(zip(header, (cell.strip() for cell in cells), strict=False))
    return RawRow(file, number, {column: given.get(column, "") for column in wanted})
