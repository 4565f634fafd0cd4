"""Dog's mercury: toothed leaves in opposite pairs, crowded towards the top of an upright stem; green tassels."""

from math import cos, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.mercury_tassel import draw_tassels, enlarged_flowers
from species.documents.plates.outline import profile, toothed
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.regions import HEAD, JOINT, LEAF_AGAINST_LIGHT
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.storage import draw_rhizome
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import cross_net, pinnate

NAME = "dog's mercury (Mercurialis perennis)"
STAGES = ("leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "female")
UNIT = 34.0


class Habit:
    """What is settled once for the whole plant."""

    def __init__(self, individual: Individual) -> None:
        self.female = (
            individual.form == "female"
            or individual.stage == "fruit"
            or (individual.form == "typical" and individual.chance(0.35))
        )
        self.pairs = individual.count(3, 4) if individual.form == "young" else individual.count(4, 6)
        self.margin = "crenate" if individual.chance(0.75) else "serrate"
        self.teeth = individual.count(13, 18)
        self.ratio = individual.between(2.0, 2.7)
        self.downy = individual.chance(0.3)


FIRST = FirstLeaf(LeafDetail("edge", "crenate", "sparse", 13.0, 44.0), 2.2, 0.9, 1.2, 0.2, 10, 0.05, opposite=True)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=1.5, stalk=0.5), FIRST, ("toothed first leaves in opposite pairs",)
        )
    if individual.stage == "dormant":
        sheet = Sheet()
        at = draw_rhizome(sheet, individual, individual.coloured("#F0EAD8"), 17.0, "#E9E3C4")
        rest = Rest("creeping_rhizome", ("a long thin white rhizome",), skin="#F0EAD8")
        return rooted(sheet, individual, rest, at, at)
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    habit = Habit(individual)
    flowering = individual.stage in ("flower", "fruit")
    feet = [0.0]
    if individual.chance(0.5):
        feet.insert(0, individual.between(170, 230) * (1 if individual.chance(0.5) else -1))
    anchor = joint = (0.0, 0.0)
    for x in feet:
        small = 1.0 if x == feet[-1] else individual.between(0.72, 0.86)
        anchor, joint, tassel = _shoot(sheet, individual, habit, x, small, flowering)
    crumbs(sheet, feet, individual.rng)
    lens = sheet.layer()
    leaf_against_light(
        lens, individual, LeafDetail("edge", habit.margin, "downy" if habit.downy else "sparse", 13.0, 44.0)
    )
    second = sheet.layer()
    if flowering:
        enlarged_flowers(second, individual, habit.female)
    else:
        _enlarged_joint(second, individual, habit)
    near = Inset(second, tassel, HEAD) if flowering else Inset(second, joint, JOINT)
    insets = (Inset(lens, anchor, LEAF_AGAINST_LIGHT), near)
    return Drawing(sheet, _characters(individual, habit), insets, features=_features(habit, individual.stage))


def _features(habit: Habit, stage: str) -> tuple[str, ...]:
    flower = "few green flowers on short stalks" if habit.female else "tassels of tiny green flowers"
    more = {"flower": (flower,), "fruit": ("two-lobed hairy capsules",)}
    return (
        "toothed leaves in opposite pairs towards the top of an upright stem",
        "side veins that run out to the edge",
        "a few hairs",
        *more.get(stage, ()),
    )


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "on_stem",
        "leaf_division": "undivided",
        "blade_shape": "elliptic",
        "leaf_base": "tapering",
        "leaf_margin": habit.margin,
        "venation": "netted_to_edge",
        "leaf_spots": "none",
        "leaf_hairs": "soft_downy" if habit.downy else "sparse",
        "leaf_arrangement": "opposite",
        "leaf_stalk": "stalked",
        "stipules": "small",
        "stem_hairs": "downy",
    }
    if individual.stage == "flower":
        states |= {"inflorescence": "tassels", "flower_colour": "green", "petals": "tiny"}
    if individual.stage == "fruit":
        states["fruit_type"] = "capsule"
    return states


