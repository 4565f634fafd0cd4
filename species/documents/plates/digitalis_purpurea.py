"""Foxglove: finely round-toothed downy leaves whose blade runs down the stalk as a wing; a one-sided spike."""

from species.documents.plates import broadleaf
from species.documents.plates.broadleaf import Stance, fringe, on_stem, rosette, stem_hairs, stem_joints
from species.documents.plates.foxglove_bell import draw_capsule, draw_glove
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import Outline, profile, toothed, winged
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.regions import LEAF_AGAINST_LIGHT, LEAF_FEET, STEM
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import cross_net, pinnate

NAME = "foxglove (Digitalis purpurea)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "weak-toothed", "white-flowered")


class Habit:
    """What is settled once for the whole plant."""

    def __init__(self, individual: Individual) -> None:
        typical = individual.form == "typical"
        self.weak = individual.form == "weak-toothed" or (typical and individual.chance(0.15))
        self.teeth = individual.count(26, 36)
        self.white = individual.form == "white-flowered" or (typical and individual.chance(0.08))


FIRST = FirstLeaf(LeafDetail("edge", "crenate", "downy", 10.0, 23.0, net=9), 1.7, 0.7, 1.1, 0.35, 12, 0.035)
HEADED = ("flower", "fruit")


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=1.5, stalk=0.25), FIRST, ("downy first leaves, their edge round-toothed",)
        )
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
        unit = broadleaf.FLOWER_UNIT * 0.72 if individual.stage in HEADED else broadleaf.LEAFY_UNIT
        anchor, joint = _stemmed(sheet, individual, habit, unit)
        _enlarged_stem(second, individual, habit)
    lens = sheet.layer()
    tooth = 5.0 if habit.weak else 10.0
    leaf_against_light(lens, individual, LeafDetail("edge", "crenate", "downy", tooth, 23.0, net=9))
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
    edge = "leaves with hardly any teeth" if habit.weak else "finely round-toothed leaves"
    colour = "white" if habit.white else "purple"
    spikes = {"flower": f"a tall one-sided spike of {colour} bells", "fruit": "a tall spike of egg-shaped capsules"}
    spike = (spikes[individual.stage],) if individual.stage in spikes else ()
    return (edge, "soft down", "a dense net of veins", "the blade running down its stalk as a tapering wing", *spike)


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    rosette_stage = individual.stage == "rosette"
    states = {
        "growth_form": "herb",
        "leaf_emergence": "crown" if rosette_stage else "on_stem",
        "leaf_division": "undivided",
        "blade_shape": "ovate",
        "leaf_base": "winged",
        "leaf_margin": "crenate",
        "venation": "netted_to_edge",
        "leaf_spots": "none",
        "leaf_hairs": "soft_downy",
        "leaf_arrangement": "basal" if rosette_stage else "alternate",
        "petiole_sheath": "none",
    }
    if not rosette_stage:
        states |= {"stem_hairs": "downy", "stem_section": "round_smooth"}
    if individual.stage == "flower":
        states |= {
            "inflorescence": "one_sided_raceme",
            "petals": "bell",
            "flower_colour": "white" if habit.white else "pink_purple",
        }
    if individual.stage == "fruit":
        states["fruit_type"] = "capsule"
        del states["leaf_emergence"]
    return states


def _outlines(
    individual: Individual, habit: Habit, length: float, wide: float, stalk: float, near: float, far: float
) -> tuple[Outline, Outline]:
    """The blade with its winged stalk, once smooth (for veins) and once toothed."""
    blade = profile(length, wide, individual.between(0.75, 0.95), individual.between(1.15, 1.4), individual.lopsided)
    whole = winged(blade, stalk, near, far)
    start = stalk * 0.8 / whole.length
    return whole, toothed(whole, habit.teeth, (0.014 if habit.weak else 0.034) * wide + 0.8, "crenate", start)


def _leaf(sheet: Sheet, individual: Individual, habit: Habit, stance: Stance) -> Point:
    """A leaf of the rosette, winged to the ground."""
    whole, outline = _outlines(individual, habit, stance.length, stance.length / stance.ratio, stance.stalk, 40, 15)
    return _lay(sheet, individual, habit, whole, outline, stance.pose(whole.length), stance.stalk, stance.veins)


def _lay(
    sheet: Sheet,
    individual: Individual,
    habit: Habit,
    whole: Outline,
    outline: Outline,
    pose: Pose,
    stalk: float,
    count: int,
) -> Point:
    start = stalk * 0.75 / whole.length
    side_veins = pinnate(whole, count, 44, 0.95, width=1.2, start=start, curl=0.55)
    net = cross_net(side_veins, 5, 0.75)
    draw_blade(sheet, outline, pose, look_of(individual, midrib=5.0, pale_veins=True), [*net, *side_veins])
    fringe(sheet, individual, outline, pose, 48, 5.5, soft=True, width=0.75)
    return near_edge(whole, pose, 0.62)


