"""How a plant of the carrot family stands on a plate: the same posture for every species of a pair.

A species module says what its parts are like (`Build`); here they are put together for a stage. Number of leaves,
posture, number of umbels and whether the root is shown come from one common distribution, so that only the parts
themselves tell the species.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import cos, radians, sin
from random import Random

import numpy as np

from species.documents.plates.closeup import StalkLook
from species.documents.plates.compound import Pose
from species.documents.plates.foliage import Blade, draw_blade, leaf_tone
from species.documents.plates.fruits import fruit_head
from species.documents.plates.individual import Individual
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import SheathLook, StemLook, Tube, draw_sheath, draw_tube, tube
from species.documents.plates.umbel import UmbelLook, View, draw_umbel, flower_head

# (length of the blade in units, rank: 0 from the ground, 1 to 4 up the stem, bend in radians, random) -> blade
BladeMaker = Callable[[float, int, float, np.random.RandomState], Blade]
RootDrawer = Callable[[Sheet, Individual, float], None]
DUG_SHARE = {"rosette": 0.35, "leafy": 0.35, "flower": 0.25, "fruit": 0.15, "seedling": 0.5, "dormant": 1.0}


@dataclass(frozen=True)
class Build:
    """The parts of one individual. `slender` scales the stem; `bush` the number of stem leaves and branches."""

    stem: StemLook
    stalk: StalkLook
    sheath: SheathLook
    blade: BladeMaker
    umbel: UmbelLook
    root: RootDrawer
    slender: float = 1.0
    sheath_share: float = 0.2
    stalk_ratio: float = 0.62
    upper_stalk: float = 0.16
    upper_blade: float = 1.0
    branches: int = 2


@dataclass
class Marks:
    """Places on the plant that the insets enlarge, filled while it is drawn."""

    lens: Point = (0.0, -60.0)
    section: Point = (0.0, -120.0)
    head: Point = (0.0, -600.0)


def is_dug(individual: Individual) -> bool:
    """Whether the root is shown; by stage and seed alone, so that both sides of a pair agree."""
    if individual.form == "dug" or individual.stage == "dormant":
        return True
    return Random(f"dug/{individual.stage}/{individual.seed}").random() < DUG_SHARE[individual.stage]


def height_cm(individual: Individual, low: float, high: float) -> float:
    """The height of this plant; one distribution per range, the young ones smaller."""
    grown = (low * high) ** 0.5 * individual.size**1.6
    return max(low, min(high, grown * (0.7 if individual.form == "young" else 1.0)))


def stream(individual: Individual) -> np.random.RandomState:
    """A numeric random stream that hangs on the individual's own."""
    return np.random.RandomState(individual.rng.getrandbits(30))


def draw_leaf(sheet: Sheet, individual: Individual, build: Build, foot: Point, heading: float, length: float,
              rank: int, depth: float = 0.0, narrow: float = 1.0, droop: float = 1.0) -> Tube:
    """One leaf: stalk with its sheath, then the blade. Heading in degrees, -90 is straight up. Gives the stalk."""
    random = stream(individual)
    side = 1.0 if heading > -90 else -1.0
    ratio = build.stalk_ratio if rank == 0 else build.upper_stalk
    reach = length * ratio * individual.near(1.0, 0.18) * (1 + 1.2 * individual.shade * (0.5 if rank else 1.0))
    lean = abs(heading + 90) / 90
    end = (foot[0] + cos(radians(heading)) * reach, foot[1] + sin(radians(heading)) * reach)
    thick = (15.0 if rank == 0 else 9.0) * (0.5 + 0.5 * build.slender) * (0.72 + length / 1100)
    stalk = tube(foot, end, side * reach * 0.07 * (0.4 + lean), thick * 1.15, thick * 0.62)
    draw_tube(sheet, stalk, build.stalk.look, random, 0.0, 0.32)
    share = build.sheath_share if rank == 0 else min(1.0, 0.5 + 0.5 * build.sheath_share)
    draw_sheath(sheet, stalk, build.sheath, share, random)
    old = individual.yellowing if individual.chance(0.4) else 0.0
    bend = side * droop * (0.25 + 0.45 * lean) * individual.near(1.0, 0.4)
    blade = build.blade(length, rank, bend, random)
    (x, y), turn = stalk.place(1.0)
    draw_blade(sheet, blade, Pose(x, y, turn + side * 6, narrow), leaf_tone(individual, depth, old), random)
    return stalk


def draw_rosette(sheet: Sheet, individual: Individual, build: Build) -> Marks:
    """Leaves from one crown, the far ones upright and pale, the near ones spreading."""
    young = individual.form == "young"
    count = individual.count(3, 4) if young else individual.count(5, 7)
    headings = np.linspace(-62, 62, count) + np.array([individual.between(-9, 9) for _ in range(count)])
    marks = Marks()
    lens_leaf = int(np.argmax(headings * (1 if individual.chance(0.5) else -1)))
    for i in sorted(range(count), key=lambda k: (abs(headings[k]) + 28 * (k % 2))):
        upright = 1 - abs(headings[i]) / 75
        length = individual.near(430, 0.15) * (0.72 + 0.28 * upright) * (0.75 if young else 1.0)
        foot = (headings[i] * 0.28, individual.between(-6, 6))
        stalk = draw_leaf(sheet, individual, build, foot, -90 + headings[i], length, 0,
                          depth=max(0.0, 0.75 * upright - 0.25) * (k_even(i)),
                          narrow=individual.between(0.72, 1.0))
        if i == lens_leaf:
            marks.lens, marks.section = stalk.place(0.55)[0], stalk.place(0.8)[0]
    return marks


