"""Stems, stalks and roots: a tube along a line, with its shade, ink, ridges and hairs."""

from collections.abc import Callable
from math import hypot
from random import Random

from species.documents.plates.individual import INK, mix, tint
from species.documents.plates.svg import Point, Points, Rail, Sheet, flick, smooth, straight

Width = Callable[[float], float]


def taper(start: float, end: float) -> Width:
    """A full width (units) that changes evenly from start to end of the line."""
    return lambda t: start + (end - start) * t


def sides(points: Points, width: Width) -> tuple[list[Point], list[Point]]:
    """The two edges of a tube along the points; the first is on the left of the way."""
    n = len(points) - 1
    one, two = [], []
    for i, (x, y) in enumerate(points):
        (ax, ay), (bx, by) = points[max(0, i - 1)], points[min(n, i + 1)]
        size = hypot(bx - ax, by - ay) or 1.0
        half = width(i / n) / 2
        one.append((x + (by - ay) / size * half, y - (bx - ax) / size * half))
        two.append((x - (by - ay) / size * half, y + (bx - ax) / size * half))
    return one, two


def draw_stem(
    sheet: Sheet,
    points: Points,
    width: Width,
    colour: str,
    foot: str | None = None,
    ridges: int = 0,
    ink: float = 1.7,
    end_cap: bool = False,
) -> None:
    """A round stem: wash (towards `foot` colour at its beginning), shadow on one side, light streak, ink, ridges."""
    one, two = sides(points, width)
    around = [*one, *reversed(two)]
    sheet.reach(around)
    fill = colour
    if foot:
        fill = sheet.gradient(points[0], points[-1], [(0, foot, 1), (0.45, colour, 1), (1, colour, 1)])
    sheet.path(
        smooth(around, True) if end_cap else smooth(one) + "L" + smooth(list(reversed(two)))[1:] + "Z", fill=fill
    )
    middle = list(points)
    sheet.path(_band(two, middle), fill=mix(colour, "#2A3A2C", 0.7), opacity=0.22)
    n = len(points) - 1
    wide = max(width(0.0), width(1.0))
    if wide > 5:
        streak = [_between(one[i], two[i], 0.27) for i in range(n + 1)]
        sheet.path(smooth(streak), stroke=tint(colour, 0, 0.16), width=max(0.8, wide * 0.13), opacity=0.8)
    for k in range(1, ridges + 1):
        line = [_between(one[i], two[i], k / (ridges + 1)) for i in range(n + 1)]
        sheet.path(smooth(line), stroke=mix(colour, INK, 0.55), width=0.8, opacity=0.75)
    sheet.path(smooth(one), stroke=INK, width=ink)
    sheet.path(smooth(two), stroke=INK, width=ink * 1.25)


def _band(edge: Points, middle: Points) -> str:
    return smooth(edge) + "L" + smooth(list(reversed(middle)))[1:] + "Z"


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def hairs(
    sheet: Sheet,
    edge: Points,
    side: int,
    count: int,
    length: float,
    rng: Random,
    colour: str = INK,
    width: float = 0.8,
    lean: float = 0.0,
    soft: bool = False,
) -> None:
    """Hairs standing off an edge; side 1 to the left of the way, -1 to the right. `soft` ones are bent."""
    pieces = []
    rail = Rail(edge)
    for i in range(count):
        (x, y), (dx, dy) = rail.at((i + rng.uniform(0.15, 0.85)) / count)
        long = length * rng.uniform(0.65, 1.2)
        tilt = lean + rng.uniform(-0.35, 0.35)
        nx, ny = dy * side + dx * tilt, -dx * side + dy * tilt
        end = (x + nx * long, y + ny * long)
        if soft:
            pieces.append(flick((x, y), end, (end[0] + dx * long * 0.45, end[1] + dy * long * 0.45)))
        else:
            pieces.append(straight([(x, y), end]))
    sheet.path("".join(pieces), stroke=colour, width=width)
