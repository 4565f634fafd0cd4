"""A small SVG writer: numbers, paths, elements, and the sheet that a plate is drawn on.

Nothing here knows a plant. Coordinates are in units (a plate is 1000 wide), y grows downwards.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import cos, hypot, radians, sin
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]
Points = Sequence[Point]


def num(value: float) -> str:
    """One decimal at most, no trailing zero and no minus zero, so that equal drawings are equal bytes."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def straight(points: Points, closed: bool = False) -> str:
    """Path data that joins the points by straight lines."""
    body = "L".join(f"{num(x)} {num(y)}" for x, y in points)
    return f"M{body}{'Z' if closed else ''}"


def smooth(points: Points, closed: bool = False) -> str:
    """Path data of a soft curve through the points (Catmull-Rom written as cubic Béziers)."""
    n = len(points)
    if n < 3:
        return straight(points, closed)
    pts = [points[-1], *points, points[0], points[1]] if closed else [points[0], *points, points[-1]]
    parts = [f"M{num(points[0][0])} {num(points[0][1])}"]
    for i in range(n if closed else n - 1):
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = pts[i : i + 4]
        parts.append(
            f"C{num(x1 + (x2 - x0) / 6)} {num(y1 + (y2 - y0) / 6)} "
            f"{num(x2 - (x3 - x1) / 6)} {num(y2 - (y3 - y1) / 6)} {num(x2)} {num(y2)}"
        )
    return "".join(parts) + ("Z" if closed else "")


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


def element(name: str, content: str = "", **attributes: object) -> str:
    """`<name …>content</name>`; underscores become hyphens, floats are shortened, None is left out."""
    written = []
    for key, value in attributes.items():
        if value is None:
            continue
        text = num(value) if isinstance(value, float) and abs(value) >= 1 else f"{value:.3g}" \
            if isinstance(value, float) else str(value)
        written.append(f" {key.replace('_', '-')}={quoteattr(text)}")
    head = f"<{name}{''.join(written)}"
    return f"{head}>{content}</{name}>" if content else f"{head}/>"


def text_of(words: str) -> str:
    """Words made safe to stand between two tags."""
    return escape(words)


def transform(x: float = 0.0, y: float = 0.0, scale: float = 1.0, turn: float = 0.0) -> str:
    """A transform attribute: first scaled, then turned by `turn` degrees, then moved."""
    parts = [f"translate({num(x)} {num(y)})"]
    if turn:
        parts.append(f"rotate({num(turn)})")
    if scale != 1.0:
        parts.append(f"scale({scale:.4g})")
    return " ".join(parts)


def _seen_through(fill: str, stroke: str | None, opacity: float) -> dict[str, object]:
    """Opacity of one shape. The plain `opacity` attribute costs a whole extra layer, so it is the last resort."""
    if opacity >= 1:
        return {}
    name = "fill_opacity" if stroke is None else "stroke_opacity" if fill == "none" else "opacity"
    return {name: round(opacity, 2)}