def _shoot(
    sheet: Sheet, individual: Individual, habit: Habit, x: float, small: float, flowering: bool
) -> tuple[Point, Point, Point]:
    """One stem, bare below; gives a place on a leaf, at a joint, and in a tassel."""
    young = 0.7 if individual.form == "young" else 1.0
    tall = individual.between(20, 25) * (1 + 0.25 * individual.shade) * individual.size * UNIT * small * young
    line = bow(
        (x, 4.0), (x + individual.between(-0.1, 0.1) * tall, -tall * 0.93), individual.between(-0.05, 0.05) * tall, 20
    )
    draw_stem(sheet, line, taper(12, 7), individual.green_stem, foot=mix(individual.green_stem, "#B79A86", 0.4))
    edges = sides(line, taper(12, 7))
    for edge, side in ((edges[0], 1), (edges[1], -1)):
        hairs(sheet, edge, side, 36, 6.0, individual.rng, soft=True, width=0.8)
    anchor, joint, tassel = (x, 0.0), (x, 0.0), (x, 0.0)
    first = individual.between(0.54, 0.6)
    turned = 0 if individual.chance(0.5) else 1
    for k in range(habit.pairs):
        share = first + (1.0 - first) * (k / (habit.pairs - 1)) ** 0.85
        place, _ = along(line, share)
        grow = (
            (0.62, 0.9, 1.0, 0.95, 0.8, 0.6)[k]
            if k < 5 and habit.pairs > 4
            else (0.75, 1.0, 0.95, 0.65, 0.5, 0.4)[min(k, 5)]
        )
        joint = place if k == 1 else joint
        got = _pair(sheet, individual, habit, place, grow * small * young, (k + turned) % 2 == 0, share)
        anchor = got or anchor
        if flowering and k >= 1:
            tassel = draw_tassels(sheet, individual, habit.female, place, UNIT)
    return anchor, joint, tassel


def _pair(
    sheet: Sheet, individual: Individual, habit: Habit, place: Point, grow: float, sideways: bool, share: float
) -> Point | None:
    """Two leaves that leave the stem at one height, to left and right or to back and front."""
    anchor = None
    rise = 78 - 46 * (share - 0.5) * 2
    for side in (1, -1):
        if sideways:
            heading, narrow = side * (rise + individual.between(-8, 8)), 1.0
        elif side == 1:
            heading, narrow = individual.between(-30, 30), 0.8
        else:
            heading, narrow = individual.between(140, 220), 0.72
        anchor_here = _leaf(sheet, individual, habit, place, heading, grow * (1 if sideways else 0.72), narrow)
        anchor = anchor_here if sideways else anchor
    for side in (1, -1):
        sheet.line([place, (place[0] + side * 8, place[1] - 9)], INK, 2.2)
    return anchor


def _leaf(
    sheet: Sheet, individual: Individual, habit: Habit, place: Point, heading: float, grow: float, narrow: float
) -> Point:
    long = individual.between(7.0, 9.0) * individual.size * UNIT * grow
    wide = long / habit.ratio * individual.between(0.95, 1.08)
    stalk = individual.between(0.7, 1.3) * UNIT * grow
    a = radians(heading)
    end = (place[0] + sin(a) * stalk, place[1] - cos(a) * stalk)
    draw_stem(sheet, [place, end], taper(7, 6), individual.green_stem, ink=1.3)
    side = 1 if sin(a) > 0 else -1
    smooth_edge = profile(
        long, wide, individual.between(0.9, 1.1), individual.between(1.1, 1.3), individual.lopsided, foot=5
    )
    small = long < 150
    outline = toothed(smooth_edge, round(habit.teeth * (0.7 if small else 1.0)), 0.032 * wide + 1.8, habit.margin)
    pose = Pose(
        end,
        heading,
        long,
        side * individual.between(4, 34),
        individual.between(-0.4, 0.4),
        individual.between(-0.4, 0.4),
        narrow,
        1.3,
    )
    side_veins = pinnate(smooth_edge, individual.count(6, 8) - 2 * small, 50, 0.95, width=1.0, start=0.04)
    net = side_veins if small else [*cross_net(side_veins, 1), *side_veins]
    draw_blade(sheet, outline, pose, look_of(individual, midrib=2.4, small=small), net)
    return near_edge(smooth_edge, pose, 0.5)


def _enlarged_joint(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """Two leaf stalks at one height, two small stipules, and a downy stem."""
    line: Points = bow((0.0, 112.0), (individual.between(-6, 6), -112.0), individual.between(-3, 3), 10)
    rng = individual.rng
    for side in (1, -1):
        stalk = bow((side * 8.0, 16.0), (side * 112.0, -46.0 + individual.between(-10, 10)), -side * 10, 8)
        draw_stem(inset, stalk, taper(20, 17), individual.green_stem, ink=2.2)
        for edge, way in zip(sides(stalk, taper(20, 17)), (1, -1), strict=True):
            hairs(inset, edge, way, 16, 12.0, rng, width=1.2, soft=True)
    draw_stem(inset, line, taper(34, 30), individual.green_stem, ink=2.4)
    for edge, way in zip(sides(line, taper(34, 30)), (1, -1), strict=True):
        hairs(inset, edge, way, 34, 14.0, rng, width=1.2, soft=True)
    for side in (1, -1):
        stipule = [(side * 12.0, 18.0), (side * 22.0, 4.0), (side * 30.0, -16.0), (side * 16.0, -4.0)]
        inset.shape(stipule, tint(individual.green_stem, 0, 0.06), INK, 1.8)
