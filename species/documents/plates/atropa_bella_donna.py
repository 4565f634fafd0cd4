"""Deadly nightshade: a tall soft herb with entire leaves in unequal pairs, and a berry on a five-lobed green star."""

from math import cos, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.nightshade_hanging import Habit, draw_hanging_bell, draw_hanging_berry, enlarged_flower
from species.documents.plates.nightshade_parts import (
    enlarged_berries,
    enlarged_stem,
)
from species.documents.plates.outline import profile
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.regions import FRUIT, HEAD, LEAF_AGAINST_LIGHT, STEM
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import cross_net, pinnate

NAME = "deadly nightshade (Atropa bella-donna)"
STAGES = ("leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "flushed-stem", "downy", "pale-flowered")
SECOND = {"flower": HEAD, "fruit": FRUIT}
UNITS = {"leafy": 20.0, "flower": 36.0, "fruit": 38.0}


FIRST = FirstLeaf(LeafDetail("edge", "entire", "sparse", net=5), 1.7, 0.8, 1.2, 0.35)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=2.3, a=0.7, b=1.2, stalk=0.5), FIRST, ("entire first leaves",)
        )
    if individual.stage == "dormant":
        rest = Rest("", ("a thick branched pale root with buds",))
        return resting_plate(individual, lambda sheet, plant: taproot(sheet, plant, 350, 90, True), rest)
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    form, typical = individual.form, individual.form == "typical"
    flushed = form == "flushed-stem" or (typical and individual.chance(0.4))
    stem = mix(individual.green_stem, individual.coloured("#7A4A62"), individual.between(0.35, 0.6) if flushed else 0.0)
    downy = form == "downy" or (typical and individual.chance(0.25))
    habit = Habit(
        UNITS.get(individual.stage, 20.0),
        stem,
        "downy" if downy else "sparse",
        form == "pale-flowered" or (typical and individual.chance(0.06)),
    )
    whole = individual.stage == "leafy"
    if whole:
        _herb(sheet, individual, habit)
    else:
        _spray(sheet, individual, habit)
    lens, second = sheet.layer(), sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("edge", "entire", habit.hair, net=5))
    if whole:
        enlarged_stem(second, individual, habit.stem)
    elif individual.stage == "flower":
        enlarged_flower(second, individual, habit)
    else:
        enlarged_berries(second, individual, habit.stem)
    insets = (
        Inset(lens, habit.anchor, LEAF_AGAINST_LIGHT),
        Inset(second, habit.mark, SECOND.get(individual.stage, STEM)),
    )
    return Drawing(sheet, _characters(individual, habit), insets, ground=whole, features=_features(individual))


def _features(individual: Individual) -> tuple[str, ...]:
    more = {
        "fruit": ("single shining black berries, each on a green star of five lobes",),
        "flower": ("single hanging bells",),
    }
    return ("a soft round stem", "entire leaves, a large one beside a small one", *more.get(individual.stage, ()))


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_division": "undivided",
        "blade_shape": "ovate",
        "leaf_base": "tapering",
        "leaf_margin": "entire",
        "leaf_hairs": "soft_downy" if habit.hair == "downy" else "sparse",
        "leaf_arrangement": "alternate",
        "stem_hairs": "downy",
        "stem_section": "round_smooth",
    }
    if individual.stage == "flower":
        states |= {
            "inflorescence": "axillary_single",
            "petals": "bell",
            "flower_colour": "yellow_green" if habit.pale else "brown_purple",
        }
    if individual.stage == "fruit":
        states |= {
            "fruit_type": "berry",
            "fruit_colour": "black",
            "fruit_calyx": "star_below",
            "fruit_position": "single",
        }
    return states


def _herb(sheet: Sheet, individual: Individual, habit: Habit) -> None:
    """The whole plant in leaf: one thick soft stem that parts into three."""
    young = 0.7 if individual.form == "young" else 1.0
    tall = individual.between(42, 50) * individual.size * habit.unit * young
    fork = (individual.between(-0.05, 0.05) * tall, -tall * 0.46)
    trunk = bow((0.0, 5.0), fork, individual.between(-0.03, 0.03) * tall, 12)
    side = 1 if individual.chance(0.5) else -1
    for heading in (-30 + individual.between(-5, 5), 30 + individual.between(-5, 5), individual.between(-7, 7)):
        _shoot(sheet, individual, habit, fork, heading, tall * individual.between(0.42, 0.52), 3, 15)
    draw_stem(sheet, trunk, taper(26, 19), habit.stem)
    _down(sheet, individual, trunk, 26, 19, 60)
    for share in (0.42, 0.7, 0.94):
        place, _ = along(trunk, share)
        _pair(sheet, individual, habit, place, 0.0, side, 0.9)
        side = -side
    crumbs(sheet, [0.0], individual.rng, 18)


