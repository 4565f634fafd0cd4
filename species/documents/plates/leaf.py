"""Leaf blades: outlines, margins, how a blade bends in space, and the way it is washed and inked.

A blade is planned in its own coordinates, x along the midrib from the stalk (0) to the tip (length), y away from
the midrib on either side, and then laid on the sheet by a `Pose`. Veins are planned in `veins.py`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, cos, hypot, pi, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.stem import sides
from species.documents.plates.svg import Point, Points, Sheet, arch, smooth, straight

Half = tuple[Point, ...]


@dataclass(frozen=True)
class Outline:
    """Both edges of a blade from the stalk to the tip, each as (x, y) with y counted outwards."""

    length: float
    left: Half
    right: Half
    soft: bool = True

    def reach(self, side: int, x: float) -> float:
        """How far the edge is from the midrib at x; side 1 is left, -1 right. Lobes behind the stalk are left out."""
        half = self.left if side > 0 else self.right
        before = (0.0, 0.0)
        for px, py in half:
            if px >= x:
                if px >= 0 and before[0] <= x:
                    span = px - before[0] or 1.0
                    return before[1] + (py - before[1]) * (x - before[0]) / span
            before = (px, py)
        return 0.0


def profile(length: float, width: float, a: float, b: float, lopsided: float = 0.0, steps: int = 15,
            wave: float = 0.0, foot: float = 0.0) -> Outline:
    """An undivided blade whose half-width goes as t^a (1-t)^b.

    `wave` is the share by which the edge undulates, `foot` the full width with which the blade runs into its stalk.
    """
    peak = a / (a + b)
    halves = []
    for side, phase in ((1, 0.0), (-1, 1.3)):
        half = [(0.0, foot / 2)]
        for i in range(1, steps):
            # Points lie closer together near both ends, where the edge turns.
            t = (1 - cos(pi * i / steps)) / 2
            y = width / 2 * (t / peak) ** a * ((1 - t) / (1 - peak)) ** b
            y = y * (1 + side * lopsided) * (1 + wave * sin(7 * t * pi + phase)) + foot / 2 * (1 - t) ** 4
            half.append((length * t, y))
        halves.append((*half, (length, 0.0)))
    return Outline(length, halves[0], halves[1])


def arrow(length: float, width: float, a: float, b: float, lobe: float, spread: float, pointed: float,
          lopsided: float = 0.0, wave: float = 0.0) -> Outline:
    """A blade with two lobes at its base.

    `lobe` is their length as a share of the blade, `spread` the angle in degrees between lobe and stalk,
    `pointed` 1 for sharp tips and 0 for round ones.
    """
    body = profile(length, width, a, b, lopsided, 15, wave)
    halves = []
    for side, half in ((1, body.left), (-1, body.right)):
        turn = radians(spread) * (1 + side * lopsided)
        reach = lobe * length * (1 + side * lopsided)
        back, out = (-cos(turn), sin(turn)), (sin(turn), cos(turn))
        tip = (back[0] * reach, back[1] * reach)
        radius = 0.085 * length * (1 - pointed)

        def near(along: float, across: float, back: Point = back, out: Point = out, tip: Point = tip) -> Point:
            """A point near the tip of the lobe, in units along and across it."""
            return tip[0] + back[0] * along + out[0] * across, tip[1] + back[1] * along + out[1] * across

        shoulder = (0.02 * length, width / 2 * 0.9)
        if pointed > 0.5:
            lobe_points = [near(-0.5 * reach, -0.012 * length), near(-0.15 * reach, -0.012 * length), tip,
                           near(-0.22 * reach, 0.042 * length)]
        else:
            lobe_points = [near(-0.5 * reach, -radius * 0.5), near(-radius * 0.7, -radius), near(0, -radius * 0.35),
                           near(0, radius * 0.5), near(-radius * 0.9, radius * 1.15)]
        last = lobe_points[-1]
        middle = ((last[0] + shoulder[0]) / 2, (last[1] + shoulder[1]) / 2 + 0.006 * length)
        blade = [p for p in half if p[0] > length * 0.13]
        halves.append(((0.0, 0.0), *lobe_points, middle, shoulder, *blade))
    return Outline(length, halves[0], halves[1])


def toothed(outline: Outline, teeth: int, depth: float, kind: str, start: float = 0.06) -> Outline:
    """The outline with teeth: "crenate" rounded, "serrate" pointed towards the tip; depth in units."""
    return Outline(outline.length, _teeth(outline.left, teeth, depth, kind, start),
                   _teeth(outline.right, teeth, depth, kind, start), soft=False)


CRENATE = ((0.0, 0.0), (0.18, 0.62), (0.5, 1.0), (0.82, 0.62))
SERRATE = ((0.0, 0.0), (0.4, 0.4), (0.86, 1.0), (0.97, 0.35))


def _teeth(half: Half, teeth: int, depth: float, kind: str, start: float) -> Half:
    fine = _fine(half, 60)
    pattern = CRENATE if kind == "crenate" else SERRATE
    out = [half[0]]
    for k in range(teeth):
        for at, rise in pattern:
            u = start + (0.985 - start) * (k + at) / teeth
            (x, y), (dx, dy) = _walk(fine, u)
            # Teeth shrink towards both ends of the blade, as real ones do.
            tall = depth * rise * min(1.0, 0.35 + 4 * u * (1 - u))
            out.append((x - dy * tall, y + dx * tall))
    out.append(half[-1])
    return tuple(out)


def _fine(half: Half, steps: int) -> list[Point]:
    """Points on the smooth curve through the half outline."""
    pts = [half[0], *half, half[-1]]
    per = max(2, ceil(steps / (len(half) - 1)))
    out = []
    for i in range(len(half) - 1):
        p0, p1, p2, p3 = pts[i : i + 4]
        for j in range(per):
            t = j / per
            out.append(tuple(
                0.5 * (2 * p1[k] + (p2[k] - p0[k]) * t + (2 * p0[k] - 5 * p1[k] + 4 * p2[k] - p3[k]) * t * t
                       + (3 * p1[k] - p0[k] - 3 * p2[k] + p3[k]) * t**3)
                for k in (0, 1)
            ))
    out.append(half[-1])
    return out


def _walk(points: Sequence[Point], share: float) -> tuple[Point, Point]:
    place = share * (len(points) - 1)
    i = min(len(points) - 2, int(place))
    (x0, y0), (x1, y1) = points[i], points[i + 1]
    size = hypot(x1 - x0, y1 - y0) or 1.0
    part = place - i
    return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), ((x1 - x0) / size, (y1 - y0) / size)


class Pose:
    """Where a blade lies: from `origin`, heading in degrees (0 is straight up, positive to the right).

    `bend` turns the midrib by so many degrees between stalk and tip (`late` above 1 keeps that for the upper part),
    `turn` (-0.8 to 0.8) swings the blade about its midrib, so that one half looks narrower, `twist` adds to the
    turn on the way to the tip, `narrow` draws both halves narrower (seen from the side).
    """

    def __init__(self, origin: Point, heading: float, length: float, bend: float = 0.0, turn: float = 0.0,
                 twist: float = 0.0, narrow: float = 1.0, late: float = 1.4) -> None:
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
    """How a blade is coloured: its green, the ink of its veins, shine (0 to 1), dryness at the tip, hatching."""

    green: str
    shine: float = 0.0
    vein: str = INK
    pale_veins: bool = False
    shadow: float = 0.17
    tip_wash: str | None = None
    midrib: float = 3.4


def look_of(individual: Individual, **changes: object) -> Look:
    """The common look of a leaf of this plant; species only change what belongs to them."""
    green = individual.leaf_green()
    if individual.yellowing and individual.chance(0.5):
        green = mix(green, "#C9B458", individual.yellowing)
    dry = "#A98B4E" if individual.chance(0.16) else None
    look = {"green": green, "shine": individual.shine, "vein": mix(green, INK, 0.62), "tip_wash": dry}
    return Look(**(look | changes))


def draw_blade(sheet: Sheet, outline: Outline, pose: Pose, look: Look, veins: "Sequence[tuple[Points, int, float]]",
               rim: "Sequence[tuple[Points, int, float]]" = ()) -> None:
    """Wash, shade, veins and ink of one blade. Veins are (points, side, width) in blade coordinates."""
    left, right = pose.line(outline.left, 1), pose.line(outline.right, -1)
    around = [*left, *reversed(right[1:-1])]
    sheet.reach(around)
    trace = smooth if outline.soft else straight
    edge = trace(around, True)
    base, tip = pose.origin, pose.tip
    light = tint(look.green, 2, 0.07)
    stops = [(0.0, mix(light, "#E9E3AE", 0.42), 1), (0.3, look.green, 1), (0.72, mix(look.green, "#53806A", 0.3), 1),
             (1.0, mix(look.green, look.tip_wash, 0.75) if look.tip_wash else light, 1)]
    sheet.path(edge, sheet.gradient(base, tip, stops), mix(look.green, INK, 0.25), 4.0, stroke_opacity="0.28",
               transform="translate(-1.5 -1)")
    near = left if pose.near > 0 else right
    far = right if pose.near > 0 else left
    spine = [pose.place(outline.length * i / 10) for i in range(11)]
    sheet.path(trace([*far, *spine[-2:0:-1]], True), fill=mix(look.green, "#1F3A2C", 0.75), opacity=look.shadow)
    _shine(sheet, outline, pose, look)
    _veins(sheet, pose, look, veins)
    if rim:
        _rim(sheet, pose, look, rim)
    _midrib(sheet, outline, pose, look)
    pen(sheet, near, 1.9, outline.soft)
    pen(sheet, far, 2.8, outline.soft)


def _shine(sheet: Sheet, outline: Outline, pose: Pose, look: Look) -> None:
    if look.shine < 0.12:
        return
    side = pose.near
    spots = [0.2 + 0.06 * i for i in range(10)]
    inner = [(outline.length * t, outline.reach(side, outline.length * t) * 0.26) for t in spots]
    outer = [(outline.length * t, outline.reach(side, outline.length * t) * (0.3 + 0.28 * sin(pi * i / 9)))
             for i, t in enumerate(spots)]
    band = [*pose.line(inner, side), *reversed(pose.line(outer, side))]
    sheet.path(smooth(band, True), fill="#F2F7DC", opacity=0.12 + 0.4 * look.shine)


def _veins(sheet: Sheet, pose: Pose, look: Look, veins: "Sequence[tuple[Points, int, float]]") -> None:
    by_width: dict[float, list[Points]] = {}
    for points, side, width in veins:
        by_width.setdefault(width, []).append(pose.line(points, side))
    for width, lines in by_width.items():
        if look.pale_veins and width >= 1.0:
            sheet.path(arch(lines), stroke=mix(look.green, "#EEF2CF", 0.5), width=width * 2.2, opacity=0.75)
        sheet.path(arch(lines), stroke=look.vein, width=width, opacity=0.8)


def _rim(sheet: Sheet, pose: Pose, look: Look, rim: "Sequence[tuple[Points, int, float]]") -> None:
    for points, side, width in rim:
        line = pose.line(points, side)
        sheet.path(smooth(line), stroke=mix(look.green, "#EEF2CF", 0.55), width=width * 2.4, opacity=0.85)
        sheet.path(smooth(line), stroke=look.vein, width=width)


def _midrib(sheet: Sheet, outline: Outline, pose: Pose, look: Look) -> None:
    """A pale rib that thins towards the tip, with ink on its shadow side."""
    if look.midrib <= 0:
        return
    stations = [i / 9 for i in range(10)]
    one = [pose.place(outline.length * t, look.midrib * (1 - 0.88 * t), 1) for t in stations]
    two = [pose.place(outline.length * t, look.midrib * (1 - 0.88 * t), -1) for t in stations]
    sheet.path(smooth([*one, *reversed(two)], True), fill=mix(look.green, "#EDF0CB", 0.55))
    sheet.path(smooth(two if pose.near > 0 else one), stroke=look.vein, width=1.4)
    sheet.path(smooth(one if pose.near > 0 else two), stroke=look.vein, width=0.7)


def pen(sheet: Sheet, points: Points, width: float, soft: bool = True) -> None:
    """An ink line that swells in the middle and thins at both ends, as a steel nib draws it."""
    if not soft:
        sheet.path(straight(points), stroke=INK, width=width * 0.8, stroke_linejoin="round")
        return
    one, two = sides(points, lambda t: width * (0.35 + 0.65 * sin(pi * t) ** 0.7))
    sheet.path(smooth([*one, *reversed(two)], True), fill=INK)
