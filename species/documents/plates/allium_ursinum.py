"""Ramsons: every leaf rises from the soil on its own twisted stalk; white stars in a simple umbel."""

from math import cos, degrees, hypot, radians, sin

from species.documents.plates.flower import star
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.posture import crumbs, earth_inset, fan, lay_parallel, spring_leaf
from species.documents.plates.regions import HEAD, LEAF_AGAINST_LIGHT, LEAF_FEET
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.small_fruits import three_lobed
from species.documents.plates.stem import draw_stem, sides, taper
from species.documents.plates.storage import draw_bulb
from species.documents.plates.svg import Local, Point, Points, Sheet, bow, smooth

NAME = "ramsons (Allium ursinum)"
STAGES = ("rosette", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young")
UNIT = 32.0
FEATURES = ("each blade alone on its own twisted stalk from the soil", "parallel veins", "entire edge")


FIRST = FirstLeaf(LeafDetail("parallel"), 3.0, 1.1, 1.1, 0.45)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(individual, SeedLeaves(count=0), FIRST, ("one small blade on its own stalk",))
    if individual.stage == "dormant":
        sheet = Sheet()
        at = draw_bulb(sheet, individual, individual.coloured("#EFE6CE"))
        return rooted(sheet, individual, Rest("bulb", ("a narrow white bulb",), core=True, skin="#F1EAD6"), at, at)
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    flowering = individual.stage in ("flower", "fruit")
    feet: list[float] = []
    anchor = joint = (0.0, 0.0)
    shoots = [0.0]
    if individual.chance(0.5):
        shoots.insert(0, individual.between(100, 170) * (1 if individual.chance(0.5) else -1))
    for k, x in enumerate(shoots):
        main = k == len(shoots) - 1
        if main and flowering:
            joint = _flower_stem(sheet, individual, x)
        anchor = _shoot(sheet, individual, x, individual.count(2, 3) if main else individual.count(1, 2), feet)
    if flowering:
        _umbel(sheet, individual, joint)
    crumbs(sheet, feet, individual.rng)
    second = sheet.layer()
    if flowering:
        _enlarged_flower(second, individual)
    else:
        earth_inset(second, lambda inset: _enlarged_feet(inset, individual), individual.rng)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("parallel"))
    feature = (
        Inset(second, (joint[0] + 50, joint[1] - 50), HEAD)
        if flowering
        else Inset(second, (feet[-1], -24.0), LEAF_FEET)
    )
    insets = (Inset(lens, anchor, LEAF_AGAINST_LIGHT), feature)
    return Drawing(sheet, _characters(individual), insets, features=_features(individual.stage))


HEADS = {
    "flower": ("white stars in an umbel on a bare stalk",),
    "fruit": ("three-lobed green capsules in an umbel on a bare stalk",),
}


def _features(stage: str) -> tuple[str, ...]:
    return (*FEATURES, *HEADS.get(stage, ()))


def _characters(individual: Individual) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "single_stalked",
        "leaf_division": "undivided",
        "blade_shape": "elliptic",
        "leaf_base": "tapering",
        "leaf_margin": "entire",
        "venation": "parallel",
        "leaf_spots": "none",
        "leaf_hairs": "hairless",
        "leaf_arrangement": "basal",
        "leaf_stalk": "stalked",
    }
    if individual.stage == "flower":
        states |= {
            "inflorescence": "simple_umbel",
            "flower_colour": "white",
            "petals": "6",
            "stem_hairs": "hairless",
            "flowers_leafless": "no",
        }
    if individual.stage == "fruit":
        states |= {"fruit_type": "capsule", "fruit_colour": "green_brown", "stem_hairs": "hairless"}
    return states


def _shoot(sheet: Sheet, individual: Individual, x: float, leaves: int, feet: list[float]) -> Point:
    """Two or three leaves, each from its own place in the soil."""
    anchor = (x, -100.0)
    gap = individual.between(24, 40)
    for heading in fan(individual, leaves, individual.between(13, 21)):
        foot = (x + heading / 15 * gap, individual.between(1, 7))
        feet.append(foot[0])
        anchor = _leaf(sheet, individual, foot, heading)
    return anchor


