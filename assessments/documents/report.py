"""The technical report on paper: as many A4 pages as it takes, tagged, from finished words. Same words, same bytes."""

from collections.abc import Sequence
from typing import Any

from reportlab.lib.utils import simpleSplit

from assessments.documents.report_words import Chapter, Figure, FigureTable, Report
from species.documents.fonts import SERIF, CannotPrint, unprintable
from species.documents.page import INK, MARGIN, PAGE_HEIGHT, PAGE_WIDTH, QUIET, Paper

WIDTH = PAGE_WIDTH - 2 * MARGIN
FOOT = 54.0
BODY, SMALL, CELL = 9.5, 7.8, 8.2
LEADING = 1.34
PADDING = 4.0


class _Sheet:
    """The paper under way, and how far down it is written; turns the page where something has no room."""

    def __init__(self, report: Report) -> None:
        self.paper = Paper(f"{report.title}: {report.standard}", report.language, report.school, report.standard)
        self.foot = f"{report.school} · {report.standard} · {report.dated}"
        self.page = 1
        self.y = PAGE_HEIGHT - MARGIN
        self._number()

    def _number(self) -> None:
        with self.paper.ornament():
            lines = simpleSplit(f"{self.page} · {self.foot}", SERIF, SMALL, WIDTH)
            self.paper.write(MARGIN, MARGIN - 16, _printable(lines[0]), SMALL, colour=QUIET)

    def room_for(self, height: float) -> None:
        """Turn the page unless there is so much room left."""
        if self.y - height < FOOT:
            self.paper.turn()
            self.page += 1
            self.y = PAGE_HEIGHT - MARGIN
            self._number()

    def say(
        self,
        text: str,
        size: float = BODY,
        *,
        role: str = "P",
        above: float = 4,
        indent: float = 0,
        bold: bool = False,
        colour: Any = INK,
    ) -> None:
        """One paragraph or heading; a long one goes on overleaf line by line, in elements of their own."""
        width = WIDTH - indent
        lines = simpleSplit(_printable(text), SERIF, size, width)
        keep = size * LEADING * (len(lines) + (3 if role.startswith("H") else 0))
        self.room_for(min(above + keep, PAGE_HEIGHT / 3))
        self.y -= above + size
        for start in range(0, len(lines), 40):
            part = " ".join(lines[start : start + 40])
            self.room_for(size * LEADING * min(40, len(lines) - start))
            self.y = self.paper.text(
                MARGIN + indent,
                self.y,
                part,
                size,
                role=role,
                width=width,
                leading=LEADING,
                bold=bold,
                colour=colour,
            )
        self.y += size  # the next thing measures from the last line written


def draw_report(report: Report) -> bytes:
    """The PDF. Raises species.documents.page.CannotPrint where a text holds letters that the fonts lack."""
    sheet = _Sheet(report)
    sheet.say(report.school, 11, above=0, bold=True)
    sheet.say(report.title, 19, role="H1", above=8)
    sheet.say(report.standard, 13, above=4)
    sheet.say(report.dated, BODY, colour=QUIET)
    sheet.say(report.how_to_read, BODY, colour=QUIET)
    for chapter in report.chapters:
        _chapter(sheet, chapter)
    for sentence in report.cautions:
        sheet.say(sentence, SMALL, above=8, colour=QUIET)
    return sheet.paper.finish()


def _chapter(sheet: _Sheet, chapter: Chapter) -> None:
    sheet.y -= 8
    sheet.room_for(90)
    sheet.paper.rule(sheet.y)
    sheet.say(f"{chapter.code} · {chapter.title}", 12.5, role="H2", above=8, bold=True)
    for paragraph in chapter.paragraphs:
        sheet.say(paragraph)
    for quote in (each for each in chapter.quotes if each.text):
        sheet.say(quote.label, SMALL, above=6, colour=QUIET)
        sheet.say(quote.text, role="BlockQuote", above=1, indent=14)
    for figure in chapter.figures:
        _figure(sheet, figure)
    for table in chapter.tables:
        _table(sheet, table)


def _figure(sheet: _Sheet, figure: Figure) -> None:
    sheet.room_for(40)  # the figure never stands without its count below it
    sheet.say(f"{figure.label}: {figure.value}", above=5)
    sheet.say(f"n = {figure.count} ({figure.counted}) · {figure.query}", SMALL, above=0, indent=14, colour=QUIET)


def _table(sheet: _Sheet, table: FigureTable) -> None:
    sheet.room_for(100)
    sheet.say(table.caption, BODY, role="H3", above=10, bold=True)
    if not table.rows:
        sheet.say(f"n = 0 ({table.counted}) · {table.query}", SMALL, above=0, colour=QUIET)
        return
    sheet.say(table.query, SMALL, above=0, colour=QUIET)
    sheet.y -= 4
    rows = [table.headings, *table.with_counts]
    widths = _widths(rows)
    with sheet.paper.group("Table"):
        for number, row in enumerate(rows):
            _row(sheet, row, widths, is_head=number == 0)


def _widths(rows: Sequence[Sequence[str]]) -> list[float]:
    """Widths of columns by the longest of their words, never less than a ninth of the longest column."""
    longest = [max(8, *(min(len(row[place]), 46) for row in rows)) for place in range(len(rows[0]))]
    return [WIDTH * each / sum(longest) for each in longest]


def _row(sheet: _Sheet, row: Sequence[str], widths: Sequence[float], *, is_head: bool) -> None:
    cells = [
        simpleSplit(_printable(cell), SERIF, CELL, wide - PADDING) or [""]
        for cell, wide in zip(row, widths, strict=True)
    ]
    height = CELL * LEADING * max(map(len, cells)) + PADDING
    sheet.room_for(height + (40 if is_head else 0))
    sheet.paper.rule(sheet.y - 1, width=0.4)
    x = MARGIN
    with sheet.paper.group("TR"):
        for place, (lines, wide) in enumerate(zip(cells, widths, strict=True)):
            role, scope = ("TH", "Column") if is_head else ("TH", "Row") if place == 0 else ("TD", "")
            with sheet.paper.element(role, scope=scope):
                for line_number, line in enumerate(lines):
                    y = sheet.y - CELL - line_number * CELL * LEADING - 2
                    sheet.paper.write(x, y, line, CELL, bold=is_head)
            x += wide
    sheet.y -= height


def _printable(text: str) -> str:
    """The text on one line. CannotPrint for letters that the fonts lack."""
    plain = " ".join(text.split())
    missing = unprintable(plain)
    if missing:
        raise CannotPrint(missing)
    return plain
