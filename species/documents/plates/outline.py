"""Outlines of undivided blades: profile, basal lobes, wings down the stalk, and teeth.

Coordinates are the blade's own: x along the midrib from the stalk (0) to the tip (length), y away from the midrib.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, cos, hypot, pi, radians, sin

from species.documents.plates.svg import Local, Point

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
            if px >= x and px >= 0 and before[0] <= x:
                span = px - before[0] or 1.0
                return before[1] + (py - before[1]) * (x - before[0]) / span
            before = (px, py)
        return 0.0


def profile(
    length: float,
    width: float,
    a: float,
    b: float,
    lopsided: float = 0.0,
    steps: int = 15,
    wave: float = 0.0,
    foot: float = 0.0,
) -> Outline:
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


def arrow(
    length: float,
    width: float,
    a: float,
    b: float,
    lobe: float,
    spread: float,
    pointed: bool,
    lopsided: float = 0.0,
    wave: float = 0.0,
) -> Outline:
    """A blade with two lobes at its base.

    `lobe` is their length as a share of the blade, `spread` the angle in degrees between lobe and stalk.
    """
    body = profile(length, width, a, b, lopsided, 15, wave)
    halves = []
    for side, half in ((1, body.left), (-1, body.right)):
        skew = 1 + side * lopsided
        edge = _lobe(length, lobe * length * skew, spread * skew, pointed)
        shoulder = (0.02 * length, width / 2 * (0.9 if pointed else 0.97))
        last = edge[-1]
        middle = ((last[0] + shoulder[0]) / 2, (last[1] + shoulder[1]) / 2 + 0.006 * length)
        blade = [p for p in half if p[0] > length * 0.13]
        halves.append(((0.0, 0.0), *edge, *((middle,) if pointed else ()), shoulder, *blade))
    return Outline(length, halves[0], halves[1])


def _lobe(length: float, reach: float, spread: float, pointed: bool) -> list[Point]:
    """The edge of one lobe from its inner side round its tip, `reach` units from the stalk."""
    tip = Local((-cos(radians(spread)) * reach, sin(radians(spread)) * reach), 180 - spread, 1.0, -1.0)
    if pointed:
        thin = 0.012 * length
        return tip.all([(-0.5 * reach, -thin), (-0.15 * reach, -thin), (0, 0), (-0.22 * reach, 0.042 * length)])
    radius = 0.1 * length
    inner = [(-0.5 * reach, -0.12 * radius), (-0.75 * radius, -0.5 * radius)]
    round_tip = [(-0.2 * radius, -0.36 * radius), (0, 0.12 * radius), (-0.16 * radius, 0.62 * radius)]
    return tip.all([*inner, *round_tip, (-0.62 * radius, 1.1 * radius)])


def toothed(outline: Outline, teeth: int, depth: float, kind: str, start: float = 0.06) -> Outline:
    """The outline with teeth: "crenate" rounded, "serrate" pointed towards the tip; depth in units."""
    return Outline(
        outline.length,
        _teeth(outline.left, teeth, depth, kind, start),
        _teeth(outline.right, teeth, depth, kind, start),
        soft=False,
    )


CRENATE = ((0.0, 0.0), (0.18, 0.62), (0.5, 1.0), (0.82, 0.62))
SERRATE = ((0.0, 0.0), (0.4, 0.4), (0.86, 1.0), (0.97, 0.35))  # both have four points, see leaf.draw_blade


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
            x, y = (
                0.5
                * (
                    2 * p1[k]
                    + (p2[k] - p0[k]) * t
                    + (2 * p0[k] - 5 * p1[k] + 4 * p2[k] - p3[k]) * t * t
                    + (3 * p1[k] - p0[k] - 3 * p2[k] + p3[k]) * t**3
                )
                for k in (0, 1)
            )
            out.append((x, y))
    out.append(half[-1])
    return out


def _walk(points: Sequence[Point], share: float) -> tuple[Point, Point]:
    place = share * (len(points) - 1)
    i = min(len(points) - 2, int(place))
    (x0, y0), (x1, y1) = points[i], points[i + 1]
    size = hypot(x1 - x0, y1 - y0) or 1.0
    part = place - i
    return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), ((x1 - x0) / size, (y1 - y0) / size)


def winged(outline: Outline, stalk: float, near: float, far: float) -> Outline:
    """The outline with its stalk, `stalk` units long, made part of the blade as a wing.

    The wing is `far` wide (both sides together) where the stalk begins and `near` wide where the blade begins.
    """
    halves = []
    for half in (outline.left, outline.right):
        wing = [(stalk * t, (far + (near - far) * t**1.6) / 2) for t in (0.0, 0.3, 0.6, 0.85)]
        blade = [(x + stalk, max(y, near / 2 * (1 - x / outline.length) ** 3)) for x, y in half[1:]]
        halves.append((*wing, *blade))
    return Outline(outline.length + stalk, halves[0], halves[1], outline.soft)