class Sheet:
    """Collects elements, shared definitions and the extent of what was drawn.

    `Sheet.layer()` gives an empty sheet that shares the definitions (so ids never clash): draw a part on it
    and `add` it later, or hand it to an `Inset`.
    """

    def __init__(self, definitions: list[str] | None = None) -> None:
        self.parts: list[str] = []
        self.definitions: list[str] = definitions if definitions is not None else []
        self.left = self.top = float("inf")
        self.right = self.bottom = float("-inf")

    def layer(self) -> "Sheet":
        return Sheet(self.definitions)

    def reach(self, points: Iterable[Point]) -> None:
        """Widen the known extent by these points."""
        for x, y in points:
            self.left, self.right = min(self.left, x), max(self.right, x)
            self.top, self.bottom = min(self.top, y), max(self.bottom, y)

    def raw(self, text: str) -> None:
        self.parts.append(text)

    def add(self, other: "Sheet", **attributes: object) -> None:
        """Put another layer on top, in a group when there are attributes (its extent counts unmoved)."""
        content = other.content()
        if content:
            self.parts.append(element("g", content, **attributes) if attributes else content)
            if other.right >= other.left:
                self.reach([(other.left, other.top), (other.right, other.bottom)])

    def content(self) -> str:
        return "".join(self.parts)

    def path(self, d: str, fill: str = "none", stroke: str | None = None, width: float = 1.0,
             opacity: float = 1.0, **more: object) -> None:
        """Path data as it is; does not widen the extent."""
        attributes: dict[str, object] = {"d": d, "fill": fill}
        if stroke:
            attributes |= {"stroke": stroke, "stroke_width": round(width, 2)}
        self.parts.append(element("path", **attributes, **_seen_through(fill, stroke, opacity), **more))

    def shape(self, points: Points, fill: str, stroke: str | None = None, width: float = 1.0,
              opacity: float = 1.0, soft: bool = True, **more: object) -> None:
        """A closed outline through the points."""
        self.reach(points)
        self.path((smooth if soft else straight)(points, True), fill, stroke, width, opacity, **more)

    def line(self, points: Points, stroke: str, width: float = 1.0, opacity: float = 1.0,
             soft: bool = True, **more: object) -> None:
        """An open line through the points."""
        self.reach(points)
        self.path((smooth if soft else straight)(points), "none", stroke, width, opacity, **more)

    def disc(self, x: float, y: float, radius: float, fill: str, stroke: str | None = None,
             width: float = 1.0, opacity: float = 1.0, **more: object) -> None:
        self.oval(x, y, radius, radius, 0.0, fill, stroke, width, opacity, **more)

    def oval(self, x: float, y: float, rx: float, ry: float, turn: float, fill: str,
             stroke: str | None = None, width: float = 1.0, opacity: float = 1.0, **more: object) -> None:
        """An ellipse turned by `turn` degrees about its centre."""
        wide = max(rx, ry)
        self.reach([(x - wide, y - wide), (x + wide, y + wide)])
        self.parts.append(element(
            "ellipse", cx=num(x), cy=num(y), rx=num(rx), ry=num(ry), fill=fill, stroke=stroke,
            stroke_width=round(width, 2) if stroke else None, **_seen_through(fill, stroke, opacity),
            transform=f"rotate({num(turn)} {num(x)} {num(y)})" if turn else None, **more,
        ))

    def gradient(self, start: Point, end: Point, stops: Sequence[tuple[float, str, float]]) -> str:
        """A straight gradient in sheet coordinates; stops are (share, colour, opacity). Gives a fill value."""
        return self._define("linearGradient", stops, x1=num(start[0]), y1=num(start[1]), x2=num(end[0]),
                            y2=num(end[1]))

    def glow(self, centre: Point, radius: float, stops: Sequence[tuple[float, str, float]]) -> str:
        """A round gradient in sheet coordinates. Gives a fill value."""
        return self._define("radialGradient", stops, cx=num(centre[0]), cy=num(centre[1]), r=num(radius))

    def _define(self, kind: str, stops: Sequence[tuple[float, str, float]], **place: object) -> str:
        name = f"d{len(self.definitions)}"
        inner = "".join(
            element("stop", offset=f"{at:.3g}", stop_color=colour, stop_opacity=f"{seen:.3g}" if seen < 1 else None)
            for at, colour, seen in stops
        )
        self.definitions.append(element(kind, inner, id=name, gradientUnits="userSpaceOnUse", **place))
        return f"url(#{name})"

    def clip(self, d: str) -> str:
        """A clip path of this path data; use the answer as `clip_path=…`."""
        name = f"d{len(self.definitions)}"
        self.definitions.append(element("clipPath", element("path", d=d), id=name))
        return f"url(#{name})"


def along(points: Points, share: float) -> tuple[Point, Point]:
    """The place at a share (0 to 1) of the length of a line, and the unit direction there."""
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    left = max(0.0, min(1.0, share)) * sum(lengths)
    for i, length in enumerate(lengths):
        if left <= length or i == len(lengths) - 1:
            (x0, y0), (x1, y1) = points[i], points[i + 1]
            part = min(1.0, left / length) if length else 0.0
            size = length or 1.0
            return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), ((x1 - x0) / size, (y1 - y0) / size)
        left -= length
    return points[-1], (1.0, 0.0)


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
        out.append((u * u * start[0] + 2 * u * t * cx + t * t * end[0],
                    u * u * start[1] + 2 * u * t * cy + t * t * end[1]))
    return out
