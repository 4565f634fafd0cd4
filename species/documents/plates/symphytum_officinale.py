"""Common comfrey: entire bristly leaves, running down the stem as wings, and coils of nodding bells."""

from math import cos, radians, sin

from species.documents.plates import broadleaf
from species.documents.plates.broadleaf import Stance, face_hairs, fringe, on_stem, rosette, stem_hairs, stem_joints
from species.documents.plates.comfrey_coil import draw_coil
from species.documents.plates.comfrey_wing import draw_wing, enlarged_stem
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import Outline, profile, winged
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.regions import LEAF_AGAINST_LIGHT, LEAF_FEET, STEM
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import cross_net, pinnate

NAME = "common comfrey (Symphytum officinale)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "winged-stalk", "soft-haired", "half-winged", "cream", "purple", "blue")
COLOURS = {"cream": "#EFE6C8", "purple": "#8A5A92", "blue": "#8A94C6"}
BLACK_SKIN = "#3A322D"
HEADED = ("flower", "fruit")
STATE_OF = {"cream": "cream", "purple": "pink_purple", "blue": "blue_violet"}


class Habit:
    """What is settled once for the whole plant."""

    def __init__(self, individual: Individual) -> None:
        form, typical = individual.form, individual.form == "typical"
        self.winged_stalk = form == "winged-stalk" or (typical and individual.chance(0.2))
        self.soft = individual.stage == "rosette" and (
            form in ("soft-haired", "young") or (typical and individual.chance(0.12))
        )
        self.wing_share = 0.5 if form == "half-winged" or (typical and individual.chance(0.15)) else 0.97
        roll = individual.between(0, 1)
        self.colour = form if form in COLOURS else "cream" if roll < 0.3 else "purple" if roll < 0.75 else "blue"
        self.waved = individual.between(0.0, 0.03)


FIRST = FirstLeaf(LeafDetail("edge", "entire", "bristly", net=3), 1.9, 0.7, 1.2, 0.6)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(individual, SeedLeaves(ratio=1.6, stalk=0.3), FIRST, ("entire bristly first leaves",))
    if individual.stage == "dormant":
        rest = Rest("taproot", ("a thick root with black skin, white inside",), skin=BLACK_SKIN)
        return resting_plate(individual, lambda sheet, plant: taproot(sheet, plant, 350, 84, True, BLACK_SKIN), rest)
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    habit = Habit(individual)
    second = sheet.layer()
    if individual.stage == "rosette":
        anchor = rosette(sheet, individual, lambda s, i, stance: _leaf(s, i, habit, stance))
        joint = (0.0, -60.0)
        _enlarged_base(second, individual, habit)
    else:
        unit = broadleaf.FLOWER_UNIT if individual.stage in HEADED else broadleaf.LEAFY_UNIT
        anchor, joint = _stemmed(sheet, individual, habit, unit)
        enlarged_stem(second, individual, habit.wing_share)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("edge", "entire", "downy" if habit.soft else "bristly", net=3))
    return Drawing(
        sheet,
        _characters(individual, habit),
        (
            Inset(lens, anchor, LEAF_AGAINST_LIGHT),
            Inset(second, joint, LEAF_FEET if individual.stage == "rosette" else STEM),
        ),
        ground=individual.stage not in HEADED,
        features=_features(individual, habit),
    )


