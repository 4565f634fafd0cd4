"""Flowers and fruits that several plants share: stars, bells and berries, small enough to be drawn many times."""

from collections.abc import Sequence
from math import cos, pi, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Local, Point, Sheet, smooth, straight, traced, trail


def petal(
    centre: Point,
    angle: float,
    length: float,
    width: float,
    squash: float,
    axis: float,
    widest: float = 0.5,
    notch: float = 0.0,
) -> list[Point]:
    """A petal of a flat flower seen aslant.

    `angle` (degrees) turns it within the flower; the flower is squashed to `squash` along the direction `axis`.
    """
    a, ax = radians(angle), radians(axis)
    shape = [(0.0, 0.06), (widest * 0.5, 0.36), (widest, 0.5), ((1 + widest) / 2, 0.36), (1.0, 0.02)]
    upper = [(t * length, w * width) for t, w in shape]
    lower = [(t * length, -w * width) for t, w in reversed(shape)]
    middle = [(length * (1 - notch), 0.0)] if notch else []
    out = []
    for px, py in [*upper, *middle, *lower]:
        x, y = px * cos(a) - py * sin(a), px * sin(a) + py * cos(a)
        u, v = x * cos(ax) + y * sin(ax), -x * sin(ax) + y * cos(ax)
        u *= squash
        out.append((centre[0] + u * cos(ax) - v * sin(ax), centre[1] + u * sin(ax) + v * cos(ax)))
    return out


def star(
    sheet: Sheet,
    individual: Individual,
    centre: Point,
    radius: float,
    petals: int,
    colour: str,
    squash: float,
    axis: float,
    heart: str,
    ink: float = 1.1,
    width: float = 0.36,
) -> None:
    """An open flower of separate petals with a rounded heart and stamens."""
    start = individual.between(0, 360)
    angles = [start + 360 / petals * k for k in range(petals)]
    shade = mix(colour, "#8FA08A", 0.28)
    outlines = []
    for a in angles:
        turn, long = a + individual.between(-5, 5), radius * individual.between(0.92, 1.06)
        outlines.append(petal(centre, turn, long, radius * width, squash, axis))
    for outline in outlines[::2]:
        sheet.shape(outline, shade, INK, ink * 0.8)
    for outline in outlines[1::2]:
        sheet.shape(outline, colour, INK, ink)
    nerves = [straight_nerve(centre, outline) for outline in outlines]
    sheet.path("".join(smooth(n) for n in nerves), stroke=mix(colour, INK, 0.35), width=ink * 0.5, opacity=0.7)
    near = Local(centre, 30, radius * 0.42, radius * 0.42 * max(0.6, squash))
    stamens = "".join(straight([centre, near.at(cos(radians(a)), sin(radians(a)))]) for a in angles)
    sheet.path(stamens, stroke="#E9E3B6", width=ink * 1.8)
    sheet.path(stamens, stroke=INK, width=ink * 0.4, opacity=0.6)
    sheet.disc(centre[0], centre[1], radius * 0.17, heart, INK, ink * 0.8)


def straight_nerve(centre: Point, outline: Sequence[Point]) -> list[Point]:
    tip = outline[len(outline) // 2]
    return [(centre[0] + (tip[0] - centre[0]) * t, centre[1] + (tip[1] - centre[1]) * t) for t in (0.2, 0.8)]


SIDE = trail("0 .06, .06 .3, .3 .5, .6 .5, .82 .5")
FOLDS = (trail(".12 .1, .5 .17, .85 .16"), trail(".12 -.1, .5 -.18, .85 -.17"))


def bell(
    sheet: Sheet,
    top: Point,
    length: float,
    width: float,
    angle: float,
    colour: str,
    curl: float = 0.2,
    ink: float = 1.4,
    closed: bool = False,
) -> None:
    """A hanging bell: `angle` is where its mouth looks (degrees, 90 is down), `curl` how far its teeth roll out."""
    here = Local(top, angle, length, width)
    mouth: list[Point] = []
    out = 1.0 if closed else 1 + curl
    for k in range(3):
        left, right = 0.5 - k / 3, 0.5 - (k + 1) / 3
        mouth += [
            (0.84, left * 0.98),
            (1.06, (left * 0.6 + right * 0.4) * out),
            (1.06, (left * 0.4 + right * 0.6) * out),
        ]
    mouth.append((0.84, -0.49))
    stops = [(0, tint(colour, 0, 0.03), 1), (0.5, colour, 1), (1, mix(colour, "#6B6F5E", 0.3), 1)]
    wash = sheet.gradient(here.at(0.4, 0.5), here.at(0.4, -0.5), stops)
    sheet.shape(here.all([*SIDE, *mouth, *((u, -v) for u, v in reversed(SIDE))]), wash, INK, ink)
    folds = traced([here.all(fold) for fold in FOLDS])
    sheet.path(folds, stroke=mix(colour, INK, 0.4), width=ink * 0.5, opacity=0.6)


def berry(
    sheet: Sheet,
    x: float,
    y: float,
    radius: float,
    colour: str,
    highlight: float = 0.8,
    bloom: str | None = None,
    ink: float = 1.6,
) -> None:
    """A round fruit lit from the upper left."""
    dark = mix(colour, "#0C0B10", 0.45)
    light = bloom or tint(colour, 4, 0.16)
    wash = sheet.glow(
        (x - radius * 0.35, y - radius * 0.4),
        radius * 1.5,
        [(0, light, 1), (0.35, mix(colour, light, 0.45 if bloom else 0.2), 1), (0.7, colour, 1), (1, dark, 1)],
    )
    points = [(x + radius * cos(2 * pi * k / 9), y + radius * sin(2 * pi * k / 9) * 0.98) for k in range(9)]
    sheet.shape(points, wash, INK, ink)
    if highlight > 0.1:
        sheet.oval(x - radius * 0.38, y - radius * 0.45, radius * 0.2, radius * 0.12, -35, "#FFFFFF", opacity=highlight)
