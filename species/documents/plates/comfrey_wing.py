"""The wings that the leaves of comfrey send down its stem."""

from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Point, Points, Sheet, along


def draw_wing(
    sheet: Sheet,
    individual: Individual,
    line: Points,
    edges: tuple[list[Point], list[Point]],
    top: float,
    end: float,
    side: int,
) -> None:
    """The leaf carried on down the stem as a thin fin on both sides of its line, fading out at `end`."""
    colour = mix(individual.green, "#DDE8B4", 0.12)
    for way, far in ((side, individual.between(15, 19)), (-side, individual.between(10, 14))):
        edge = edges[0] if way < 0 else edges[1]
        inner, outer = [], []
        for i in range(9):
            share = top + (end - top) * i / 8
            (x, y), (dx, dy) = along(edge, share)
            out = far * (1 - 0.62 * i / 8)
            inner.append((x, y))
            outer.append((x - dy * way * out, y + dx * way * out))
        sheet.shape([*inner, *reversed(outer)], colour, soft=False)
        sheet.line(outer, INK, 1.8)