def k_even(i: int) -> float:
    return 1.0 if i % 2 == 0 else 0.35


@dataclass(frozen=True)
class Node:
    """A joint of the stem: share of the height, side, and whether a branch springs from it."""

    share: float
    side: int
    branch: bool


def nodes_of(individual: Individual, build: Build, flowering: bool) -> list[Node]:
    count = individual.count(3, 4)
    first = 1 if individual.chance(0.5) else -1
    low, high = (0.2, 0.8) if flowering else (0.22, 0.86)
    branches = build.branches if flowering else 0
    return [
        Node(low + (high - low) * (i + individual.between(-0.12, 0.12)) / (count - 1), first * (-1) ** i,
             i >= count - branches)
        for i in range(count)
    ]


def draw_leafy(sheet: Sheet, individual: Individual, build: Build, tall: float = 760.0) -> Marks:
    """A stem in leaf, its top still closed, with two or three leaves from the ground."""
    stem, marks = _main_stem(individual, build, tall)
    _ground_leaves(sheet, individual, build, individual.count(2, 3), tall * 0.44)
    draw_tube(sheet, stem, build.stem, stream(individual), 0.0, 1.0)
    nodes = nodes_of(individual, build, False)
    for i, node in enumerate(nodes):
        length = tall * build.upper_blade * (0.44 - 0.26 * i / len(nodes))
        _stem_leaf(sheet, individual, build, stem, node, length, i + 1)
    (x, y), heading = stem.place(1.0)
    for off in (-16.0, 15.0, -2.0):
        draw_leaf(sheet, individual, build, (x, y), heading + off + individual.between(-5, 5),
                  tall * individual.between(0.16, 0.2), 4, narrow=0.6, droop=0.5)
    return marks


def _main_stem(individual: Individual, build: Build, tall: float) -> tuple[Tube, Marks]:
    lean = individual.between(-55, 55)
    thick = 25.0 * build.slender * individual.near(1.0, 0.12)
    stem = tube((0.0, 6.0), (lean, -tall), individual.between(-24, 24), thick, thick * 0.5, 20)
    marks = Marks(lens=stem.place(individual.between(0.1, 0.14))[0], section=stem.place(0.3)[0])
    return stem, marks


def _ground_leaves(sheet: Sheet, individual: Individual, build: Build, count: int, length: float) -> None:
    first = 1 if individual.chance(0.5) else -1
    for i in range(count):
        heading = -90 + first * (-1) ** i * individual.between(34, 62) * (1.0 if i < 2 else 0.45)
        draw_leaf(sheet, individual, build, (6.0 * first * (-1) ** i, 2.0), heading,
                  length * individual.near(1.0, 0.12), 0, depth=0.45 if i == 2 else 0.0,
                  narrow=individual.between(0.75, 0.95))


def _stem_leaf(sheet: Sheet, individual: Individual, build: Build, stem: Tube, node: Node, length: float,
               rank: int) -> None:
    (x, y), heading = stem.place(node.share)
    turn = heading + node.side * individual.between(40, 58)
    draw_leaf(sheet, individual, build, (x, y), turn, length, min(4, rank), narrow=individual.between(0.72, 0.95))


def draw_heads(sheet: Sheet, individual: Individual, build: Build, fruiting: bool, tall: float = 640.0) -> Marks:
    """A plant in flower or in fruit: leaves below, a main umbel and side umbels above."""
    stem, marks = _main_stem(individual, build, tall)
    _ground_leaves(sheet, individual, build, 1 if fruiting else individual.count(1, 2), tall * 0.4)
    nodes = nodes_of(individual, build, True)
    branches = [_branch(individual, build, stem, node, tall) for node in nodes if node.branch]
    for branch in branches:
        draw_tube(sheet, branch, build.stem, stream(individual), 0.5, 1.0)
    draw_tube(sheet, stem, build.stem, stream(individual), 0.0, 1.0)
    for i, node in enumerate(nodes):
        length = tall * build.upper_blade * (0.4 - 0.26 * i / len(nodes)) * (0.8 if fruiting else 1.0)
        _stem_leaf(sheet, individual, build, stem, node, length, i + 1)
    for branch in branches:
        _head(sheet, individual, build, branch, individual.near(84, 0.14), fruiting, 0.8)
    marks.head = _head(sheet, individual, build, stem, individual.near(116, 0.1), fruiting, 1.0)
    return marks


def _branch(individual: Individual, build: Build, stem: Tube, node: Node, tall: float) -> Tube:
    (x, y), heading = stem.place(node.share)
    turn = radians(heading + node.side * individual.between(26, 38))
    reach = tall * individual.between(0.3, 0.36) * (1.25 - 0.5 * node.share)
    end = (x + cos(turn) * reach, y + sin(turn) * reach)
    thick = stem.wide_at(node.share)
    return tube((x, y), end, -node.side * reach * 0.1, thick * 0.72, thick * 0.45)


def _head(sheet: Sheet, individual: Individual, build: Build, stem: Tube, radius: float, fruiting: bool,
          share: float) -> Point:
    (x, y), heading = stem.place(1.0)
    view = View(x, y, heading * 0.55 - 90 * 0.45, individual.between(0.24, 0.42))
    look = build.umbel if share == 1.0 else replace(build.umbel, rays=max(5, round(build.umbel.rays * share)))
    head = fruit_head if fruiting else flower_head
    random = stream(individual)
    draw_umbel(sheet, look, view, radius, random, head)
    return (x + radius * 0.55, y - radius * 0.55)
