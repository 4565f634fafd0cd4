"""What the insets of chickweed and scarlet pimpernel show: a cut stem, and the underside of a leaf."""

from math import cos, pi, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.outline import profile
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Point, Sheet, bow, ovals
from species.documents.plates.veins import pinnate

CUT = "#E6EBC8"


def stem_lens(inset: Sheet, individual: Individual, square: bool, line_of_hairs: bool) -> None:
    """A joint of the stem, with the cut end beside it: round or square, one line of hairs or none."""
    colour = mix(individual.green_stem, individual.green, 0.2)
    side = 1 if individual.chance(0.5) else -1
    line = bow((-side * 34.0, 118.0), (-side * 26.0, -118.0), individual.between(-4, 4), 12)
    width = taper(46, 44)
    edges = sides(line, width)
    if line_of_hairs:
        for edge, way, part in ((edges[0], 1, slice(0, 7)), (edges[1], -1, slice(6, 13))):
            hairs(inset, edge[part], way, 22, 24.0, individual.rng, width=1.6, soft=True)
    draw_stem(inset, line, width, colour, ink=2.4)
    if square:
        one, two = edges
        band = [(a[0] + (b[0] - a[0]) * 0.62, a[1]) for a, b in zip(one, two, strict=True)]
        inset.path(_closed([*band, *reversed(two)]), fill="#1F3A2C", opacity=0.3)
        inset.line(band, INK, 2.2)
    for way in (1, -1):
        x = -side * 30.0
        inset.shape(
            [(x + way * 20, 12.0), (x + way * 46, -12.0), (x + way * 70, -10.0), (x + way * 26, 22.0)], colour, INK, 2.0
        )
    _section(inset, side * 48.0, 44.0, 38.0, square)


def _closed(points: list[Point]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points) + "Z"


def _section(inset: Sheet, x: float, y: float, radius: float, square: bool) -> None:
    """The cut across: a circle, or a square with sharp corners."""
    steps = 40
    rim: list[Point] = []
    for k in range(steps):
        a = 2 * pi * k / steps + 0.35
        reach = radius
        if square:
            off = (a - 0.35) % (pi / 2) - pi / 4
            reach = radius * 0.86 / max(0.72, cos(off))
        rim.append((x + cos(a) * reach, y + sin(a) * reach))
    inset.shape(rim, CUT, INK, 3.0, soft=not square)
    inset.disc(x, y, radius * 0.3, "#F4F5E4", "#8FA36A", 1.6)


def underside_lens(inset: Sheet, individual: Individual, dotted: bool, edge_hairs: bool) -> None:
    """A leaf seen from below: with small black dots, or without."""
    outline = profile(205.0, 128.0, 0.66, 1.15, individual.lopsided, foot=14)
    pose = Pose((0.0, 96.0), individual.between(-7, 7), 205.0, individual.between(-8, 8))
    below = tint(individual.green_below, 0, 0.02)
    draw_blade(
        inset,
        outline,
        pose,
        look_of(individual, green=below, midrib=5.0),
        pinnate(outline, 4, 46, 0.88, 1.5, start=0.06),
    )
    if edge_hairs:
        for half, side in ((outline.left, 1), (outline.right, -1)):
            hairs(inset, pose.line(half[:5], side), side, 7, 16.0, individual.rng, width=1.3, soft=True)
    if dotted:
        places = []
        for _ in range(individual.count(14, 24)):
            x = 205.0 * individual.between(0.1, 0.84)
            side = 1 if individual.chance(0.5) else -1
            px, py = pose.place(x, outline.reach(side, x) * individual.between(0.12, 0.85), side)
            places.append((px, py, 3.4, 3.4, 0.0))
        inset.path(ovals(places), fill="#17131A")
