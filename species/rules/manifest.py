"""The manifest of a folder of photographs: a table with one row for each file, read and checked.

Only the column `file` must be there; an empty cell means "not said". Rows that give the same `specimen` are
pictures of one plant at one time, so they have to agree on what was seen, where and when.
"""

import unicodedata
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from species.rules.names import nearest_names, squeezed
from species.rules.tables.cells import Cells
from species.rules.tables.problems import Fault, Problem, Problems
from species.rules.tables.rows import raw_rows
from species.rules.vocabulary import Stage, Use

COLUMNS = (
    "file", "species", "stage", "use", "locality", "date", "form", "part", "photographer", "licence", "specimen",
    "rights",
)  # fmt: skip
SHARED = ("species", "stage", "use", "locality", "day", "form")
"""What the rows of one specimen must agree on."""


@dataclass(frozen=True)
class Entry:
    """What is said about one file. `species` is a key, `said` the name as written; empty words mean not said."""

    species: str = ""
    said: str = ""
    stage: str = ""
    use: Use | None = None
    locality: str = ""
    day: date | None = None
    form: str = ""
    part: str = ""
    photographer: str = ""
    licence: str = ""
    specimen: str = ""
    rights: str = ""


@dataclass(frozen=True)
class Manifest:
    """The entries by file, what is wrong with single files, and what is wrong with the table as a whole."""

    entries: Mapping[str, Entry] = field(default_factory=dict)
    of_file: Mapping[str, tuple[Problem, ...]] = field(default_factory=dict)
    of_table: tuple[Problem, ...] = ()


def plain_path(name: str) -> str:
    """A path as it is compared: forward slashes, one way of writing accents."""
    return unicodedata.normalize("NFC", name.strip().replace("\\", "/").removeprefix("./"))


def read_manifest(title: str, content: bytes, files: Collection[str], names: Mapping[str, str]) -> Manifest:
    """Read a manifest called `title`.

    files: paths in the folder as `plain_path` writes them. names: every name of every species to its key.
    """
    problems = Problems()
    rows = [Cells(row, problems) for row in raw_rows(title, content, problems, COLUMNS, ("file",))]
    if problems.found:
        return Manifest(of_table=tuple(problems.found))
    by_name = {squeezed(name): key for name, key in names.items()}
    reader = _Reader(frozenset(files), by_name, list(names))
    for row in rows:
        reader.read(row)
    of_file: dict[str, list[Problem]] = {}
    for problem in problems.found:
        of_file.setdefault(reader.file_of_row[problem.row], []).append(problem)
    found = {file: tuple(each) for file, each in of_file.items() if file in reader.files}
    of_table = tuple(problem for file, each in of_file.items() if file not in reader.files for problem in each)
    return Manifest(reader.entries, found, of_table)


class _Reader:
    """Goes through the rows and remembers which file and which specimen stood where."""

    def __init__(self, files: frozenset[str], by_name: Mapping[str, str], names: list[str]) -> None:
        self.files, self.by_name, self.names = files, by_name, names
        self.entries: dict[str, Entry] = {}
        self.file_of_row: dict[int, str] = {}
        self.row_of_file: dict[str, int] = {}
        self.specimens: dict[str, tuple[int, Entry]] = {}

    def read(self, cells: Cells) -> None:
        file = plain_path(cells.text("file", required=True))
        self.file_of_row[cells.number] = file
        if file and file not in self.files:
            cells.fault("file", Fault.FILE_NOT_THERE, value=file, nearest=_nearest(file, self.files))
        elif file in self.row_of_file:
            cells.fault("file", Fault.TWICE, value=file, first=f"row {self.row_of_file[file]}")
        self.row_of_file.setdefault(file, cells.number)
        entry = self._entry(cells)
        self._check_specimen(cells, entry)
        self.entries.setdefault(file, entry)

    def _entry(self, cells: Cells) -> Entry:
        said = cells.text("species", 160)
        key = self.by_name.get(squeezed(said), "")
        if said and not key:
            cells.fault("species", Fault.UNKNOWN_NAME, value=said, nearest=_nearest(said, self.names, 3))
        return Entry(
            species=key,
            said=said,
            stage=cells.choice("stage", Stage).value if cells.text("stage") else "",
            use=cells.choice("use", Use) if cells.text("use") else None,
            locality=cells.text("locality", 120),
            day=_day(cells),
            form=cells.text("form", 60),
            part=cells.text("part", 60),
            photographer=cells.text("photographer", 120),
            licence=cells.text("licence", 200),
            specimen=cells.text("specimen", 120),
            rights=cells.text("rights", 120),
        )

    def _check_specimen(self, cells: Cells, entry: Entry) -> None:
        if not entry.specimen:
            return
        first, other = self.specimens.setdefault(entry.specimen, (cells.number, entry))
        for column, mine, theirs in _differences(entry, other):
            cells.fault(
                column, Fault.SPECIMEN_DIFFERS, specimen=entry.specimen, value=mine, other=theirs, first=first
            )  # fmt: skip


def _differences(entry: Entry, other: Entry) -> Iterator[tuple[str, object, object]]:
    for name in SHARED:
        mine, theirs = getattr(entry, name), getattr(other, name)
        if mine != theirs:
            yield ("date" if name == "day" else name), mine or "", theirs or ""


def _day(cells: Cells) -> date | None:
    text = cells.text("date")
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        cells.fault("date", Fault.NOT_A_DATE, value=text)
        return None


def _nearest(name: str, known: Collection[str], limit: int = 1) -> str:
    return ", ".join(nearest_names(name, known, limit))
