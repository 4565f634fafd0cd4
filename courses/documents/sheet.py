"""A plain sheet for the pocket or the folder: headings and paragraphs on as many pages as they take, tagged.

Finished words in, bytes out. Same words, same bytes.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from reportlab.lib.pagesizes import A4, A5, A6

from species.documents.flow import Block, draw_blocks, height_of, plain
from species.documents.fonts import unprintable
from species.documents.page import QUIET, RUST, Paper

SIZES = {"A4": A4, "A5": A5, "A6": A6}
TYPE = {"A4": 10.0, "A5": 9.0, "A6": 8.0}
MARGINS = {"A4": 48.0, "A5": 32.0, "A6": 20.0}


@dataclass(frozen=True)
class SheetPart:
    """A heading and its paragraphs; `alarm` sets it off in rust, with a word as well, never by colour alone."""

    heading: str
    lines: tuple[str, ...]
    alarm: bool = False


@dataclass(frozen=True)
class SheetWords:
    """The whole sheet. `page_of` holds {page} and {pages}; `format` is A4, A5 or A6."""

    title: str
    subtitle: str
    language: str
    author: str
    parts: tuple[SheetPart, ...]
    cautions: str = ""
    page_of: str = "{page} / {pages}"
    format: str = "A4"
    empty: str = field(default="")


def draw_sheet(words: SheetWords) -> bytes:
    """The PDF. A letter that the fonts lack is printed as a question mark: a sheet outdoors is better than none."""
    size, margin, letter = SIZES[words.format], MARGINS[words.format], TYPE[words.format]
    paper = Paper(_known(words.title), words.language, _known(words.author), _known(words.subtitle), size=size)
    width, top, foot = paper.width - 2 * margin, paper.height - margin, margin + 2.6 * letter
    pages = _pages(_blocks(words), letter, width, top - foot)
    for number, blocks in enumerate(pages, 1):
        if number > 1:
            paper.turn()
        draw_blocks(paper, blocks, margin, top, width, letter)
        with paper.ornament():
            said = words.page_of.format(page=number, pages=len(pages))
            paper.write(margin, margin - letter, _known(said), letter * 0.8, colour=QUIET)
    return paper.finish()


def _blocks(words: SheetWords) -> list[Block]:
    blocks = [plain(_known(words.title), bold=True, role="H1", scale=1.6, above=0.0)]
    if words.subtitle:
        blocks.append(plain(_known(words.subtitle), colour=QUIET))
    for part in words.parts:
        colour = {"colour": RUST} if part.alarm else {}
        blocks.append(plain(_known(part.heading), bold=True, role="H2", scale=1.15, above=0.9, **colour))
        blocks += [plain(_known(line)) for line in part.lines if line.strip()]
    if words.cautions:
        blocks.append(plain(_known(words.cautions), colour=QUIET, scale=0.85, above=1.4))
    return blocks


def _pages(blocks: Sequence[Block], size: float, width: float, room: float) -> list[list[Block]]:
    """Blocks page by page; a heading never ends a page."""
    pages: list[list[Block]] = [[]]
    left = room
    for number, block in enumerate(blocks):
        tall = height_of([block], size, width)
        after = blocks[number + 1 : number + 2] if block.role == "H2" else []
        if pages[-1] and tall + height_of(after, size, width) > left:
            pages.append([])
            left = room
        pages[-1].append(block)
        left -= tall
    return pages


def _known(text: str) -> str:
    missing = set(unprintable(text))
    return "".join("?" if letter in missing else letter for letter in text).replace("\n", " ")
