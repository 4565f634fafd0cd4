"""How a plant of the carrot family stands on a plate: the same posture for every species of a pair.

A species module says what its parts are like (`Build`); here they are put together for a stage. Number of leaves,
posture, number of umbels and whether the root is shown come from one common distribution, so that only the parts
themselves tell the species.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from species.documents.plates.closeup import StalkLook
from species.documents.plates.compound import Pose
from species.documents.plates.foliage import Blade, draw_blade, leaf_tone, nibbled
from species.documents.plates.individual import Individual
from species.documents.plates.seedling import PLAIN_SEED_LEAVES, SeedLeaves
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import SheathLook, StemLook, Tube, draw_sheath, draw_tube, tube
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.unreliable import stream

# (length of the blade in units, rank: 0 from the ground, 1 to 4 up the stem, bend in radians, random) -> blade
BladeMaker = Callable[[float, int, float, np.random.RandomState], Blade]
RootDrawer = Callable[[Sheet, Individual, float], None]


@dataclass(frozen=True)
class Build:
    """The parts of one individual. `slender` scales the stem; `first_rank`: the rank of blade that a seedling shows."""

    stem: StemLook
    stalk: StalkLook
    sheath: SheathLook | None
    blade: BladeMaker
    umbel: UmbelLook
    root: RootDrawer
    slender: float = 1.0
    sheath_share: float = 0.2
    stalk_ratio: float = 0.62
    upper_stalk: float = 0.16
    upper_blade: float = 1.0
    branches: int = 2
    head_scale: float = 1.0
    ground_scale: float = 1.0
    seed_leaves: SeedLeaves = PLAIN_SEED_LEAVES
    first_rank: int = 3
    apart: float = 0.35
    crown: "Crown | None" = None
    head_lens: "HeadLens | None" = None


# (sheet, individual, stem that carries it, radius, whether in fruit, share of the full size) -> place on the head
Crown = Callable[[Sheet, Individual, Tube, float, bool, float], Point]
HeadLens = Callable[[Sheet, Individual], None]


@dataclass
class Marks:
    """Places on the plant that the insets enlarge, filled while it is drawn."""

    lens: Point = (0.0, -60.0)
    section: Point = (0.0, -120.0)
    head: Point = (0.0, -600.0)


def draw_leaf(
    sheet: Sheet,
    individual: Individual,
    build: Build,
    foot: Point,
    heading: float,
    length: float,
    rank: int,
    depth: float = 0.0,
    narrow: float = 1.0,
    droop: float = 1.0,
) -> Tube:
    """One leaf: stalk with its sheath, then the blade. Heading in degrees, -90 is straight up. Gives the stalk."""
    random = stream(individual)
    side = 1.0 if heading > -90 else -1.0
    ratio = build.stalk_ratio if rank == 0 else build.upper_stalk
    reach = length * ratio * individual.near(1.0, 0.18) * (1 + 1.2 * individual.shade * (0.5 if rank else 1.0))
    lean = abs(heading + 90) / 90
    end = (foot[0] + cos(radians(heading)) * reach, foot[1] + sin(radians(heading)) * reach)
    thick = (17.0 if rank == 0 else 10.0) * (0.5 + 0.5 * build.slender) * (0.72 + length / 1100)
    stalk = tube(foot, end, side * reach * 0.07 * (0.4 + lean), thick * 1.15, thick * 0.62)
    draw_tube(sheet, stalk, build.stalk.look, random, 0.0, 0.32)
    share = build.sheath_share if rank == 0 else min(1.0, 0.5 + 0.5 * build.sheath_share)
    if build.sheath is not None:
        draw_sheath(sheet, stalk, build.sheath, share, random)
    old = individual.yellowing if individual.chance(0.4) else 0.0
    bend = side * droop * (0.25 + 0.45 * lean) * individual.near(1.0, 0.4)
    blade = build.blade(length, rank, bend, random)
    if individual.chance(0.1):
        blade = nibbled(blade, random)
    (x, y), turn = stalk.place(1.0)
    draw_blade(sheet, blade, Pose(x, y, turn + side * 6, narrow), leaf_tone(individual, depth, old), random)
    return stalk


def draw_rosette(sheet: Sheet, individual: Individual, build: Build) -> Marks:
    """Leaves from one crown, the far ones upright and pale, the near ones spreading."""
    young = individual.form == "young"
    tall, low = (individual.count(2, 3), 1) if young else (individual.count(3, 4), individual.count(2, 3))
    leaves = _fan(individual, tall, 12, 1.0) + _fan(individual, low, 46, 0.42)
    marks = Marks()
    lens_leaf = max(range(tall), key=lambda i: leaves[i][0] * (1 if individual.chance(0.5) else -1))
    for i, (heading, share, depth) in enumerate(leaves):
        length = individual.near(450, 0.08) * share * (0.8 if young else 1.0)
        stalk = draw_leaf(
            sheet,
            individual,
            build,
            (heading * build.apart, individual.between(-5, 5)),
            -90 + heading,
            length,
            0,
            depth,
            individual.between(0.62, 0.86) if share < 0.7 else individual.between(0.7, 0.95),
            droop=0.7 if share < 0.7 else 0.35,
        )
        if i == lens_leaf:
            marks.lens, marks.section = stalk.place(0.55)[0], stalk.place(0.8)[0]
    return marks


def _fan(individual: Individual, count: int, spread: float, share: float) -> list[tuple[float, float, float]]:
    """(heading off the vertical, share of the full length, depth) of leaves, the middle ones first and furthest."""
    span = np.linspace(-spread, spread, count) if count > 1 else np.array([individual.between(-spread, spread)])
    fan = []
    for heading in span.tolist():
        near = abs(heading) / (spread or 1.0)
        fan.append(
            (
                heading + individual.between(-7, 7),
                share * individual.near(1.0 - 0.12 * near, 0.1),
                max(0.0, 0.6 - 0.6 * near) if share == 1.0 else 0.0,
            )
        )
    return sorted(fan, key=lambda leaf: -leaf[2])
