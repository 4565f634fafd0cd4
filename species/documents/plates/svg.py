"""A small SVG writer: elements, and the sheet that a plate is drawn on.

Nothing here knows a plant. Coordinates are in units (a plate is 1000 wide), y grows downwards. Points, lines and
path data (`pathdata.py`) can be taken from here too.
"""

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

from species.documents.plates.pathdata import (
    Local,
    Point,
    Points,
    Rail,
    along,
    arch,
    bow,
    flick,
    num,
    ovals,
    smooth,
    straight,
    strokes,
    traced,
    trail,
)

__all__ = [
    "Local",
    "Point",
    "Points",
    "Rail",
    "Sheet",
    "along",
    "arch",
    "bow",
    "element",
    "flick",
    "num",
    "ovals",
    "smooth",
    "straight",
    "strokes",
    "text_of",
    "traced",
    "trail",
    "transform",
]


def element(name: str, content: str = "", /, **attributes: object) -> str:
    """`<name …>content</name>`; underscores become hyphens, floats are shortened, None is left out."""
    written = []
    for key, value in attributes.items():
        if value is None:
            continue
        text = (
            num(value)
            if isinstance(value, float) and abs(value) >= 1
            else f"{value:.3g}"
            if isinstance(value, float)
            else str(value)
        )
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

    def path(
        self,
        d: str,
        fill: str = "none",
        stroke: str | None = None,
        width: float = 1.0,
        opacity: float = 1.0,
        **more: object,
    ) -> None:
        """Path data as it is; does not widen the extent."""
        attributes: dict[str, object] = {"d": d, "fill": fill}
        if stroke:
            attributes |= {"stroke": stroke, "stroke_width": round(width, 2)}
        self.parts.append(element("path", **attributes, **_seen_through(fill, stroke, opacity), **more))

    def shape(
        self,
        points: Points,
        fill: str,
        stroke: str | None = None,
        width: float = 1.0,
        opacity: float = 1.0,
        soft: bool = True,
        **more: object,
    ) -> None:
        """A closed outline through the points."""
        self.reach(points)
        self.path((smooth if soft else straight)(points, True), fill, stroke, width, opacity, **more)

    def line(
        self, points: Points, stroke: str, width: float = 1.0, opacity: float = 1.0, soft: bool = True, **more: object
    ) -> None:
        """An open line through the points."""
        self.reach(points)
        self.path((smooth if soft else straight)(points), "none", stroke, width, opacity, **more)

    def disc(
        self,
        x: float,
        y: float,
        radius: float,
        fill: str,
        stroke: str | None = None,
        width: float = 1.0,
        opacity: float = 1.0,
        **more: object,
    ) -> None:
        self.oval(x, y, radius, radius, 0.0, fill, stroke, width, opacity, **more)

    def oval(
        self,
        x: float,
        y: float,
        rx: float,
        ry: float,
        turn: float,
        fill: str,
        stroke: str | None = None,
        width: float = 1.0,
        opacity: float = 1.0,
        **more: object,
    ) -> None:
        """An ellipse turned by `turn` degrees about its centre."""
        wide = max(rx, ry)
        self.reach([(x - wide, y - wide), (x + wide, y + wide)])
        self.parts.append(
            element(
                "ellipse",
                cx=num(x),
                cy=num(y),
                rx=num(rx),
                ry=num(ry),
                fill=fill,
                stroke=stroke,
                stroke_width=round(width, 2) if stroke else None,
                **_seen_through(fill, stroke, opacity),
                transform=f"rotate({num(turn)} {num(x)} {num(y)})" if turn else None,
                **more,
            )
        )

    def gradient(self, start: Point, end: Point, stops: Sequence[tuple[float, str, float]]) -> str:
        """A straight gradient in sheet coordinates; stops are (share, colour, opacity). Gives a fill value."""
        return self._define("linearGradient", stops, x1=num(start[0]), y1=num(start[1]), x2=num(end[0]), y2=num(end[1]))

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

    def keep(self, d: str) -> str:
        """Store path data once, for `again`; gives its name."""
        name = f"d{len(self.definitions)}"
        self.definitions.append(element("path", d=d, id=name))
        return name

    def again(
        self, name: str, fill: str = "none", stroke: str | None = None, width: float = 1.0, **more: object
    ) -> None:
        """Draw a kept path."""
        self.parts.append(
            element(
                "use",
                href=f"#{name}",
                fill=fill,
                stroke=stroke,
                stroke_width=round(width, 2) if stroke else None,
                **more,
            )
        )

    def clip(self, d: str) -> str:
        """A clip path of this path data; use the answer as `clip_path=…`."""
        name = f"d{len(self.definitions)}"
        self.definitions.append(element("clipPath", element("path", d=d), id=name))
        return f"url(#{name})"
