"""Points, lines and the path data of SVG: numbers, straight and soft lines, and places along a line."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from functools import cache
from itertools import accumulate, pairwise
from math import cos, hypot, radians, sin

Point = tuple[float, float]
Points = Sequence[Point]


def num(value: float) -> str:
    """One decimal at most, no trailing zero and no minus zero, so that equal drawings are equal bytes."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


@cache
def _tenth(value: int) -> str:
    """A whole number of tenths as the shortest decimal: 5 is ".5", -120 is "-12"."""
    if value % 10 == 0:
        return str(value // 10)
    sign, size = ("-", -value) if value < 0 else ("", value)
    return f"{sign}{size // 10 or ''}.{size % 10}"


def _moves(letter: str, values: Sequence[int]) -> str:
    """Relative numbers in tenths after their letter, with a space only where one is needed."""
    parts = [letter]
    for value in values:
        text = _tenth(value)
        parts.append(text if text[0] == "-" or parts[-1] == letter else " " + text)
    return "".join(parts)


def straight(points: Points, closed: bool = False) -> str:
    """Path data that joins the points by straight lines (relative, in whole tenths: short, and without drift)."""
    if not points:
        return ""
    grid = [(round(x * 10), round(y * 10)) for x, y in points]
    (x, y), values = grid[0], list[int]()
    for px, py in grid[1:]:
        values += (px - x, py - y)
        x, y = px, py
    start = f"M{_tenth(grid[0][0])} {_tenth(grid[0][1])}"
    return start + (_moves("l", values) if values else "") + ("Z" if closed else "")


def smooth(points: Points, closed: bool = False) -> str:
    """Path data of a soft curve through the points (Catmull-Rom written as cubic Béziers)."""
    n = len(points)
    if n < 3:
        return straight(points, closed)
    grid = [(round(x * 10), round(y * 10)) for x, y in points]
    pts = [grid[-1], *grid, grid[0], grid[1]] if closed else [grid[0], *grid, grid[-1]]
    values: list[int] = []
    for i in range(n if closed else n - 1):
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = pts[i : i + 4]
        values += (
            round((x2 - x0) / 6),
            round((y2 - y0) / 6),
            x2 - x1 - round((x3 - x1) / 6),
            y2 - y1 - round((y3 - y1) / 6),
            x2 - x1,
            y2 - y1,
        )
    return f"M{_tenth(grid[0][0])} {_tenth(grid[0][1])}{_moves('c', values)}{'Z' if closed else ''}"


def flick(a: Point, bend: Point, b: Point) -> str:
    """Path data of one short bent stroke: the cheap way to draw a soft hair."""
    (ax, ay), (cx, cy), (bx, by) = ((round(x * 10), round(y * 10)) for x, y in (a, bend, b))
    return f"M{_tenth(ax)} {_tenth(ay)}{_moves('q', (cx - ax, cy - ay, bx - ax, by - ay))}"


def strokes(pieces: Iterable[Points]) -> str:
    """One path of many separate short lines: the cheap way to draw hairs, veins or teeth."""
    return "".join(straight(piece) for piece in pieces)


def arch(pieces: Iterable[Points]) -> str:
    """One path of many separate soft curves."""
    return "".join(smooth(piece) for piece in pieces)


def ovals(places: Iterable[tuple[float, float, float, float, float]]) -> str:
    """One path of many ellipses, each (x, y, rx, ry, turn in degrees)."""
    parts = []
    for x, y, rx, ry, turn in places:
        dx, dy = cos(radians(turn)) * rx, sin(radians(turn)) * rx
        arc = f"A{num(rx)} {num(ry)} {num(turn)} 1 0"
        parts.append(f"M{num(x - dx)} {num(y - dy)}{arc} {num(x + dx)} {num(y + dy)}{arc} {num(x - dx)} {num(y - dy)}Z")
    return "".join(parts)


def traced(pieces: Iterable[Points]) -> str:
    """Like `arch`, with pieces of three points drawn as one bent stroke through the middle one."""
    parts = []
    for piece in pieces:
        if len(piece) == 3:
            (ax, ay), (mx, my), (bx, by) = piece
            parts.append(flick(piece[0], (2 * mx - (ax + bx) / 2, 2 * my - (ay + by) / 2), piece[2]))
        else:
            parts.append(smooth(piece))
    return "".join(parts)


class Rail:
    """A line measured once, for asking many places along it."""

    def __init__(self, points: Points) -> None:
        self._points = points
        self._far = [0.0, *accumulate(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))]

    def at(self, share: float) -> tuple[Point, Point]:
        """The place at a share (0 to 1) of the length, and the unit direction there."""
        want = max(0.0, min(1.0, share)) * self._far[-1]
        i = max(0, min(len(self._far) - 2, bisect_right(self._far, want) - 1))
        (x0, y0), (x1, y1) = self._points[i], self._points[i + 1]
        size = self._far[i + 1] - self._far[i]
        part = min(1.0, (want - self._far[i]) / size) if size else 0.0
        size = size or 1.0
        return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), ((x1 - x0) / size, (y1 - y0) / size)


def along(points: Points, share: float) -> tuple[Point, Point]:
    """The place at a share (0 to 1) of the length of a line, and the unit direction there."""
    return Rail(points).at(share)


def bow(start: Point, end: Point, sag: float, steps: int = 12) -> list[Point]:
    """Points of a quadratic curve from start to end, bulging by `sag` units to the left of the way."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = hypot(dx, dy) or 1.0
    cx = (start[0] + end[0]) / 2 + dy / size * sag * 2
    cy = (start[1] + end[1]) / 2 - dx / size * sag * 2
    out = []
    for i in range(steps + 1):
        t = i / steps
        u = 1 - t
        out.append(
            (u * u * start[0] + 2 * u * t * cx + t * t * end[0], u * u * start[1] + 2 * u * t * cy + t * t * end[1])
        )
    return out


@cache
def trail(text: str) -> tuple[Point, ...]:
    """Points written as "x y, x y, …"; keeps long outlines readable."""
    pairs = (pair.split() for pair in text.split(","))
    return tuple((float(x), float(y)) for x, y in pairs)


class Local:
    """Coordinates of a part: u along its axis (turned by `angle` degrees, 0 to the right), v across it."""

    def __init__(self, origin: Point, angle: float, length: float, width: float | None = None) -> None:
        a = radians(angle)
        across = length if width is None else width
        self._x, self._y = origin
        self._along = (cos(a) * length, sin(a) * length)
        self._across = (-sin(a) * across, cos(a) * across)

    def at(self, u: float, v: float) -> Point:
        return (
            self._x + self._along[0] * u + self._across[0] * v,
            self._y + self._along[1] * u + self._across[1] * v,
        )

    def all(self, points: Iterable[Point]) -> list[Point]:
        return [self.at(u, v) for u, v in points]
