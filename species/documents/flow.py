"""Text that flows down a column: blocks of runs, broken to a width, in the largest type that fits."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.pdfbase import pdfmetrics

from species.documents.fonts import ITALIC, SERIF, CannotPrint, unprintable
from species.documents.page import INK, Paper

LEADING = 1.3


class DoesNotFit(Exception):
    """The words do not fit their page even in the smallest type that can be read."""


@dataclass(frozen=True)
class Run:
    """Words in one type."""

    text: str
    italic: bool = False
    bold: bool = False
    colour: Any = INK
    language: str = ""

    @property
    def font(self) -> str:
        return ITALIC if self.italic else SERIF


@dataclass(frozen=True)
class Block:
    """A paragraph or heading: `scale` of the column's type, space `above` and `indent` in parts of that type."""

    runs: tuple[Run, ...]
    role: str = "P"
    scale: float = 1.0
    above: float = 0.35
    indent: float = 0.0


Line = list[tuple[int, str]]
"""The pieces of one line: number of the run, and its words."""


def plain(text: str, **look: Any) -> Block:
    """A block of one run; `bold`, `italic`, `colour` and `language` belong to the run, the rest to the block."""
    run = {name: look.pop(name) for name in ("bold", "italic", "colour", "language") if name in look}
    return Block((Run(text, **run),), **look)


def broken(runs: Sequence[Run], size: float, width: float) -> list[Line]:
    """The runs broken into lines; a word that is wider than the column is cut."""
    lines: list[Line] = [[]]
    room = width
    for number, run in enumerate(runs):
        missing = unprintable(run.text)
        if missing:
            raise CannotPrint(missing)
        for word in _pieces(run, size, width):
            wide = pdfmetrics.stringWidth(word, run.font, size)
            if wide > room and lines[-1]:
                lines.append([])
                room = width
                word = word.lstrip()
                wide = pdfmetrics.stringWidth(word, run.font, size)
            if lines[-1] and lines[-1][-1][0] == number:
                lines[-1][-1] = (number, lines[-1][-1][1] + word)
            else:
                lines[-1].append((number, word))
            room -= wide
    return lines


def _pieces(run: Run, size: float, width: float) -> list[str]:
    """The words of a run, each with the space before it; one that is too wide for any line in parts."""
    found: list[str] = []
    for number, word in enumerate(run.text.split(" ")):
        piece = word if number == 0 else " " + word
        while pdfmetrics.stringWidth(piece.strip(), run.font, size) > width and len(piece.strip()) > 1:
            cut = len(piece) - 1
            while cut > 1 and pdfmetrics.stringWidth(piece[:cut].strip(), run.font, size) > width:
                cut -= 1
            found.append(piece[:cut])
            piece = piece[cut:]
        found.append(piece)
    return found


def height_of(blocks: Sequence[Block], size: float, width: float) -> float:
    """How far down the blocks reach in this type."""
    tall = 0.0
    for block in blocks:
        type_size = size * block.scale
        lines = len(broken(block.runs, type_size, width - block.indent * size))
        tall += lines * type_size * LEADING + block.above * type_size
    return tall


def draw_blocks(paper: Paper, blocks: Sequence[Block], x: float, top: float, width: float, size: float) -> float:
    """Write the blocks under `top`; returns where they end."""
    y = top
    for block in blocks:
        type_size = size * block.scale
        y -= block.above * type_size
        lines = broken(block.runs, type_size, width - block.indent * size)
        _draw_block(paper, block, lines, x + block.indent * size, y, type_size)
        y -= len(lines) * type_size * LEADING
    return y


def _draw_block(paper: Paper, block: Block, lines: list[Line], x: float, top: float, size: float) -> None:
    starts: dict[int, list[tuple[float, float, str]]] = {}
    for row, line in enumerate(lines):
        at = x
        for number, words in line:
            starts.setdefault(number, []).append((at, top - size * (row * LEADING + 1.0), words))
            at += pdfmetrics.stringWidth(words, block.runs[number].font, size)
    if len(block.runs) == 1:
        with paper.element(block.role, language=block.runs[0].language):
            _write(paper, block.runs[0], starts.get(0, []), size)
        return
    with paper.group(block.role):
        for number, run in enumerate(block.runs):
            with paper.element("Span", language=run.language):
                _write(paper, run, starts.get(number, []), size)


def _write(paper: Paper, run: Run, places: list[tuple[float, float, str]], size: float) -> None:
    for x, y, words in places:
        paper.write(x, y, words, size, font=run.font, bold=run.bold, colour=run.colour)


def fitting_size(blocks: Sequence[Block], width: float, height: float, largest: float, smallest: float) -> float:
    """The largest type, in steps of a tenth of a point, in which the blocks fit. Raises DoesNotFit."""
    size = largest
    while size >= smallest - 1e-9:
        if height_of(blocks, size, width) <= height:
            return size
        size = round(size - 0.1, 1)
    raise DoesNotFit
