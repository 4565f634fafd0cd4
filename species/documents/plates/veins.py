"""Veins of a blade, planned in blade coordinates: lists of (points, side, width) for `leaf.draw_blade`."""

from itertools import pairwise
from math import cos, hypot, radians, sin

from species.documents.plates.outline import Outline
from species.documents.plates.svg import Point, Points

Vein = tuple[Points, int, float]


def parallel(outline: Outline, count: int, width: float = 1.0) -> list[Vein]:
    """Veins from base to tip, each the edge drawn nearer to the midrib; `count` counts both sides."""
    out: list[Vein] = []
    per_side = max(1, (count - 1) // 2)
    for side in (1, -1):
        half = outline.left if side > 0 else outline.right
        for k in range(1, per_side + 1):
            share = k / (per_side + 1)
            stop = len(half) - (1 if k % 2 else 2)
            points = [(x, y * share) for x, y in half[1:stop]]
            out.append((points, side, width if k % 2 else width * 0.75))
    return out


def pinnate(
    outline: Outline,
    count: int,
    angle: float,
    end: float,
    width: float = 1.1,
    inset: float = 0.0,
    start: float = 0.06,
    curl: float = 0.35,
) -> list[Vein]:
    """Side veins that leave the midrib at `angle` degrees and end at a share `end` of the way to the edge.

    With `inset` they end that many units inside the edge instead (to meet a rim vein).
    """
    out: list[Vein] = []
    for side in (1, -1):
        for k in range(count):
            x = outline.length * (start + (0.86 - start) * (k + 0.5 + 0.12 * side) / count)
            points = _side_vein(outline, side, x, angle, end, inset, curl)
            if len(points) > 2:
                out.append((points, side, width))
    return out


def _side_vein(
    outline: Outline, side: int, x: float, angle: float, end: float, inset: float, curl: float
) -> list[Point]:
    points: list[Point] = [(x, 0.0)]
    turn = radians(angle)
    step = outline.length / 15
    px, py = x, 0.0
    for i in range(9):
        bend = turn * (1 - curl * min(1.0, i / 5))
        nx, ny = px + cos(bend) * step, py + sin(bend) * step
        edge = outline.reach(side, nx)
        limit = edge - inset if inset else edge * end
        if ny >= limit:
            before = outline.reach(side, px)
            room = (before - inset if inset else before * end) - py
            past = ny - limit
            share = room / (room + past) if room + past > 0 else 0.0
            points.append((px + (nx - px) * share, py + (ny - py) * share))
            break
        points.append((nx, ny))
        px, py = nx, ny
    return points


def rim(outline: Outline, inset: float, width: float = 1.5) -> list[Vein]:
    """One line that runs right round inside the edge, `inset` units from it, from stalk to tip on both sides."""
    out: list[Vein] = []
    for side in (1, -1):
        half = outline.left if side > 0 else outline.right
        points: list[Point] = [(0.0, 0.0)]
        for i in range(1, len(half) - 1):
            (ax, ay), (bx, by) = half[i - 1], half[i + 1]
            size = hypot(bx - ax, by - ay) or 1.0
            x, y = half[i][0] + (by - ay) / size * inset, half[i][1] - (bx - ax) / size * inset
            if y > inset * 0.25:
                points.append((x, y))
        points.append((outline.length - inset * 1.2, 0.0))
        out.append((points, side, width))
    return out


def cross_net(veins: list[Vein], per_gap: int, width: float = 0.6) -> list[Vein]:
    """Short cross lines between neighbouring side veins of the same half."""
    out: list[Vein] = []
    for (one, side, _), (two, other, _) in pairwise(veins):
        if side != other:
            continue
        for j in range(1, per_gap + 1):
            share = j / (per_gap + 1)
            a, b = _at(one, share), _at(two, share * 0.92)
            middle = (
                (a[0] + b[0]) / 2 + (b[1] - a[1]) * 0.12,
                (a[1] + b[1]) / 2 + (0.1 if j % 2 else -0.1) * (b[0] - a[0]),
            )
            out.append(([a, middle, b], side, width))
    return out


def lobe_veins(outline: Outline, lobe: float, spread: float, inset: float, width: float = 1.1) -> list[Vein]:
    """A vein into each basal lobe, with two branches."""
    out: list[Vein] = []
    reach = outline.length * lobe
    for side in (1, -1):
        turn = radians(spread - 8)
        tip = (-cos(turn) * (reach - inset * 1.3), sin(turn) * (reach - inset * 1.3) + inset * 0.6)
        out.append(([(0.0, 0.0), (tip[0] * 0.5, tip[1] * 0.5 + inset * 0.5), tip], side, width))
        root = (tip[0] * 0.35, tip[1] * 0.35 + inset * 0.35)
        out.append(([root, (root[0] - reach * 0.02, root[1] + reach * 0.3)], side, width * 0.8))
    return out


def _at(points: Points, share: float) -> Point:
    place = share * (len(points) - 1)
    i = min(len(points) - 2, int(place))
    part = place - i
    (x0, y0), (x1, y1) = points[i], points[i + 1]
    return x0 + (x1 - x0) * part, y0 + (y1 - y0) * part
