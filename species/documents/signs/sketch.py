"""What a small drawing of a state is made of: strokes in a box of 64 by 64 units, y downwards.

The same strokes become a picture on a page (`Stroke.d`) and on paper (`Stroke.pieces`).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, pi, radians, sin

SIDE = 64.0
INK = "#2a231b"
LEAF, PALE, EARTH, STALK = "#a9bd85", "#dfe6c8", "#cdb48c", "#c5d2a4"
DARK_LEAF = "#5d7a35"
PURPLE, WHITE, YELLOW = "#7d4a78", "#ffffff", "#e2bb35"
LINE, FINE, BOLD = 1.5, 0.9, 2.2

Point = tuple[float, float]
Piece = tuple[str, tuple[float, ...]]


@dataclass(frozen=True)
class Stroke:
    """One path: its pieces (M, L, C and Z with absolute numbers), its filling (or none) and its width (0: no line)."""

    pieces: tuple[Piece, ...]
    fill: str = ""
    width: float = LINE
    ink: str = INK

    @property
    def d(self) -> str:
        """The path data of SVG."""
        return "".join(letter + " ".join(_short(number) for number in numbers) for letter, numbers in self.pieces)


def _short(number: float) -> str:
    text = f"{number:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


class Sketch:
    """A drawing under way."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []

    def line(self, *points: Point, width: float = LINE, fill: str = "", closed: bool = False, ink: str = INK) -> None:
        """Straight from point to point."""
        pieces: list[Piece] = [("M", points[0]), *(("L", each) for each in points[1:])]
        self._add(pieces, width, fill, closed, ink)

    def soft(self, *points: Point, width: float = LINE, fill: str = "", closed: bool = False, ink: str = INK) -> None:
        """A curve through the points."""
        count = len(points)
        at = [points[-1], *points, points[0], points[1]] if closed else [points[0], *points, points[-1]]
        pieces: list[Piece] = [("M", points[0])]
        for i in range(count if closed else count - 1):
            (x0, y0), (x1, y1), (x2, y2), (x3, y3) = at[i : i + 4]
            ahead = (x1 + (x2 - x0) / 6, y1 + (y2 - y0) / 6)
            pieces.append(("C", (*ahead, x2 - (x3 - x1) / 6, y2 - (y3 - y1) / 6, x2, y2)))
        self._add(pieces, width, fill, closed, ink)

    def disc(self, x: float, y: float, r: float, fill: str = INK, width: float = 0, ry: float = 0) -> None:
        """A circle, or an oval of height `ry` to either side."""
        high = ry or r
        around = [(x + r * cos(a), y + high * sin(a)) for a in (k * pi / 4 for k in range(8))]
        self.soft(*around, width=width, fill=fill, closed=True)

    def _add(self, pieces: Iterable[Piece], width: float, fill: str, closed: bool, ink: str) -> None:
        ended = (*pieces, ("Z", ())) if closed else tuple(pieces)
        self.strokes.append(Stroke(ended, fill, width, ink))


def polar(x: float, y: float, r: float, degrees: float) -> Point:
    """The point at a distance and an angle; 0 is up, clockwise."""
    return x + r * sin(radians(degrees)), y - r * cos(radians(degrees))


def blade(
    foot: Point,
    long: float,
    half: float,
    turn: float = 0,
    teeth: str = "",
    widest: float = 1.0,
    count: int = 9,
) -> list[Point]:
    """The outline of a leaf from its foot round to its foot; `turn` in degrees from upright.

    `teeth`: "", "saw", "round" or "wave". `widest`: above 1 moves the widest place to the foot, below 1 to the tip.
    """
    left: list[Point] = []
    right: list[Point] = []
    steps = count * (2 if teeth == "saw" else 4)
    for step in range(steps + 1):
        share = step / steps
        wide = half * sin(pi * share ** (1 / widest) if share else 0)
        phase = share * count
        if 0 < share < 1:
            wide += _tooth(teeth, phase) * min(1.0, wide / 4)
        right.append(_turned(foot, wide, share * long, turn))
        left.append(_turned(foot, -wide, share * long, turn))
    return right + left[-2:0:-1]


def _tooth(teeth: str, phase: float) -> float:
    if teeth == "saw":
        return 2.6 if round(phase * 2) % 2 == 0 else -0.6
    if teeth == "round":
        return 1.6 * abs(sin(pi * phase))
    return 1.5 * sin(2 * pi * phase / 2) if teeth == "wave" else 0.0


def _turned(foot: Point, across: float, along: float, degrees: float) -> Point:
    a = radians(degrees)
    return foot[0] + across * cos(a) + along * sin(a), foot[1] + across * sin(a) - along * cos(a)
