"""Laying the parts of a sheet on as many pages as there are, in the largest type in which all of it fits."""

from collections.abc import Sequence
from contextlib import nullcontext
from itertools import groupby

from species.documents.flow import DoesNotFit
from species.documents.page import Paper
from species.documents.parts import Part

STEP = 0.1


def pages_of(parts: Sequence[Part], size: float, height: float) -> list[list[Part]]:
    """The parts on pages of this height, each page filled before the next is begun; none is cut in two."""
    pages: list[list[Part]] = [[]]
    room = height
    for part in parts:
        tall = part.height(size)
        if tall > room and pages[-1]:
            pages.append([])
            room = height
        pages[-1].append(part)
        room -= tall
        if room < -0.01:
            raise DoesNotFit
    return pages


def laid_out(
    parts: Sequence[Part], height: float, pages: int, largest: float, smallest: float
) -> tuple[float, list[list[Part]]]:
    """The largest type in which the parts fit on so many pages, and what stands on each. Raises DoesNotFit."""
    size = largest
    while size >= smallest - 1e-9:
        try:
            found = pages_of(parts, size, height)
        except DoesNotFit:
            found = []
        if found and len(found) <= pages:
            return size, found
        size = round(size - STEP, 1)
    raise DoesNotFit


def draw_pages(paper: Paper, pages: Sequence[Sequence[Part]], x: float, top: float, size: float) -> None:
    """Lay the parts on the paper, neighbours of one holder in one element."""
    for number, parts in enumerate(pages):
        if number:
            paper.turn()
        y = top
        for holder, together in groupby(parts, key=lambda part: part.holder):
            with paper.group(holder) if holder else nullcontext():
                for part in together:
                    part.draw(paper, x, y, size)
                    y -= part.height(size)
