"""Rosettes of lobed leaves with yellow heads: the posture that dandelion and cat's-ear share.

Number, length and stance of the leaves and the number and size of the heads come from one distribution; lobes,
bristles and the stalk of the head belong to the species.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, radians, sin

from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.outline import Half, Outline, profile
from species.documents.plates.posture import crumbs, fan
from species.documents.plates.stem import hairs
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.veins import Vein

# (sheet, individual, place of the foot, lean in degrees) -> (a place on the stalk, a place on the head)
StalkDrawer = Callable[[Sheet, Individual, Point, float], tuple[Point, Point]]


@dataclass(frozen=True)
class LobeLook:
    """Lobes of a leaf: how many a side, how deep (share of the half width), how far back their tips point."""

    count: int
    depth: float
    back: float
    blunt: bool
    bristles: bool
    rib: str


def lobed(outline: Outline, look: LobeLook, loose: Callable[[float, float], float]) -> Outline:
    """The outline cut into lobes that point back to the stalk (or stand out blunt), with an end lobe."""
    halves: list[Half] = []
    for half in (outline.left, outline.right):
        points: list[Point] = [half[0]]
        start, stop = 0.14, 0.8
        for k in range(look.count):
            low = start + (stop - start) * (k + loose(-0.08, 0.08)) / look.count
            wide = (stop - start) / look.count
            tip = low + wide * (0.42 - look.back)
            reach = _half_at(half, outline.length * (low + wide * 0.5)) * loose(0.9, 1.12)
            cut = reach * (1 - look.depth)
            x0, x1 = outline.length * low, outline.length * (low + wide)
            points.append((x0, cut))
            if look.blunt:
                points += [(x0 + 0.24 * (x1 - x0), reach * 0.86), (x0 + 0.5 * (x1 - x0), reach)]
                points.append((x0 + 0.78 * (x1 - x0), reach * 0.8))
            else:
                points.append((outline.length * tip, reach))
                points.append((x0 + 0.62 * (x1 - x0), reach * 0.62))
        end = outline.length * stop
        points += [(end, _half_at(half, end) * (1 - look.depth * 0.9)), (end * 1.02, _half_at(half, end) * 1.05)]
        points += [(x, y) for x, y in half if x > end * 1.1]
        halves.append(tuple(points))
    return Outline(outline.length, halves[0], halves[1], soft=look.blunt)


def _half_at(half: Half, x: float) -> float:
    before = half[0]
    for point in half[1:]:
        if point[0] >= x:
            span = point[0] - before[0] or 1.0
            return before[1] + (point[1] - before[1]) * (x - before[0]) / span
        before = point
    return 0.0


def draw_rosette(sheet: Sheet, individual: Individual, look: LobeLook, grow: float = 1.0) -> Point:
    """Six to nine leaves from one crown, the back ones standing; gives a place on the last leaf."""
    leaves = individual.count(6, 9)
    headings = fan(individual, leaves, individual.between(66, 80))
    back = sorted(headings[: leaves // 2], key=abs)
    front = sorted(headings[leaves // 2 :], key=abs, reverse=True)
    anchor = (0.0, -80.0)
    for k, heading in enumerate([*back, *front]):
        lying = k >= len(back)
        lean = heading * (1.05 if lying else 0.62)
        long = individual.between(430, 540) * grow * (0.86 if lying else 1.0) * (1 + 0.15 * individual.shade)
        anchor = _leaf(sheet, individual, look, (heading * 0.28, individual.between(0, 6)), lean, long)
    crumbs(sheet, [-16.0, 16.0], individual.rng)
    return anchor


def _leaf(sheet: Sheet, individual: Individual, look: LobeLook, foot: Point, heading: float, long: float) -> Point:
    plain = profile(long, long * individual.between(0.21, 0.27), 1.35, 0.8, individual.lopsided, foot=15)
    outline = lobed(plain, look, individual.between) if look.count else plain
    side = 1 if heading > 0 else -1
    pose = Pose(
        foot,
        heading,
        long,
        side * individual.between(4, 34),
        individual.between(-0.35, 0.35),
        individual.between(-0.35, 0.35),
        individual.between(0.82, 1.0),
    )
    veins: list[Vein] = []
    for half, way in ((outline.left, 1), (outline.right, -1)):
        for x, y in half[2:-3:3]:
            veins.append(([(max(0.0, x - y * 0.5), 0.0), (x - y * 0.1, y * 0.5), (x, y * 0.88)], way, 1.0))
    draw_blade(sheet, outline, pose, look_of(individual, midrib=5.0), veins)
    rib = [pose.place(long * t) for t in (0.0, 0.2, 0.45, 0.75)]
    sheet.line(rib, mix(individual.green_stem, look.rib, 0.8), 3.4)
    if look.bristles:
        _bristles(sheet, individual, outline, pose)
    return pose.place(long * 0.5, long * 0.05, pose.near)


def _bristles(sheet: Sheet, individual: Individual, outline: Outline, pose: Pose) -> None:
    """Stiff hairs off the edge and on the face."""
    for half, side in ((outline.left, 1), (outline.right, -1)):
        hairs(sheet, pose.line(half, side), side, 26, 9.0, individual.rng, width=1.1)
    strokes = []
    for _ in range(22):
        x = outline.length * individual.between(0.12, 0.9)
        side = 1 if individual.chance(0.5) else -1
        px, py = pose.place(x, outline.length * individual.between(0.005, 0.05), side)
        strokes.append(f"M{px:.0f} {py:.0f}l{individual.between(-4, 4):.1f} -10")
    sheet.path("".join(strokes), stroke="#F4F4E2", width=2.2, opacity=0.6)
    sheet.path("".join(strokes), stroke="#2F3326", width=1.0)


def stalk_ends(individual: Individual, foot: Point, lean: float, tall: float) -> Point:
    """The top of a stalk of this lean and height."""
    a = radians(lean)
    return foot[0] + sin(a) * tall, foot[1] - cos(a) * tall


def draw_stalks(sheet: Sheet, individual: Individual, draw_stalk: StalkDrawer) -> tuple[Point, Point]:
    """Two or three stalks from the middle of the rosette; gives the marks of the last one."""
    count = individual.count(2, 3)
    marks = ((0.0, -200.0), (0.0, -600.0))
    for k in range(count):
        lean = (k - (count - 1) / 2) * individual.between(17, 24) + individual.between(-4, 4)
        marks = draw_stalk(sheet, individual, (lean * 0.5, 0.0), lean)
    return marks
