"""Flowers and fruits that several plants share: stars, bells and berries, small enough to be drawn many times."""

from collections.abc import Sequence
from math import cos, pi, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Point, Sheet, smooth


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
    outlines = [
        petal(
            centre, a + individual.between(-5, 5), radius * individual.between(0.92, 1.06), radius * width, squash, axis
        )
        for a in angles
    ]
    for outline in outlines[::2]:
        sheet.shape(outline, shade, INK, ink * 0.8)
    for outline in outlines[1::2]:
        sheet.shape(outline, colour, INK, ink)
    nerves = [straight_nerve(centre, outline) for outline in outlines]
    sheet.path("".join(smooth(n) for n in nerves), stroke=mix(colour, INK, 0.35), width=ink * 0.5, opacity=0.7)
    stamens = "".join(
        smooth(
            [
                centre,
                (
                    centre[0] + cos(radians(a + 30)) * radius * 0.42,
                    centre[1] + sin(radians(a + 30)) * radius * 0.42 * max(0.6, squash),
                ),
            ]
        )
        for a in angles
    )
    sheet.path(stamens, stroke="#E9E3B6", width=ink * 1.8)
    sheet.path(stamens, stroke=INK, width=ink * 0.4, opacity=0.6)
    sheet.disc(centre[0], centre[1], radius * 0.17, heart, INK, ink * 0.8)


def straight_nerve(centre: Point, outline: Sequence[Point]) -> list[Point]:
    tip = outline[len(outline) // 2]
    return [(centre[0] + (tip[0] - centre[0]) * t, centre[1] + (tip[1] - centre[1]) * t) for t in (0.2, 0.8)]


def bell(
    sheet: Sheet,
    top: Point,
    length: float,
    width: float,
    angle: float,
    colour: str,
    lobes: int = 3,
    curl: float = 0.2,
    ink: float = 1.4,
    closed: bool = False,
) -> None:
    """A hanging bell: `angle` is where its mouth looks (degrees, 90 is down), `curl` how far its teeth roll out."""
    a = radians(angle)

    def at(u: float, v: float) -> Point:
        return (top[0] + cos(a) * u * length - sin(a) * v * width, top[1] + sin(a) * u * length + cos(a) * v * width)

    body = [(0, 0.06), (0.06, 0.3), (0.3, 0.5), (0.6, 0.5), (0.82, 0.5)]
    one = [at(u, v) for u, v in body]
    two = [at(u, -v) for u, v in body]
    mouth = []
    for k in range(lobes):
        left = 0.5 - k / lobes
        right = 0.5 - (k + 1) / lobes
        out = 1 + (0 if closed else curl)
        mouth += [
            at(0.84, left * 0.98),
            at(1.06, (left * 0.6 + right * 0.4) * out),
            at(1.06, (left * 0.4 + right * 0.6) * out),
        ]
    mouth.append(at(0.84, -0.49))
    around = [*one, *mouth, *reversed(two)]
    wash = sheet.gradient(
        at(0.4, 0.5),
        at(0.4, -0.5),
        [(0, tint(colour, 0, 0.03), 1), (0.5, colour, 1), (1, mix(colour, "#6B6F5E", 0.3), 1)],
    )
    sheet.shape(around, wash, INK, ink)
    sheet.path(
        smooth([at(0.12, 0.1), at(0.5, 0.17), at(0.85, 0.16)])
        + smooth([at(0.12, -0.1), at(0.5, -0.18), at(0.85, -0.17)]),
        stroke=mix(colour, INK, 0.4),
        width=ink * 0.5,
        opacity=0.6,
    )


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
