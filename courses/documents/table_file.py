"""Rows of text out of a CSV or XLSX file that somebody made elsewhere. Bytes in, plain rows out."""

import csv
import zipfile
from dataclasses import dataclass
from io import BytesIO, StringIO

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException

MOST_BYTES = 5_000_000
MOST_ROWS = 5_000
MOST_UNPACKED = 50_000_000


class BadTable(Exception):
    """The file cannot be read as a table; `why` is one of the words below."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


TOO_LARGE, TOO_MANY_ROWS, NOT_A_TABLE, NOT_TEXT = "too large", "too many rows", "not a table", "not text"


@dataclass(frozen=True)
class TableRow:
    """One row: its number in the file, counted from 1 with the headings, and its cells by heading."""

    number: int
    cells: dict[str, str]

    @property
    def is_empty(self) -> bool:
        return not any(self.cells.values())


def rows_of(content: bytes) -> tuple[list[str], list[TableRow]]:
    """The headings, as they stand, and the rows under them that are not empty. Raises BadTable.

    A file that begins as a ZIP does is read as XLSX, its first sheet only; every other as CSV in UTF-8, whose
    separator (comma, semicolon or tab) is the one that the headings hold most of.
    """
    if len(content) > MOST_BYTES:
        raise BadTable(TOO_LARGE)
    table = _from_workbook(content) if content.startswith(b"PK") else _from_text(content)
    if not table or not any(table[0]):
        raise BadTable(NOT_A_TABLE)
    if len(table) > MOST_ROWS + 1:
        raise BadTable(TOO_MANY_ROWS)
    headings = [cell.strip() for cell in table[0]]
    rows = [
        TableRow(number, {name: cell.strip() for name, cell in zip(headings, line, strict=False) if name})
        for number, line in enumerate(table[1:], start=2)
    ]
    return headings, [row for row in rows if not row.is_empty]


def _from_text(content: bytes) -> list[list[str]]:
    if b"\0" in content:
        raise BadTable(NOT_A_TABLE)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadTable(NOT_TEXT) from error
    first = text.split("\n", 1)[0]
    separator = max(",;\t", key=first.count)
    try:
        return list(csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        raise BadTable(NOT_A_TABLE) from error


def _from_workbook(content: bytes) -> list[list[str]]:
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            if sum(each.file_size for each in archive.infolist()) > MOST_UNPACKED:
                raise BadTable(TOO_LARGE)
        book = load_workbook(BytesIO(content), read_only=True, data_only=True, keep_links=False)
        sheet = book.worksheets[0]
        table = []
        for line in sheet.iter_rows(values_only=True, max_row=MOST_ROWS + 2):
            table.append(["" if cell is None else str(cell) for cell in line])
        return table
    except (InvalidFileException, zipfile.BadZipFile, KeyError, IndexError, ValueError, OSError) as error:
        raise BadTable(NOT_A_TABLE) from error