def _leaf(sheet: Sheet, individual: Individual, foot: Point, heading: float) -> Point:
    posture = spring_leaf(individual, heading, UNIT)
    stalk = individual.between(6, 11) * (1 + 0.6 * individual.shade) * individual.size * UNIT
    if individual.form == "young":
        stalk *= 0.7
    lean = radians(heading * 0.55)
    end = (foot[0] + sin(lean) * stalk, foot[1] - cos(lean) * stalk)
    line = bow(foot, end, -0.05 * heading / 15 * stalk, 14)
    twisted_stalk(sheet, line, individual.between(11, 15), individual.green_stem, individual.between(0.38, 0.62))
    return lay_parallel(sheet, individual, posture, end, heading)


def twisted_stalk(sheet: Sheet, line: Points, width: float, colour: str, cross: float) -> None:
    """A flat stalk with one half-turn: its two edges cross at `cross`, and the paler face shows below."""
    one, two = sides(line, lambda t: width * max(-1.0, min(1.0, (t - cross) * 6)))
    turn = min(range(len(line)), key=lambda i: abs(i / (len(line) - 1) - cross))
    pale = mix(colour, "#EEF2DA", 0.5)
    for part, fill in ((slice(0, turn + 1), pale), (slice(turn, None), colour)):
        around = [*one[part], *reversed(two[part])]
        sheet.reach(around)
        sheet.path(smooth(around) + "Z", fill=fill)
    sheet.path(smooth(one), stroke=INK, width=1.6)
    sheet.path(smooth(two), stroke=INK, width=2.1)


def _enlarged_feet(inset: Sheet, individual: Individual) -> None:
    """Two stalks that enter the soil apart from each other."""
    for x, top in ((-32.0, -52.0), (30.0, 58.0)):
        shift = individual.between(-5, 5)
        line = bow((x + shift, 68.0), (top + shift, -112.0), individual.between(-7, 7), 16)
        twisted_stalk(inset, line, 27.0, individual.green_stem, individual.between(0.42, 0.6))


def _flower_stem(sheet: Sheet, individual: Individual, x: float) -> Point:
    tall = individual.between(25, 29) * individual.size * UNIT
    lean = individual.between(-0.1, 0.1)
    joint = (x + tall * lean, -tall)
    draw_stem(
        sheet,
        bow((x, 4.0), joint, tall * individual.between(-0.05, 0.05)),
        taper(13, 9),
        individual.green_stem,
        foot="#DDE3B4",
        ridges=1,
    )
    return joint


def _umbel(sheet: Sheet, individual: Individual, joint: Point) -> None:
    """Stars on stalks of about equal length, all from one joint, with the torn sheath below it."""
    for turn in (individual.between(105, 140), individual.between(20, 60)):
        here = Local(joint, turn, 44.0)
        sheet.shape(here.all([(0, 0), (0.48, -0.26), (1, 0), (0.45, 0.24)]), "#EADFBE", INK, 1.1)
    reach = individual.between(84, 104)
    ends = []
    for k in range(individual.count(8, 14)):
        angle = radians(-90 + (137.5 * k) % 360 * 0.62 - 112 + individual.between(-6, 6))
        out = (0.45 + 0.55 * ((k * 0.618) % 1)) * reach * individual.between(0.92, 1.1)
        end = (joint[0] + cos(angle) * out, joint[1] + sin(angle) * out * 0.95 - 12)
        ends.append((hypot(end[0] - joint[0], end[1] - joint[1]), end, angle))
        stalk = bow(joint, end, individual.between(-6, 6), 5)
        sheet.line(stalk, INK, 5.2)
        sheet.line(stalk, "#A9C583", 3.2)
    for far, end, angle in sorted(ends, reverse=True):
        squash = 1 - 0.5 * min(1.0, far / reach)
        if individual.stage == "fruit":
            three_lobed(sheet, individual, end, individual.between(13, 16), squash)
            continue
        star(sheet, individual, end, individual.between(35, 41), 6, "#FDFCF6", squash, degrees(angle), "#7FA860")


def _enlarged_flower(inset: Sheet, individual: Individual) -> None:
    inset.line([(8.0, 104.0), (4.0, 50.0), (0.0, 6.0)], INK, 12)
    inset.line([(8.0, 104.0), (4.0, 50.0), (0.0, 6.0)], "#A9C583", 8.5)
    if individual.stage == "fruit":
        three_lobed(inset, individual, (0.0, -12.0), 50, 1.0, 2.4)
        return
    star(
        inset,
        individual,
        (0.0, -4.0),
        84,
        6,
        "#FDFCF6",
        individual.between(0.7, 0.95),
        individual.between(60, 120),
        "#7FA860",
        ink=2.2,
    )