def _features(individual: Individual, habit: Habit) -> tuple[str, ...]:
    hair = "softly hairy" if habit.soft else "bristly"
    if individual.stage == "rosette":
        base = "running down the stalk a little way" if habit.winged_stalk else "narrowing suddenly to a long stalk"
        return ("entire leaves", hair, f"blades {base}")
    heads = {"flower": f"coils of nodding {habit.colour} bells", "fruit": "coils with four dark nutlets in each calyx"}
    coils = (heads[individual.stage],) if individual.stage in heads else ()
    return ("entire leaves running down the bristly stem as wings", *coils)


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    rosette_stage = individual.stage == "rosette"
    base = "winged" if habit.winged_stalk or not rosette_stage else "tapering"
    states = {
        "growth_form": "herb",
        "leaf_emergence": "crown" if rosette_stage else "on_stem",
        "leaf_division": "undivided",
        "blade_shape": "lanceolate",
        "leaf_base": base,
        "leaf_margin": "wavy" if habit.waved > 0.02 else "entire",
        "venation": "netted_to_edge",
        "leaf_spots": "none",
        "leaf_hairs": "soft_downy" if habit.soft else "bristly_rough",
        "leaf_arrangement": "basal" if rosette_stage else "alternate",
    }
    if not rosette_stage:
        states |= {"stem_hairs": "bristly", "stem_section": "winged"}
    if individual.stage == "flower":
        states |= {"inflorescence": "coiled_cyme", "petals": "tube", "flower_colour": STATE_OF[habit.colour]}
    if individual.stage == "fruit":
        states["fruit_type"] = "nutlets"
        del states["leaf_emergence"]
    return states


def _blade_outline(individual: Individual, habit: Habit, stance: Stance) -> Outline:
    wide = stance.length / stance.ratio
    return profile(
        stance.length,
        wide,
        individual.between(0.62, 0.8),
        individual.between(1.25, 1.5),
        individual.lopsided,
        wave=habit.waved,
        foot=9,
    )


def _leaf(sheet: Sheet, individual: Individual, habit: Habit, stance: Stance) -> Point:
    """A leaf of the rosette on its long stalk."""
    blade = _blade_outline(individual, habit, stance)
    outline = winged(blade, stance.stalk * 0.4, 17, 11) if habit.winged_stalk else blade
    bare = stance.stalk * (0.6 if habit.winged_stalk else 1.0)
    a = radians(stance.heading * 0.8)
    end = (stance.foot[0] + sin(a) * bare, stance.foot[1] - cos(a) * bare)
    line = bow(stance.foot, end, -0.04 * bare * (1 if a > 0 else -1), 8)
    draw_stem(
        sheet, line, taper(17, 12), individual.green_stem, foot=mix(individual.green_stem, "#CBB49A", 0.35), ridges=1
    )
    edges = sides(line, taper(17, 12))
    stem_hairs(sheet, individual, edges, 12 if not habit.soft else 26, 9 if not habit.soft else 6, habit.soft, 1.0)
    pose = Pose(end, stance.heading, outline.length, stance.bend, stance.turn, stance.twist, stance.narrow, 1.2)
    return _lay(sheet, individual, habit, outline, pose, stance.veins)


def _lay(sheet: Sheet, individual: Individual, habit: Habit, outline: Outline, pose: Pose, count: int) -> Point:
    side_veins = pinnate(outline, count, 48, 0.9, width=1.3, start=0.05, curl=0.75)
    draw_blade(sheet, outline, pose, look_of(individual, midrib=4.2), [*cross_net(side_veins, 1), *side_veins])
    if habit.soft:
        fringe(sheet, individual, outline, pose, 60, 5.5, soft=True, width=0.8)
    else:
        face_hairs(sheet, individual, outline, pose, 34, 7.5, bulbs=True)
        fringe(sheet, individual, outline, pose, 24, 7.5, soft=False, width=0.9)
    return near_edge(outline, pose)


