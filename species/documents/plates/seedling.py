"""A seedling: a short shoot, its seed leaves, and the first one or two leaves of the kind that it will have.

No character of the state table is read from a seedling, so none is recorded: the picture teaches what they look
like and why they are left alone. How many leaves there are and how they stand is the same for all species.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import cos, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import profile, toothed
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Point, Sheet, bow
from species.documents.plates.veins import Vein, cross_net, parallel, pinnate, rim


@dataclass(frozen=True)
class SeedLeaves:
    """`count` (0 where they stay in the ground), length to width, exponents of the outline, stalk to length."""

    count: int = 2
    ratio: float = 4.0
    a: float = 1.0
    b: float = 1.0
    stalk: float = 0.35


PLAIN_SEED_LEAVES = SeedLeaves()


@dataclass(frozen=True)
class FirstLeaf:
    """An undivided first leaf; words as in `LeafDetail`. `opposite` ones come in pairs; `teeth` a side."""

    detail: LeafDetail
    ratio: float
    a: float = 0.8
    b: float = 1.1
    stalk: float = 0.4
    teeth: int = 0
    depth: float = 0.03
    opposite: bool = False


# (sheet, individual, where it springs, heading in degrees from upright, length of the blade) -> a place on it
LeafDrawer = Callable[[Sheet, Individual, Point, float, float], Point]


@dataclass(frozen=True)
class Sprout:
    """What grows: seed leaves, the drawer of the first leaves, and what the lens shows."""

    seed_leaves: SeedLeaves
    leaf: LeafDrawer
    lens: Callable[[Sheet], None]
    opposite: bool = False
    features: tuple[str, ...] = field(default=())


def undivided_seedling(
    individual: Individual, seed_leaves: SeedLeaves, first: FirstLeaf, features: tuple[str, ...]
) -> Drawing:
    """The seedling of a plant with undivided leaves."""
    sprout = Sprout(
        seed_leaves,
        lambda sheet, one, place, heading, length: _leaf(sheet, one, first, place, heading, length),
        lambda lens: leaf_against_light(lens, individual, first.detail),
        first.opposite,
        features,
    )
    return seedling_plate(individual, sprout)


def seedling_plate(individual: Individual, sprout: Sprout) -> Drawing:
    """Draw one seedling with its two insets: the first leaf, and a seed leaf (or the foot) nearer."""
    sheet = Sheet()
    tall = individual.between(150, 250) * (1 + 0.5 * individual.shade)
    top = (individual.between(-0.12, 0.12) * tall, -tall)
    seed_leaves = sprout.seed_leaves
    if not seed_leaves.count:
        top = (0.0, 2.0)
    first = 1 if individual.chance(0.5) else -1
    anchor, end = top, top
    for k in range(1 if individual.chance(0.45) else 2):
        long = individual.between(330, 400) * (1.0 if k == 0 else individual.between(0.5, 0.7))
        lean = first * (-1) ** k * individual.between(4, 16) * (2.2 if k else 1.0)
        where = (top[0] + 8.0 * k * first, top[1])
        if sprout.opposite:
            where = end = (top[0], top[1] - (60.0 + 70.0 * k))
            for side in (1, -1):
                anchor = sprout.leaf(sheet, individual, where, side * individual.between(34, 58), long * 0.72)
        else:
            here = sprout.leaf(sheet, individual, where, lean, long)
            anchor = here if k == 0 else anchor
        if not seed_leaves.count:
            break
    if sprout.opposite:
        draw_stem(sheet, [top, end], taper(10, 8), individual.green_stem, ink=1.4)
    seed = _shoot(sheet, individual, sprout, top)
    crumbs(sheet, [0.0], individual.rng)
    lens, second = sheet.layer(), sheet.layer()
    sprout.lens(lens)
    _enlarged(second, individual, sprout)
    return Drawing(sheet, {}, (Inset(lens, anchor), Inset(second, seed)), features=sprout.features)


def _shoot(sheet: Sheet, individual: Individual, sprout: Sprout, top: Point) -> Point:
    """The shoot below the seed leaves, and the seed leaves; gives a place on one of them."""
    colour = mix(individual.green_stem, "#E9E2C0", 0.25)
    seed_leaves = sprout.seed_leaves
    if not seed_leaves.count:
        return (0.0, -30.0)
    draw_stem(sheet, bow((0.0, 5.0), top, individual.between(-12, 12), 8), taper(13, 11), colour, foot="#E8DFC8")
    place = top
    for k in range(seed_leaves.count):
        side = (1 if k else -1) if seed_leaves.count > 1 else (1 if individual.chance(0.5) else -1)
        heading = side * individual.between(58, 84)
        place = _seed_leaf(sheet, individual, seed_leaves, top, heading, individual.between(185, 235))
    return place


def _seed_leaf(
    sheet: Sheet, individual: Individual, kind: SeedLeaves, foot: Point, heading: float, long: float
) -> Point:
    a = radians(heading)
    reach = long * kind.stalk
    end = (foot[0] + sin(a) * reach, foot[1] - cos(a) * reach)
    if reach > 6:
        draw_stem(sheet, [foot, end], taper(9, 8), individual.green_stem, ink=1.3)
    outline = profile(long, long / kind.ratio, kind.a, kind.b, individual.lopsided, foot=8)
    pose = Pose(end, heading, long, (1 if a > 0 else -1) * individual.between(-6, 22), individual.between(-0.3, 0.3))
    draw_blade(sheet, outline, pose, look_of(individual, green=individual.green_below, midrib=2.0, small=True), [])
    return near_edge(outline, pose, 0.5)


def _leaf(sheet: Sheet, individual: Individual, first: FirstLeaf, place: Point, heading: float, long: float) -> Point:
    """One undivided first leaf."""
    a = radians(heading)
    reach = long * first.stalk * individual.near(1.0, 0.15) * (1 + 0.4 * individual.shade)
    end = (place[0] + sin(a) * reach, place[1] - cos(a) * reach)
    stalk = bow(place, end, individual.between(-0.05, 0.05) * reach, 8)
    if reach > 6:
        draw_stem(sheet, stalk, taper(11, 9), individual.green_stem, ink=1.5)
    wide = long / first.ratio
    plain = profile(long, wide, first.a, first.b, individual.lopsided, foot=9)
    outline = toothed(plain, first.teeth, first.depth * wide + 2, first.detail.margin) if first.teeth else plain
    pose = Pose(end, heading, long, (1 if a > 0 else -1) * individual.between(2, 24), individual.between(-0.35, 0.35))
    veins: list[Vein]
    inner: list[Vein] = []
    if first.detail.venation == "parallel":
        veins = parallel(plain, 13)
    else:
        inset = 0.07 * wide if first.detail.venation == "rim" else 0.0
        veins = pinnate(plain, 5, 52, 0.94, inset=inset, start=0.04)
        veins = [*cross_net(veins, 2), *veins]
        inner = rim(plain, inset, 2.1) if inset else []
    draw_blade(sheet, outline, pose, look_of(individual, midrib=3.0), veins, inner)
    if first.detail.hair != "none":
        soft = first.detail.hair != "bristly"
        count, reach = (46, 6.0) if soft else (20, 10.0)
        for half, side in ((plain.left, 1), (plain.right, -1)):
            hairs(sheet, pose.line(half, side), side, count, reach, individual.rng, width=0.9, soft=soft)
        for edge, side in zip(sides(stalk, taper(11, 9)), (1, -1), strict=True):
            hairs(sheet, edge, side, count // 3, reach, individual.rng, width=0.9, soft=soft)
    return near_edge(plain, pose, 0.5)


def _enlarged(inset: Sheet, individual: Individual, sprout: Sprout) -> None:
    """A seed leaf, or the foot of a shoot whose seed leaf stays below."""
    kind = sprout.seed_leaves
    if not kind.count:
        draw_stem(inset, bow((0.0, 118.0), (8.0, -118.0), 6.0, 8), taper(36, 28), individual.green_stem, ink=2.4)
        return
    long = 168.0
    draw_stem(inset, [(0.0, 120.0), (0.0, 84.0)], taper(15, 14), individual.green_stem, ink=2.0)
    outline = profile(long, min(150.0, long / kind.ratio), kind.a, kind.b, individual.lopsided, foot=14)
    pose = Pose((0.0, 84.0), individual.between(-6, 6), long, individual.between(-8, 8), individual.between(-0.2, 0.2))
    draw_blade(inset, outline, pose, look_of(individual, green=individual.green_below, midrib=4.0), [])
