"""A pair on paper: one sheet A4 for the table, or two A6 for the pocket. Same words, same bytes."""

from collections.abc import Sequence

from reportlab.lib.pagesizes import A4, A6

from species.documents.flow import Block, DoesNotFit, Run, plain
from species.documents.laying import draw_pages, laid_out
from species.documents.page import QUIET, Paper
from species.documents.pair_words import PairWords, SignGroup
from species.documents.parts import Alarm, Heads, Months, Part, Plants, SignRow, Words

SHEET_MARGIN, POCKET_MARGIN = 34.0, 15.0
SHEET_TYPES = ((250.0, 9.4, 8.6), (200.0, 9.0, 8.0), (160.0, 8.6, 7.4), (120.0, 8.0, 6.6), (90.0, 7.4, 5.8))
"""Height of the pictures, largest and smallest type, tried in this order."""
POCKET_TYPES = ((105.0, 7.6, 6.8), (80.0, 7.0, 6.2), (60.0, 6.6, 5.4), (44.0, 6.0, 4.8))


def draw_pair_sheet(words: PairWords) -> bytes:
    """One page A4. Raises DoesNotFit, CannotPrint."""
    return _drawn(words, A4, SHEET_MARGIN, SHEET_TYPES, pages=1)


def draw_pair_pocket(words: PairWords) -> bytes:
    """Two pages A6. Raises DoesNotFit, CannotPrint."""
    return _drawn(words, A6, POCKET_MARGIN, POCKET_TYPES, pages=2)


def _drawn(
    words: PairWords,
    paper_size: tuple[float, float],
    margin: float,
    types: Sequence[tuple[float, float, float]],
    pages: int,
) -> bytes:
    width, height = paper_size[0] - 2 * margin, paper_size[1] - 2 * margin
    for picture_height, largest, smallest in types:
        try:
            size, laid = laid_out(_parts(words, width, picture_height), height, pages, largest, smallest)
        except DoesNotFit:
            continue
        paper = Paper(words.title, words.language, words.letterhead.school, words.stage, paper_size)
        draw_pages(paper, laid, margin, paper_size[1] - margin, size)
        return paper.finish()
    raise DoesNotFit


def _parts(words: PairWords, width: float, picture_height: float) -> list[Part]:
    both = (words.gathered, words.mistaken)
    title = (
        Run(words.gathered.common, bold=True), Run(f" {words.joined_by} ", colour=QUIET),
        Run(words.mistaken.common, bold=True),
    )  # fmt: skip
    parts: list[Part] = [
        Words((plain(words.letterhead.school, colour=QUIET, scale=0.85, above=0), Block(title, "H1", 1.6, 0.1)), width),
        Alarm(words.danger, width) if words.is_dangerous else Words((plain(words.danger),), width),
        Words((plain(words.rule, bold=True, scale=1.12), plain(words.telling)), width),
        Months(words.months, width),
        Plants(both, picture_height, width),
    ]
    for group in words.groups:
        parts += _signs(words, group, width)
    if words.never:
        parts.append(Words((plain(words.never_heading, role="H3", bold=True, scale=1.08), *_never(words)), width))
    for heading, text in words.sections:
        parts.append(Words((Block((Run(heading, bold=True), Run(f" {text}"))),), width))
    cautions = " ".join((*words.cautions, words.letterhead.call))
    parts.append(Words((plain(cautions, scale=0.86, above=0.6),), width))
    return parts


def _signs(words: PairWords, group: SignGroup, width: float) -> list[Part]:
    heading = Words((plain(group.heading, role="H3", bold=True, scale=1.08),), width)
    if not group.signs:
        return [heading, Words((plain(group.empty, bold=True, above=0),), width)] if group.empty else []
    names = (words.gathered.common, words.mistaken.common)
    return [heading, Heads(names, width), *(SignRow(sign, width) for sign in group.signs)]


def _never(words: PairWords) -> tuple[Block, ...]:
    return tuple(Block((Run(name, bold=True), Run(f": {why}")), above=0.1) for name, why in words.never)
