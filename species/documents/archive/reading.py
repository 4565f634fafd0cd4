"""An archive that came in, as rows by term: looked through with limits, nothing of it written anywhere."""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from io import StringIO
from typing import IO

from species.documents.archive.describing import Description, described_tables
from species.documents.archive.meta import EML, META
from species.documents.archives import ArchiveLimits, BrokenMember, Member, members_of
from species.rules.darwin.rows import ReadRow
from species.rules.darwin.slips import Notes, Remark, Wrong

LIMITS = ArchiveLimits(members=5_000, ratio=100)
"""A table of many like rows packs far better than a photograph does."""
LARGEST_TABLE = 50_000_000
LARGEST_XML = 1_000_000
NOTHING = ("NULL", "\\N")
"""What databases print for an empty cell."""


@dataclass(frozen=True)
class ReadArchive:
    """What an archive holds. `rows` by row type; `files`: all that is no table, by path."""

    core: str = ""
    rows: Mapping[str, tuple[ReadRow, ...]] = field(default_factory=dict)
    files: Mapping[str, Member] = field(default_factory=dict)

    def of_core(self, row_type: str) -> dict[str, list[ReadRow]]:
        """The rows of an extension by the id of their core row."""
        found: dict[str, list[ReadRow]] = {}
        for row in self.rows.get(row_type, ()):
            found.setdefault(row.core, []).append(row)
        return found


def read_archive(file: IO[bytes], size: int, notes: Notes, limits: ArchiveLimits = LIMITS) -> ReadArchive:
    """Read an archive of `size` bytes, which has to stay open while its pictures are read.

    What is wrong with it is noted. Raises BadArchive for what is no archive, or a trap.
    """
    members = {each.name: each for each in members_of(file, size, limits)}
    if META not in members:
        notes.add(Wrong.NO_META, META)
        return ReadArchive()
    content = _content(members.pop(META), LARGEST_XML, notes)
    members.pop(EML, None)
    tables = described_tables(content, notes) if content is not None else ()
    rows: dict[str, list[ReadRow]] = {}
    for table in tables:
        for name in table.files:
            rows.setdefault(table.row_type, []).extend(_rows_of(name, members.pop(name, None), table, notes))
    core = tables[0].row_type if tables else ""
    _check_keys(core, rows, notes)
    return ReadArchive(core, {kind: tuple(each) for kind, each in rows.items()}, members)


def _content(member: Member, largest: int, notes: Notes) -> bytes | None:
    if member.size > largest:
        notes.add(Wrong.TABLE_TOO_LARGE, member.name, most=largest)
        return None
    try:
        return member.read()
    except BrokenMember:
        notes.add(Wrong.BROKEN, member.name)
        return None


def _rows_of(name: str, member: Member | None, table: Description, notes: Notes) -> Iterator[ReadRow]:
    if member is None:
        notes.add(Wrong.FILE_MISSING, name)
        return
    content = _content(member, LARGEST_TABLE, notes)
    if content is None:
        return
    try:
        text = content.decode(table.encoding).removeprefix("\ufeff")
    except UnicodeError:
        notes.add(Wrong.NOT_TEXT, name, encoding=table.encoding)
        return
    try:
        records = list(_reader(text, table))
    except csv.Error as error:
        notes.add(Wrong.NOT_A_TABLE, name, reason=error)
        return
    columns = max([table.key, *(each.place for each in table.columns if each.place is not None)]) + 1
    for number, cells in enumerate(records[table.header_lines :], start=table.header_lines + 1):
        if any(cells):
            yield _row(name, number, cells, columns, table, notes)


def _reader(text: str, table: Description) -> Iterator[list[str]]:
    lines = StringIO(text, newline="")
    if not table.quote:
        return csv.reader(lines, delimiter=table.delimiter, quoting=csv.QUOTE_NONE, strict=True)
    return csv.reader(lines, delimiter=table.delimiter, quotechar=table.quote, strict=True)


def _row(name: str, number: int, cells: list[str], columns: int, table: Description, notes: Notes) -> ReadRow:
    if len(cells) < columns:
        notes.add(Wrong.CELLS, name, number, cells=len(cells), columns=columns)
        cells = cells + [""] * (columns - len(cells))
    found: dict[str, str] = {}
    for column in table.columns:
        value = cells[column.place].strip() if column.place is not None else ""
        if value in NOTHING:
            notes.add(Wrong.NULL_TEXT, name, number, column.term.rsplit("/", 1)[-1], value=value)
        elif value or column.default:
            found[column.term] = (value or column.default).replace("\r\n", "\n").replace("\r", "\n")
    return ReadRow(name, number, cells[table.key].strip(), found)


def _check_keys(core: str, rows: Mapping[str, list[ReadRow]], notes: Notes) -> None:
    first: dict[str, ReadRow] = {}
    for row in rows.get(core, ()):
        if not row.core:
            notes.add(Wrong.EMPTY, row.file, row.number, "id")
        elif row.core in first:
            notes.add(Wrong.TWICE, row.file, row.number, "id", value=row.core, first=first[row.core].number)
        first.setdefault(row.core, row)
    for kind, extension in rows.items():
        for row in extension if kind != core else ():
            if row.core not in first:
                notes.add(Wrong.NO_CORE_ROW, row.file, row.number, "coreid", value=row.core)


def note_files_aside(archive: ReadArchive, used: set[str], notes: Notes) -> None:
    """Remark on every file that no table names: it was not opened."""
    for path in sorted(archive.files.keys() - used):
        notes.add(Remark.FILE_ASIDE, path)
