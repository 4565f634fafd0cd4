"""A year on one page A4: plants down, months across, a letter for each stage that shows. Same words, same bytes."""

from dataclasses import dataclass

from reportlab.lib.pagesizes import A4
from reportlab.pdfbase import pdfmetrics

from species.documents.flow import Block, DoesNotFit, Run, broken, draw_blocks, height_of, plain
from species.documents.fonts import SERIF
from species.documents.page import QUIET, RUST, WARM, Paper
from species.documents.pair_words import Letterhead

MARGIN = 34.0
WIDTH, HEIGHT = A4
LOWEST_ROW, HIGHEST_ROW = 9.5, 24.0
NAMES = 196.0
TYPE = 8.6


@dataclass(frozen=True)
class CalendarRow:
    """One plant; `warning` is empty where it is no danger. `months`: twelve cells, January first."""

    common: str
    scientific: str
    warning: str
    months: tuple[str, ...]


@dataclass(frozen=True)
class CalendarWords:
    """Everything on the page, translated. `key` says what the letters mean."""

    language: str
    letterhead: Letterhead
    title: str
    note: str
    plant: str
    months: tuple[str, ...]
    rows: tuple[CalendarRow, ...]
    key: str
    cautions: tuple[str, ...]


def draw_calendar(words: CalendarWords) -> bytes:
    """One page A4. Raises DoesNotFit where there are too many plants for one page, CannotPrint."""
    inner = WIDTH - 2 * MARGIN
    head = (
        plain(words.letterhead.school, colour=QUIET, scale=0.9, above=0),
        plain(words.title, role="H1", bold=True, scale=2.0, above=0.2),
        plain(words.note),
        plain(words.key, colour=QUIET),
    )
    foot = (plain(" ".join((*words.cautions, words.letterhead.call)), scale=0.86),)
    room = HEIGHT - 2 * MARGIN - height_of(head, TYPE, inner) - height_of(foot, TYPE, inner) - 8
    row = min(HIGHEST_ROW, room / (len(words.rows) + 1))
    if row < LOWEST_ROW:
        raise DoesNotFit
    paper = Paper(words.title, words.language, words.letterhead.school, words.note)
    y = draw_blocks(paper, head, MARGIN, HEIGHT - MARGIN, inner, TYPE) - 4
    with paper.group("Table"):
        _months(paper, words, y, row)
        size = _letter_size(words, row)
        for number, each in enumerate(words.rows):
            _row(paper, each, y - row * (number + 1), row, size)
    _lines(paper, y, row, len(words.rows) + 1)
    draw_blocks(paper, foot, MARGIN, y - row * (len(words.rows) + 1) - 4, inner, TYPE)
    return paper.finish()


def _cell() -> float:
    return (WIDTH - 2 * MARGIN - NAMES) / 12


def _base(top: float, row: float, size: float) -> float:
    """Where letters stand in a row, so that they look in its middle."""
    return top - row / 2 - size * 0.35


def _months(paper: Paper, words: CalendarWords, top: float, row: float) -> None:
    size = min(TYPE, row * 0.68)
    with paper.group("TR"):
        with paper.element("TH", scope="Column"):
            paper.write(MARGIN + 2, _base(top, row, size), words.plant, size, colour=QUIET)
        for column, name in enumerate(words.months):
            with paper.element("TH", scope="Column"):
                wide = pdfmetrics.stringWidth(name, SERIF, size)
                x = MARGIN + NAMES + (column + 0.5) * _cell() - wide / 2
                paper.write(x, _base(top, row, size), name, size, bold=True)


def _letter_size(words: CalendarWords, row: float) -> float:
    """The type in which the fullest cell of the table fits its month."""
    cells = {letters for each in words.rows for letters in each.months}
    widest = max((pdfmetrics.stringWidth(letters, SERIF, 1) for letters in cells), default=0)
    return min(TYPE, row * 0.68, (_cell() - 2) / widest if widest else TYPE)


def _row(paper: Paper, each: CalendarRow, top: float, row: float, size: float) -> None:
    with paper.group("TR"):
        _name(paper, each, top, row)
        for column, letters in enumerate(each.months):
            with paper.element("TD"):
                wide = pdfmetrics.stringWidth(letters, SERIF, size)
                x = MARGIN + NAMES + (column + 0.5) * _cell() - wide / 2
                paper.write(x, _base(top, row, size), letters, size)


def _name(paper: Paper, each: CalendarRow, top: float, row: float) -> None:
    """Common name, scientific name and warning on one line, smaller where they are long."""
    runs = [Run(each.common, bold=True), Run(f" {each.scientific}", italic=True, language="la")]
    if each.warning:
        runs.append(Run(f" {each.warning}", bold=True, colour=RUST))
    size = min(TYPE, row * 0.68)
    while len(broken(runs, size, NAMES - 4)) > 1 and size > 3:
        size -= 0.1
    block = Block(tuple(runs), role="TH", above=0)
    draw_blocks(paper, (block,), MARGIN + 2, _base(top, row, size) + size, NAMES, size)


def _lines(paper: Paper, top: float, row: float, count: int) -> None:
    with paper.ornament() as canvas:
        canvas.setStrokeColor(WARM)
        for number in range(count + 1):
            canvas.setLineWidth(0.8 if number in (0, 1, count) else 0.3)
            canvas.line(MARGIN, top - number * row, WIDTH - MARGIN, top - number * row)
        canvas.setLineWidth(0.3)
        for column in range(13):
            x = MARGIN + NAMES + column * _cell()
            canvas.line(x, top, x, top - count * row)
