"""Leaf blades laid on the sheet: how a blade bends in space, and the way it is washed and inked.

Its outline (`outline.py`) and its veins (`veins.py`) are planned in blade coordinates and placed by a `Pose`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import cos, pi, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.outline import Outline
from species.documents.plates.stem import sides
from species.documents.plates.svg import Point, Points, Sheet, smooth, straight, traced

Strokes = Sequence[tuple[Points, int, float]]


class Pose:
    """Where a blade lies: from `origin`, heading in degrees (0 is straight up, positive to the right).

    `bend` turns the midrib by so many degrees between stalk and tip (`late` above 1 keeps that for the upper part),
    `turn` (-0.8 to 0.8) swings the blade about its midrib, so that one half looks narrower, `twist` adds to the
    turn on the way to the tip, `narrow` draws both halves narrower (seen from the side).
    """

    def __init__(
        self,
        origin: Point,
        heading: float,
        length: float,
        bend: float = 0.0,
        turn: float = 0.0,
        twist: float = 0.0,
        narrow: float = 1.0,
        late: float = 1.4,
    ) -> None:
        self.origin, self.heading, self.length = origin, heading, length
        self.turn, self.twist, self.narrow = turn, twist, narrow
        self.near = 1 if turn + twist / 2 < 0 else -1
        steps = 28
        self._points: list[Point] = [origin]
        self._heads: list[Point] = []
        x, y = origin
        for i in range(steps + 1):
            angle = radians(heading + bend * (i / steps) ** late)
            self._heads.append((sin(angle), -cos(angle)))
            if i < steps:
                x += sin(angle) * length / steps
                y -= cos(angle) * length / steps
                self._points.append((x, y))
        self._steps = steps

    def place(self, x: float, y: float = 0.0, side: int = 1) -> Point:
        """The point of the sheet at blade coordinates; side 1 is left of the midrib."""
        share = x / self.length * self._steps
        i = max(0, min(self._steps - 1, int(share)))
        part = share - i
        (ax, ay), (bx, by) = self._points[i], self._points[i + 1]
        hx, hy = self._heads[i]
        swing = (self.turn + self.twist * max(0.0, min(1.0, x / self.length))) * side
        off = y * side * self.narrow * max(0.12, 1 - max(0.0, swing))
        return (ax + (bx - ax) * part + hy * off, ay + (by - ay) * part - hx * off)

    def line(self, points: Points, side: int = 1) -> list[Point]:
        return [self.place(x, y, side) for x, y in points]

    @cached_property
    def tip(self) -> Point:
        return self._points[-1]


@dataclass(frozen=True)
class Look:
    """How a blade is coloured: its green, the ink of its veins, shine (0 to 1), dryness at the tip.

    `small` leaves out what cannot be seen on a blade of a few dozen units.
    """

    green: str
    shine: float = 0.0
    vein: str = INK
    pale_veins: bool = False
    shadow: float = 0.17
    tip_wash: str | None = None
    midrib: float = 3.4
    small: bool = False


def look_of(
    individual: Individual, green: str | None = None, midrib: float = 3.4, pale_veins: bool = False, small: bool = False
) -> Look:
    """The common look of a leaf of this plant; species only change what belongs to them."""
    colour = individual.leaf_green()
    if individual.yellowing and individual.chance(0.5):
        colour = mix(colour, "#C9B458", individual.yellowing)
    colour = green or colour
    dry = "#A98B4E" if individual.chance(0.16) else None
    return Look(colour, individual.shine, mix(colour, INK, 0.62), pale_veins, 0.17, dry, midrib, small)


def draw_blade(sheet: Sheet, outline: Outline, pose: Pose, look: Look, veins: Strokes, rim: Strokes = ()) -> None:
    """Wash, shade, veins and ink of one blade. Veins are (points, side, width) in blade coordinates."""
    left, right = pose.line(outline.left, 1), pose.line(outline.right, -1)
    around = [*left, *reversed(right[:-1] if right[0] != left[0] else right[1:-1])]
    sheet.reach(around)
    edge = sheet.keep((smooth if outline.soft else straight)(around, True))
    sheet.again(
        edge,
        _wash(sheet, pose, look),
        mix(look.green, INK, 0.25),
        4.0,
        stroke_opacity="0.28",
        transform="translate(-1.5 -1)",
    )
    near, far = (left, right) if pose.near > 0 else (right, left)
    # Shading need not follow every tooth.
    plain = far if outline.soft else [*far[:-1:4], far[-1]]
    spine = [pose.place(outline.length * i / 5) for i in range(6)]
    sheet.path(smooth([*plain, *spine[-2:0:-1]], True), fill=mix(look.green, "#1F3A2C", 0.75), opacity=look.shadow)
    _shine(sheet, outline, pose, look)
    _veins(sheet, pose, look, veins)
    if rim:
        _rim(sheet, pose, look, rim)
    _midrib(sheet, outline, pose, look)
    if outline.soft and not look.small:
        pen(sheet, near, 1.9)
        pen(sheet, far, 2.8)
    else:
        sheet.again(edge, "none", INK, 1.5 if look.small else 1.8, stroke_linejoin="round")


def _wash(sheet: Sheet, pose: Pose, look: Look) -> str:
    light = tint(look.green, 2, 0.07)
    end = mix(look.green, look.tip_wash, 0.75) if look.tip_wash else light
    stops = [
        (0.0, mix(light, "#E9E3AE", 0.42), 1.0),
        (0.3, look.green, 1.0),
        (0.72, mix(look.green, "#53806A", 0.3), 1.0),
        (1.0, end, 1.0),
    ]
    return sheet.gradient(pose.origin, pose.tip, [stops[0], stops[2]] if look.small else stops)


def _shine(sheet: Sheet, outline: Outline, pose: Pose, look: Look) -> None:
    if look.shine < 0.12 or look.small:
        return
    side = pose.near
    spots = [0.2 + 0.06 * i for i in range(10)]
    inner = [(outline.length * t, outline.reach(side, outline.length * t) * 0.26) for t in spots]
    outer = [
        (outline.length * t, outline.reach(side, outline.length * t) * (0.3 + 0.28 * sin(pi * i / 9)))
        for i, t in enumerate(spots)
    ]
    band = [*pose.line(inner, side), *reversed(pose.line(outer, side))]
    sheet.path(smooth(band, True), fill="#F2F7DC", opacity=0.12 + 0.4 * look.shine)


def _veins(sheet: Sheet, pose: Pose, look: Look, veins: Strokes) -> None:
    by_width: dict[float, list[Points]] = {}
    for points, side, width in veins:
        by_width.setdefault(width, []).append(pose.line(points, side))
    for width, lines in by_width.items():
        if look.pale_veins and width >= 1.0:
            sheet.path(traced(lines), stroke=mix(look.green, "#EEF2CF", 0.5), width=width * 2.2, opacity=0.75)
        sheet.path(traced(lines), stroke=look.vein, width=width, opacity=0.8)


def _rim(sheet: Sheet, pose: Pose, look: Look, rim: Strokes) -> None:
    for points, side, width in rim:
        line = pose.line(points, side)
        sheet.path(smooth(line), stroke=mix(look.green, "#EEF2CF", 0.55), width=width * 2.4, opacity=0.85)
        sheet.path(smooth(line), stroke=look.vein, width=width)


def _midrib(sheet: Sheet, outline: Outline, pose: Pose, look: Look) -> None:
    """A pale rib that thins towards the tip, with ink on its shadow side."""
    if look.small:
        sheet.path(smooth([pose.place(outline.length * t) for t in (0.0, 0.5, 0.96)]), stroke=look.vein, width=1.5)
        return
    stations = [i / 9 for i in range(10)]
    one = [pose.place(outline.length * t, look.midrib * (1 - 0.88 * t), 1) for t in stations]
    two = [pose.place(outline.length * t, look.midrib * (1 - 0.88 * t), -1) for t in stations]
    sheet.path(smooth([*one, *reversed(two)], True), fill=mix(look.green, "#EDF0CB", 0.55))
    sheet.path(smooth(two if pose.near > 0 else one), stroke=look.vein, width=1.4)
    sheet.path(smooth(one if pose.near > 0 else two), stroke=look.vein, width=0.7)


def pen(sheet: Sheet, points: Points, width: float) -> None:
    """An ink line that swells in the middle and thins at both ends, as a steel nib draws it."""
    one, two = sides(points, lambda t: width * (0.35 + 0.65 * sin(pi * t) ** 0.7))
    sheet.path(smooth([*one, *reversed(two)], True), fill=INK)
