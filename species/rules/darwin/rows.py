"""Tables of an archive as they are written: a layout, and rows of text by the name of the column."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from species.rules.darwin.layouts import Layout

Row = dict[str, str]
"""The cells that are filled, by the name of their column."""


@dataclass
class Table:
    """One file of an archive on its way out."""

    layout: Layout
    rows: list[Row] = field(default_factory=list)

    def cells(self) -> Iterator[list[str]]:
        """Every row in the order of the columns, line breaks made alike, without blanks around.

        KeyError for a column that the layout lacks.
        """
        names = [each.name for each in self.layout.columns]
        for row in self.rows:
            if strange := row.keys() - set(names):
                raise KeyError(f"{self.layout.file} has no column {', '.join(sorted(strange))}")
            yield [_plain(row.get(name, "")) for name in names]


@dataclass(frozen=True)
class Written:
    """What went into an archive: rows by file, pictures; and what was left out and why."""

    rows: Mapping[str, int]
    pictures: int = 0
    for_assessment: int = 0
    drawn: int = 0
    without_licence: int = 0
    files_missing: int = 0


@dataclass(frozen=True)
class ReadRow:
    """One row on its way in: the id of its core row, and the cells that are filled, by the address of the term."""

    file: str
    number: int
    core: str
    cells: Mapping[str, str]

    def text(self, term: str) -> str:
        return self.cells.get(term, "")


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n").strip()
