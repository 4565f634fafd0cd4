"""Big hairy rosettes and leafy stems: the posture that comfrey and foxglove share.

Size, green, number and stance of the leaves tell nothing, so both plants take them from here. A species gives its
own `LeafMaker`, which draws one leaf.
"""

from collections.abc import Callable
from dataclasses import dataclass

from species.documents.plates.individual import Individual
from species.documents.plates.leaf import Pose
from species.documents.plates.outline import Outline
from species.documents.plates.posture import crumbs, fan
from species.documents.plates.stem import hairs
from species.documents.plates.svg import Point, Rail, Sheet, ovals

ROSETTE_UNIT = 27.0
LEAFY_UNIT = 21.0
FLOWER_UNIT = 25.0


@dataclass(frozen=True)
class Stance:
    """Where a leaf starts, where it heads, how long blade and stalk are (units), and how it is laid."""

    foot: Point
    heading: float
    length: float
    stalk: float
    ratio: float
    bend: float
    turn: float
    twist: float
    narrow: float
    veins: int

    def pose(self, length: float) -> Pose:
        return Pose(self.foot, self.heading, length, self.bend, self.turn, self.twist, self.narrow, 1.2)


LeafMaker = Callable[[Sheet, Individual, Stance], Point]


def rosette(sheet: Sheet, individual: Individual, draw_leaf: LeafMaker) -> Point:
    """Five to eight leaves from one crown; gives a place on the last one."""
    young = individual.form == "young"
    leaves = individual.count(4, 5) if young else individual.count(5, 8)
    headings = fan(individual, leaves, individual.between(30, 40))
    # The back of the rosette stands up, the front lies low and is drawn last.
    back = sorted(headings[: leaves // 2], key=abs)
    front = sorted(headings[leaves // 2 :], key=abs, reverse=True)
    anchor = (0.0, -100.0)
    for k, heading in enumerate([*back, *front]):
        lying = k >= len(back)
        anchor = draw_leaf(sheet, individual, _basal(individual, heading, lying))
    crumbs(sheet, [-26.0, 0.0, 26.0], individual.rng, 12)
    return anchor


def _basal(individual: Individual, heading: float, lying: bool) -> Stance:
    grow = individual.size * (0.62 if individual.form == "young" else 1.0) * ROSETTE_UNIT
    side = 1 if heading > 0 else -1
    lean = heading * (1.1 if lying else 0.6)
    return Stance(
        foot=(heading * 0.5, individual.between(0, 7)),
        heading=lean,
        length=individual.between(13, 18.5) * grow * (0.88 if lying else 1.0),
        stalk=individual.between(6, 10) * (1 + 0.5 * individual.shade) * grow * (0.75 if lying else 1.0),
        ratio=individual.between(2.2, 2.9),
        bend=side * individual.between(6, 22 + 0.9 * abs(lean)),
        turn=individual.between(-0.45, 0.45),
        twist=individual.between(-0.5, 0.5),
        narrow=individual.between(0.82, 1.0),
        veins=individual.count(6, 8),
    )


def on_stem(individual: Individual, place: Point, side: int, height: float, unit: float) -> Stance:
    """A leaf of the stem; `height` from 0 at the foot to 1 at the top makes it shorter and more upright."""
    return Stance(
        foot=place,
        heading=side * individual.between(36, 58) * (1 - 0.35 * height),
        length=individual.between(13.5, 17.5) * individual.size * unit * (1 - 0.5 * height),
        stalk=individual.between(2.4, 3.6) * individual.size * unit * max(0.0, 1 - 1.5 * height),
        ratio=individual.between(2.3, 2.9),
        bend=side * individual.between(8, 48),
        turn=individual.between(-0.35, 0.35),
        twist=individual.between(-0.4, 0.4),
        narrow=individual.between(0.85, 1.0),
        veins=individual.count(6, 8),
    )


def stem_joints(individual: Individual, count: int, first: float, last: float) -> list[tuple[float, int, float]]:
    """(share of the stem, side, height 0 to 1) of alternate leaves from below upwards."""
    side = 1 if individual.chance(0.5) else -1
    out = []
    for k in range(count):
        height = k / max(1, count - 1)
        out.append(
            (first + (last - first) * height + individual.between(-0.012, 0.012), side * (1 if k % 2 else -1), height)
        )
    return out


def fringe(
    sheet: Sheet,
    individual: Individual,
    outline: Outline,
    pose: Pose,
    per_side: int,
    length: float,
    soft: bool,
    width: float = 0.9,
) -> None:
    """Hairs that stand off both edges of a blade."""
    for half, side in ((outline.left, 1), (outline.right, -1)):
        hairs(sheet, pose.line(half, side), side, per_side, length, individual.rng, width=width, soft=soft, lean=0.5)


def face_hairs(
    sheet: Sheet, individual: Individual, outline: Outline, pose: Pose, count: int, length: float, bulbs: bool
) -> None:
    """Hairs on the face of a blade: short strokes, with a pale bulb at the foot of each when they are bristles."""
    strokes, feet = [], []
    for _ in range(count):
        x = outline.length * individual.between(0.12, 0.94)
        side = 1 if individual.chance(0.5) else -1
        px, py = pose.place(x, outline.reach(side, x) * individual.between(0.1, 0.88), side)
        lean = individual.between(-0.5, 0.5)
        strokes.append(f"M{px:.0f} {py:.0f}l{lean * length:.1f} {-length * individual.between(0.7, 1.1):.1f}")
        feet.append((px, py, 2.3, 2.3, 0.0))
    if bulbs:
        sheet.path(ovals(feet), fill="#EEF1D8", opacity=0.9)
    sheet.path("".join(strokes), stroke="#F4F4E2", width=1.8, opacity=0.55)
    sheet.path("".join(strokes), stroke="#3A3D30", width=0.8, opacity=0.8)


def stem_hairs(
    sheet: Sheet,
    individual: Individual,
    edges: tuple[list[Point], list[Point]],
    count: int,
    length: float,
    soft: bool,
    width: float,
) -> None:
    """Hairs off both edges of a stem, and on its face for bristles."""
    for edge, side in zip(edges, (1, -1), strict=True):
        hairs(sheet, edge, side, count, length, individual.rng, width=width, soft=soft)
    if soft:
        return
    middle = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in zip(*edges, strict=True)]
    hairs(sheet, middle, 1, count // 2, length * 0.7, individual.rng, width=width)
    rail = Rail(middle)
    feet = [(*rail.at(individual.between(0, 1))[0], 1.6, 1.6, 0.0) for _ in range(count // 3)]
    sheet.path(ovals(feet), fill="#F3F2DC", stroke="#3A3D30", width=0.6)