def _stemmed(sheet: Sheet, individual: Individual, habit: Habit, unit: float) -> tuple[Point, Point]:
    """A bristly stem whose leaves run down it as wings; in flower its upper part, cut, with the coils."""
    flowering = individual.stage in HEADED
    tall = (individual.between(22, 26) if flowering else individual.between(34, 42)) * individual.size * unit
    line = bow((0.0, 4.0), (individual.between(-0.1, 0.1) * tall, -tall), individual.between(-0.06, 0.06) * tall, 24)
    width = taper(26, 15)
    joints = stem_joints(
        individual, 3 if flowering else individual.count(5, 7), 0.2 if flowering else 0.16, 0.82 if flowering else 0.97
    )
    stem = mix(individual.green_stem, individual.green, 0.2)
    edges = sides(line, width)
    for k, (share, side, _) in enumerate(joints):
        below = joints[k - 1][0] if k else 0.0
        draw_wing(sheet, individual, line, edges, share, share - (share - below) * habit.wing_share, side)
    draw_stem(sheet, line, width, stem, ridges=1)
    stem_hairs(sheet, individual, edges, 34, 10.0, False, 1.1)
    anchor = joint = (0.0, 0.0)
    for k, (share, side, height) in enumerate(joints):
        place, _ = along(line, share)
        stance = on_stem(
            individual,
            (place[0] + side * width(share) * 0.4, place[1]),
            side,
            0.5 + 0.4 * height if flowering else height * 0.9,
            unit,
        )
        blade = _blade_outline(individual, habit, stance)
        outline = winged(blade, max(20.0, stance.stalk * 0.7), 24, 18)
        here = _lay(sheet, individual, habit, outline, stance.pose(outline.length), stance.veins)
        if k == 1:
            anchor, joint = here, along(line, share - 0.05)[0]
    if flowering:
        _coils(sheet, individual, habit, line, joints[-1][1])
    else:
        _top(sheet, individual, habit, line[-1], unit)
        crumbs(sheet, [0.0], individual.rng, 20)
    return anchor, joint


def _top(sheet: Sheet, individual: Individual, habit: Habit, place: Point, unit: float) -> None:
    """Young leaves that close the leafy stem."""
    for heading in (individual.between(-34, -14), individual.between(12, 32), individual.between(-8, 8)):
        stance = on_stem(individual, place, 1, 0.9, unit)
        outline = _blade_outline(individual, habit, stance)
        pose = Pose(
            place, heading, outline.length, individual.between(-12, 12), individual.between(-0.4, 0.4), 0.0, 0.72
        )
        _lay(sheet, individual, habit, outline, pose, 5)


def _coils(sheet: Sheet, individual: Individual, habit: Habit, line: Points, side: int) -> None:
    """Two or three coils of bells at the top of the stem."""
    place, colour = line[-1], individual.coloured(COLOURS[habit.colour])
    count = individual.count(2, 3)
    ways = [side, -side, side][:count]
    for k, way in enumerate(ways):
        start = place if k < 2 else along(line, 0.9)[0]
        draw_coil(sheet, individual, colour, start, way, individual.between(225, 265) * (1.0 if k < 2 else 0.8))


def _enlarged_base(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """Where the blade meets its stalk."""
    blade = profile(330.0, 190.0, 0.62, 1.3, individual.lopsided, foot=30)
    outline = winged(blade, 66.0, 58, 30) if habit.winged_stalk else blade
    stalk = bow((individual.between(-6, 6), 116.0), (0.0, 38.0 if not habit.winged_stalk else 62.0), 2.0, 6)
    draw_stem(inset, stalk, taper(34, 30), individual.green_stem, ridges=1, ink=2.4)
    stem_hairs(
        inset,
        individual,
        sides(stalk, taper(34, 30)),
        12 if not habit.soft else 22,
        20 if not habit.soft else 13,
        habit.soft,
        1.5,
    )
    pose = Pose(stalk[-1], individual.between(-4, 4), outline.length, 0.0)
    _lay_large(inset, individual, habit, outline, pose)


def _lay_large(inset: Sheet, individual: Individual, habit: Habit, outline: Outline, pose: Pose) -> None:
    side_veins = pinnate(outline, 5, 48, 0.9, width=2.0, start=0.08, curl=0.75)
    draw_blade(inset, outline, pose, look_of(individual, midrib=10.0), [*cross_net(side_veins, 1), *side_veins])
    if habit.soft:
        fringe(inset, individual, outline, pose, 90, 12.0, soft=True, width=1.1)
    else:
        face_hairs(inset, individual, outline, pose, 90, 18.0, bulbs=True)
        fringe(inset, individual, outline, pose, 40, 19.0, soft=False, width=1.5)
