"""The wings that the leaves of comfrey send down its stem, on the plant and enlarged."""

from species.documents.plates.broadleaf import stem_hairs
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.stem import draw_stem, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow


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


def enlarged_stem(inset: Sheet, individual: Individual, wing_share: float) -> None:
    """A piece of the stem: bristles with bulbs, and the fins of the leaf above."""
    line = bow((0.0, 116.0), (individual.between(-8, 8), -116.0), 4.0, 16)
    edges = sides(line, taper(46, 44))
    side = 1 if individual.chance(0.5) else -1
    for way, far in ((side, 32.0), (-side, 24.0)):
        edge = edges[0] if way < 0 else edges[1]
        outer = [
            (
                x + way * far * (1 - 0.85 * (i / 16) ** 2 if wing_share > 0.6 else max(0.0, 0.9 - (1 - i / 16) * 1.7)),
                y,
            )
            for i, (x, y) in enumerate(reversed(edge))
        ]
        fin = [*reversed(edge), *reversed(outer)]
        inset.shape(fin, mix(individual.green, "#DDE8B4", 0.12), soft=False)
        inset.line(outer, INK, 2.4)
    draw_stem(inset, line, taper(46, 44), mix(individual.green_stem, individual.green, 0.2), ridges=1, ink=2.4)
    stem_hairs(inset, individual, edges, 17, 27.0, False, 1.7)
