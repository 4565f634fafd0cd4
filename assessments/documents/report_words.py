"""The technical report of a standard in finished words: what page and paper print alike.

Every number stands in a figure or a table, with how many it was counted from, what those are, and the name of the
query that counted them; paragraphs hold none.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Figure:
    """One figure: `count` are the things (`counted`) that it was counted from, by the function `query`.

    `is_public`: whether it stands in the short form too.
    """

    label: str
    value: str
    count: int
    counted: str
    query: str
    is_public: bool = False


@dataclass(frozen=True)
class FigureTable:
    """A table of figures; `counts` holds for each row from how many it was counted."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    counts: tuple[int, ...]
    counted: str
    query: str
    is_public: bool = False

    @property
    def with_counts(self) -> tuple[tuple[str, ...], ...]:
        """The rows with their counts in the last place."""
        return tuple((*row, str(count)) for row, count in zip(self.rows, self.counts, strict=True))

    @property
    def headings(self) -> tuple[str, ...]:
        return (*self.columns, f"n ({self.counted})")


@dataclass(frozen=True)
class Quote:
    """What the school itself wrote, word for word."""

    label: str
    text: str
    is_public: bool = False


@dataclass(frozen=True)
class Chapter:
    """One heading of the report, by its code."""

    code: str
    title: str
    paragraphs: tuple[str, ...] = ()
    quotes: tuple[Quote, ...] = ()
    figures: tuple[Figure, ...] = ()
    tables: tuple[FigureTable, ...] = ()
    is_public: bool = False

    @property
    def in_short(self) -> "Chapter":
        """The chapter with what is public of it."""
        return replace(
            self,
            quotes=tuple(each for each in self.quotes if each.is_public),
            figures=tuple(each for each in self.figures if each.is_public),
            tables=tuple(each for each in self.tables if each.is_public),
        )


@dataclass(frozen=True)
class Report:
    """The report of one version of a standard, as of a day."""

    language: str
    title: str
    school: str
    standard: str
    dated: str
    how_to_read: str
    chapters: tuple[Chapter, ...]
    cautions: tuple[str, ...] = ()

    @property
    def in_short(self) -> "Report":
        """The public form: chapters for everybody, without what concerns single people or the inside of the bank."""
        return replace(self, chapters=tuple(each.in_short for each in self.chapters if each.is_public))

    def counted(self) -> Iterator[Figure | FigureTable]:
        """Everything in it that was counted."""
        for chapter in self.chapters:
            yield from chapter.figures
            yield from chapter.tables