def _spray(sheet: Sheet, individual: Individual, habit: Habit) -> None:
    """A cut branch that bends over."""
    side = 1 if individual.chance(0.5) else -1
    _shoot(
        sheet,
        individual,
        habit,
        (0.0, 0.0),
        -side * individual.between(4, 12),
        individual.between(19, 22) * individual.size * habit.unit,
        3,
        18,
        side * individual.between(16, 34),
    )


def _shoot(
    sheet: Sheet,
    individual: Individual,
    habit: Habit,
    foot: Point,
    heading: float,
    long: float,
    joints: int,
    width: float,
    arch: float = 0.0,
) -> None:
    """A branch with leaves in unequal pairs by turns to either side."""
    points: list[Point] = [foot]
    way = 1 if individual.chance(0.5) else -1
    steps = joints * 4
    for i in range(steps):
        a = radians(heading + arch * (i / steps) ** 1.3 + 7 * way * (1 if (i // 4) % 2 else -1))
        px, py = points[-1]
        points.append((px + sin(a) * long / steps, py - cos(a) * long / steps))
    draw_stem(sheet, points, taper(width, width * 0.55), habit.stem)
    _down(sheet, individual, points, width, width * 0.55, 50)
    fruits: list[tuple[Point, int]] = []
    for k in range(1, joints + 1):
        place, _ = along(points, (k - 0.15) / joints)
        side = way * (1 if k % 2 else -1)
        tip_heading = heading + arch * (k / joints)
        _pair(sheet, individual, habit, place, tip_heading, side, (1.0, 0.94, 0.82, 0.66)[min(3, k - 1)])
        fruits.append((place, side))
    _young(sheet, individual, habit, points[-1], heading + arch)
    for place, side in fruits:
        if individual.stage == "flower":
            draw_hanging_bell(sheet, individual, habit, place, -side)
        elif individual.stage == "fruit":
            draw_hanging_berry(sheet, individual, habit, place, -side)


def _down(sheet: Sheet, individual: Individual, line: Points, start: float, end: float, count: int) -> None:
    for edge, side in zip(sides(line, taper(start, end)), (1, -1), strict=True):
        hairs(sheet, edge, side, count * 2 // 3, 4.5, individual.rng, width=0.75, soft=True)


def _pair(
    sheet: Sheet, individual: Individual, habit: Habit, place: Point, heading: float, side: int, grow: float
) -> None:
    """A large leaf and one a third of its size beside it, on the same side."""
    _leaf(sheet, individual, habit, place, heading + side * individual.between(54, 74), grow)
    _leaf(
        sheet,
        individual,
        habit,
        place,
        heading + side * individual.between(14, 32),
        grow * individual.between(0.36, 0.46),
    )


def _young(sheet: Sheet, individual: Individual, habit: Habit, place: Point, heading: float) -> None:
    for turn, grow in ((-24, 0.4), (22, 0.34), (0, 0.28)):
        _leaf(sheet, individual, habit, place, heading + turn + individual.between(-6, 6), grow)


def _leaf(sheet: Sheet, individual: Individual, habit: Habit, place: Point, heading: float, grow: float) -> None:
    long = individual.between(8.0, 10.5) * individual.size * habit.unit * grow
    wide = long / individual.between(1.7, 2.0)
    outline = profile(
        long,
        wide,
        individual.between(0.82, 1.0),
        individual.between(1.1, 1.3),
        individual.lopsided,
        wave=individual.between(0.0, 0.02),
        foot=7,
    )
    stalk = 0.07 * long
    a = radians(heading)
    end = (place[0] + sin(a) * stalk, place[1] - cos(a) * stalk)
    sheet.line([place, end], INK, 8.4)
    sheet.line([place, end], individual.green_stem, 5.4)
    side = 1 if sin(a) > 0 else -1
    pose = Pose(
        end,
        heading,
        long,
        side * individual.between(4, 36),
        individual.between(-0.4, 0.4),
        individual.between(-0.45, 0.45),
        individual.between(0.85, 1.0),
    )
    small = long < 170
    side_veins = pinnate(outline, individual.count(5, 7) - 2 * small, 50, 0.92, width=1.1, start=0.06)
    net = side_veins if small else [*cross_net(side_veins, 1), *side_veins]
    draw_blade(sheet, outline, pose, look_of(individual, midrib=3.4, small=small), net)
    if grow > 0.6:
        habit.anchor = near_edge(outline, pose, 0.55)
        habit.mark = place if individual.stage == "leafy" else habit.mark