def _stemmed(sheet: Sheet, individual: Individual, habit: Habit, unit: float) -> tuple[Point, Point]:
    """A round downy stem with alternate leaves; in flower its upper part, cut, with the spike."""
    flowering = individual.stage in HEADED
    tall = (individual.between(44, 52) if flowering else individual.between(34, 42)) * individual.size * unit
    line = bow((0.0, 4.0), (individual.between(-0.07, 0.07) * tall, -tall), individual.between(-0.05, 0.05) * tall, 24)
    width = taper(26, 10 if flowering else 15)
    stem = mix(individual.green_stem, individual.green, 0.2)
    draw_stem(sheet, line, width, stem)
    stem_hairs(sheet, individual, sides(line, width), 80, 6.5, True, 0.9)
    joints = stem_joints(
        individual, 3 if flowering else individual.count(5, 7), 0.08 if flowering else 0.16, 0.36 if flowering else 0.97
    )
    anchor = joint = (0.0, 0.0)
    for k, (share, side, height) in enumerate(joints):
        place, _ = along(line, share)
        stance = on_stem(individual, place, side, 0.25 + 0.5 * height if flowering else height * 0.9, unit)
        stalk = max(30.0, stance.stalk)
        whole, outline = _outlines(individual, habit, stance.length, stance.length / stance.ratio, stalk, 34, 15)
        here = _lay(sheet, individual, habit, whole, outline, stance.pose(whole.length), stalk, stance.veins)
        if k == 1:
            anchor, joint = here, along(line, share + 0.05)[0]
    if flowering:
        _spike(sheet, individual, habit, line)
    else:
        _top(sheet, individual, habit, line[-1], unit)
        crumbs(sheet, [0.0], individual.rng, 20)
    return anchor, joint


def _top(sheet: Sheet, individual: Individual, habit: Habit, place: Point, unit: float) -> None:
    """Young leaves that close the leafy stem."""
    for heading in (individual.between(-34, -14), individual.between(12, 32), individual.between(-8, 8)):
        stance = on_stem(individual, place, 1, 0.9, unit)
        whole, outline = _outlines(individual, habit, stance.length, stance.length / stance.ratio, 12, 22, 12)
        pose = Pose(place, heading, whole.length, individual.between(-12, 12), individual.between(-0.4, 0.4), 0.0, 0.72)
        _lay(sheet, individual, habit, whole, outline, pose, 12, 5)


def _spike(sheet: Sheet, individual: Individual, habit: Habit, line: Points) -> None:
    """Hanging bells to one side, open below, green buds at the tip."""
    way = 1 if individual.chance(0.5) else -1
    colour = individual.coloured("#F4EFE2" if habit.white else "#B4579C")
    count = individual.count(14, 18)
    for k in range(count - 1, -1, -1):
        share = 0.44 + 0.55 * k / (count - 1)
        (x, y), _ = along(line, share)
        ripe = max(0.0, 1 - 1.25 * k / (count - 1))
        front = k % 3 == 1
        side = way * (individual.between(0.8, 1.15) if k % 3 != 2 else individual.between(0.0, 0.45))
        long = (34 + 96 * ripe**0.7) * (0.92 if front else 1.0)
        end = (x + side * (9 + 14 * ripe), y + 2 * ripe)
        angle = 90 - side * individual.between(32, 50) * (0.7 + 0.3 * ripe)
        if individual.stage == "fruit":
            draw_capsule(sheet, individual, (x, y), end, 34 + 26 * ripe, angle - 40 * side)
            continue
        draw_glove(sheet, individual, (x, y), end, long, angle, colour, ripe)


def _enlarged_base(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """The lower part of a blade and the wing it sends down the stalk."""
    whole, outline = _outlines(individual, habit, 330.0, 190.0, 150.0, 92, 46)
    pose = Pose((individual.between(-5, 5), 118.0), individual.between(-3, 3), whole.length, 0.0)
    side_veins = pinnate(whole, 9, 44, 0.95, width=1.7, start=0.2, curl=0.5)
    draw_blade(
        inset,
        outline,
        pose,
        look_of(individual, midrib=12.0, pale_veins=True),
        [*cross_net(side_veins, 4, 0.9), *side_veins],
    )
    fringe(inset, individual, outline, pose, 130, 11.0, soft=True, width=1.1)


def _enlarged_stem(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """A piece of the round stem in its soft down."""
    line = bow((0.0, 116.0), (individual.between(-8, 8), -116.0), 4.0, 16)
    draw_stem(inset, line, taper(46, 44), mix(individual.green_stem, individual.green, 0.2), ink=2.4)
    stem_hairs(inset, individual, sides(line, taper(46, 44)), 76, 15.0, True, 1.2)
    middle = [[(x + off, y) for x, y in line] for off in (-12.0, 2.0, 14.0)]
    for part in middle:
        stem_hairs(inset, individual, (part, part), 34, 9.0, True, 0.9)
