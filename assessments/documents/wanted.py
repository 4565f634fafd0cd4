"""The wanted list on paper, for the pocket of whoever goes out: each A4 page stands for itself, with boxes to tick.

Finished words in, bytes out. Same words, same bytes.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from reportlab.lib.utils import simpleSplit

from species.documents.fonts import ITALIC, SERIF, unprintable
from species.documents.page import INK, MARGIN, PAGE_HEIGHT, PAGE_WIDTH, QUIET, Paper

WIDTH = PAGE_WIDTH - 2 * MARGIN
INDENT, BOX, GAP = 150.0, 11.0, 5.0
BOXES_IN_A_ROW, MOST_BOXES = 8, 24
SIZE, SMALL, LEADING = 10.0, 8.6, 1.32
TOP, FOOT = PAGE_HEIGHT - 56, 74.0


@dataclass(frozen=True)
class SheetLine:
    """One species in one stage: a box for each of `boxes` plants, its names, what helps to find it, a blank to fill."""

    boxes: int
    name: str
    scientific: str
    mark: str
    notes: tuple[str, ...]
    blank: str


@dataclass(frozen=True)
class SheetSection:
    """Lines under a heading, with one sentence of advice."""

    title: str
    advice: str
    lines: tuple[SheetLine, ...]


@dataclass(frozen=True)
class SheetWords:
    """The whole sheet. `page_of` holds {page} and {pages}; `cautions` stand at the foot of every page."""

    title: str
    subtitle: str
    language: str
    author: str
    sections: tuple[SheetSection, ...]
    cautions: str
    page_of: str


def draw_wanted(words: SheetWords) -> bytes:
    """The PDF. A letter that the fonts lack is printed as a question mark: a list is better than none."""
    paper = Paper(_known(words.title), words.language, _known(words.author), _known(words.subtitle))
    pages = _pages(words.sections, TOP - _height_of_head(words) - FOOT)
    for number, (section, lines) in enumerate(pages, 1):
        if number > 1:
            paper.turn()
        y = _heading(paper, section, _head(paper, words)) if lines else _head(paper, words)
        for line in lines:
            y = _line(paper, line, y)
        _foot(paper, words, words.page_of.format(page=number, pages=len(pages)))
    return paper.finish()


def _pages(sections: Iterable[SheetSection], room: float) -> list[tuple[SheetSection, list[SheetLine]]]:
    """What stands on each page, at least one: every section begins one, and no line is cut in two."""
    pages: list[tuple[SheetSection, list[SheetLine]]] = []
    for section in sections:
        left = 0.0
        for line in section.lines:
            if _height(line) > left:
                pages.append((section, []))
                left = room - _height_of_heading(section)
            pages[-1][1].append(line)
            left -= _height(line)
    return pages or [(SheetSection("", "", ()), [])]


def _height_of_head(words: SheetWords) -> float:
    return 17 * LEADING + SMALL * LEADING * len(simpleSplit(_known(words.subtitle), SERIF, SMALL, WIDTH)) + 16


def _height_of_heading(section: SheetSection) -> float:
    return 30 + SMALL * LEADING * len(simpleSplit(_known(section.advice), SERIF, SMALL, WIDTH))


def _height(line: SheetLine) -> float:
    lines = sum(len(simpleSplit(_known(note), SERIF, SMALL, WIDTH - INDENT)) for note in line.notes)
    words = SIZE * LEADING + (lines + 1 + bool(line.blank)) * SMALL * LEADING
    rows = -(-min(line.boxes, MOST_BOXES) // BOXES_IN_A_ROW)
    return max(words, rows * (BOX + GAP)) + 18


def _head(paper: Paper, words: SheetWords) -> float:
    y = paper.text(MARGIN, TOP, _known(words.title), 17, role="H1")
    y = paper.text(MARGIN, y, _known(words.subtitle), SMALL, colour=QUIET, width=WIDTH)
    paper.rule(y + 2)
    return TOP - _height_of_head(words)


def _heading(paper: Paper, section: SheetSection, y: float) -> float:
    y = paper.text(MARGIN, y - 8, _known(section.title), 13, role="H2", bold=True)
    return paper.text(MARGIN, y + 2, _known(section.advice), SMALL, colour=QUIET, width=WIDTH) - 6


def _line(paper: Paper, line: SheetLine, top: float) -> float:
    _boxes(paper, line.boxes, top)
    x = MARGIN + INDENT
    y = paper.text(x, top, _known(f"{line.name} {line.mark}".strip()), SIZE, bold=True, role="H3")
    y = paper.text(x, y + 1, _known(line.scientific), SMALL, font=ITALIC, language="la")
    for note in line.notes:
        y = paper.text(x, y, _known(note), SMALL, width=WIDTH - INDENT)
    if line.blank:
        paper.text(x, y - 3, _known(line.blank), SMALL, colour=QUIET)
    bottom = top - _height(line)
    paper.rule(bottom + SIZE + 5)
    return bottom


def _boxes(paper: Paper, number: int, top: float) -> None:
    """A box for each plant; where there are too many for the space, a figure says how many are left."""
    shown = min(number, MOST_BOXES)
    with paper.ornament() as canvas:
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(0.8)
        for each in range(shown):
            row, column = divmod(each, BOXES_IN_A_ROW)
            canvas.rect(MARGIN + column * (BOX + GAP), top - 2 - row * (BOX + GAP), BOX, BOX)
    if number > shown:
        x = MARGIN + BOXES_IN_A_ROW * (BOX + GAP)
        paper.text(x, top - 2 * (BOX + GAP), f"+{number - shown}", SMALL)


def _foot(paper: Paper, words: SheetWords, page: str) -> None:
    paper.rule(FOOT - 16)
    y = paper.text(MARGIN, FOOT - 28, _known(words.cautions), 7.4, width=WIDTH, colour=QUIET)
    paper.text(MARGIN, y - 2, _known(page), 7.4, colour=QUIET)


def _known(text: str) -> str:
    missing = unprintable(text)
    return "".join("?" if letter in missing else letter for letter in text)
