"""Lily-of-the-valley: two blades from one shoot, the lower stalk a tube round the upper; a row of white bells."""

from math import cos, radians, sin

from species.documents.plates.flower import bell, berry
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.lily_foot import SCALE_COLOUR, draw_scales, enlarged_foot
from species.documents.plates.posture import crumbs, earth_inset, lay_parallel, spring_leaf
from species.documents.plates.regions import HEAD, LEAF_AGAINST_LIGHT, LEAF_FEET
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.storage import draw_rhizome
from species.documents.plates.svg import Point, Points, Sheet, along, bow, smooth

NAME = "lily-of-the-valley (Convallaria majalis)"
STAGES = ("rosette", "flower", "fruit", "dormant")
FORMS = ("typical", "shade", "young", "one-bladed", "three-bladed", "pink-flowered")
UNIT = 32.0
RED = "#C8321F"


def draw(individual: Individual) -> Drawing:
    if individual.stage == "dormant":
        sheet = Sheet()
        bud = mix(individual.coloured(SCALE_COLOUR), "#E7D6C0", 0.45)
        at = draw_rhizome(sheet, individual, individual.coloured("#E9DFC8"), 24.0, bud)
        return rooted(sheet, individual, Rest("creeping_rhizome", ("a thin creeping rhizome with buds",)), at, at)
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    flowering = individual.stage in ("flower", "fruit")
    blades = _blade_count(individual)
    feet: list[float] = []
    anchor = (0.0, 0.0)
    shoots = [0.0]
    if individual.chance(0.5):
        shoots.insert(0, individual.between(130, 190) * (1 if individual.chance(0.5) else -1))
    raceme: list[Point] = []
    for k, x in enumerate(shoots):
        main = k == len(shoots) - 1
        if main and flowering:
            raceme = _scape(sheet, individual, x)
        anchor = _shoot(sheet, individual, x, blades if main or blades == 1 else 2)
        feet.append(x)
    colour = "#E7B9C4" if individual.form == "pink-flowered" or individual.chance(0.03) else "#FDFCF6"
    if flowering:
        _bells(sheet, individual, raceme, colour)
    crumbs(sheet, feet, individual.rng)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("parallel"))
    second = sheet.layer()
    if flowering:
        _enlarged_bell(second, individual, colour)
        place = along(raceme, 0.6)[0]
    else:
        earth_inset(second, lambda inset: enlarged_foot(inset, individual, blades), individual.rng)
        place = (feet[-1], -60.0)
    insets = (Inset(lens, anchor, LEAF_AGAINST_LIGHT), Inset(second, place, HEAD if flowering else LEAF_FEET))
    return Drawing(sheet, _characters(individual, blades, colour), insets, features=_features(blades, individual.stage))


def _blade_count(individual: Individual) -> int:
    if individual.form == "one-bladed" and individual.stage == "rosette":
        return 1
    if individual.form == "three-bladed":
        return 3
    roll = individual.between(0, 1)
    if individual.form == "typical" and individual.stage == "rosette" and roll < 0.08:
        return 1
    return 3 if roll > 0.92 else 2


HEADS = {"flower": ("white bells in a row to one side",), "fruit": ("red berries hanging in a row",)}


def _features(blades: int, stage: str) -> tuple[str, ...]:
    first = (
        "one blade, brown scales at its foot"
        if blades == 1
        else "blades on one shoot, one stalk a tube round the next, brown scales at the foot"
    )
    return (first, "parallel veins", "entire edge", *HEADS.get(stage, ()))


def _characters(individual: Individual, blades: int, colour: str) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "single_stalked" if blades == 1 else "pair_sheathing",
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
            "inflorescence": "one_sided_raceme",
            "petals": "bell",
            "stem_hairs": "hairless",
            "flowers_leafless": "no",
            "flower_colour": "white" if colour == "#FDFCF6" else "pink_purple",
        }
    if individual.stage == "fruit":
        states |= {"fruit_type": "berry", "fruit_colour": "red", "stem_hairs": "hairless"}
    return states


def _shoot(sheet: Sheet, individual: Individual, x: float, blades: int) -> Point:
    """Blades whose stalks leave the soil as one: the outer tube opens where its blade begins."""
    side = 1 if individual.chance(0.5) else -1
    tube = (
        individual.between(6, 10)
        * (1 + 0.6 * individual.shade)
        * individual.size
        * UNIT
        * (0.7 if individual.form == "young" else 1.0)
    )
    lean = individual.between(-0.09, 0.09)
    top = (x + lean * tube, -tube)
    anchor = (x, -100.0)
    line = bow((x, 5.0), top, individual.between(-0.03, 0.03) * tube, 10)
    for k in range(blades - 1, -1, -1):
        heading = side * (individual.between(11, 22) * (1 if k % 2 == 0 else -1))
        posture = spring_leaf(individual, heading, UNIT)
        if k == 0:
            # The outer leaf: its stalk is the tube itself, and its blade begins where the tube opens.
            _tube(sheet, individual, line, side)
            anchor = lay_parallel(sheet, individual, posture, (top[0] + side * 8, top[1]), heading, foot=16)
            _lip(sheet, individual, top, side)
        else:
            out = individual.between(2.0, 4.0) * UNIT * k
            end = (top[0] + sin(radians(heading)) * out - side * 3, top[1] - cos(radians(heading)) * out)
            draw_stem(sheet, bow((top[0] - side * 2, top[1] + 30), end, 0.0, 6), taper(13, 12), individual.green_stem)
            anchor = lay_parallel(sheet, individual, posture, end, heading)
    draw_scales(sheet, individual, x, side)
    return anchor


def _tube(sheet: Sheet, individual: Individual, line: Points, side: int) -> None:
    colour = individual.green_stem
    draw_stem(sheet, line, taper(21, 24), colour, foot=mix(colour, "#EFE9CF", 0.55))
    # The overlapping edge of the wrapped stalk, from the mouth down.
    edge = [(p[0] - side * 5 * (1 - i / 9), p[1]) for i, p in enumerate(line)]
    sheet.path(smooth(edge[3:]), stroke=INK, width=1.1, opacity=0.75)


def _lip(sheet: Sheet, individual: Individual, top: Point, side: int) -> None:
    """The slanting mouth of the tube in front of the stalk that comes out of it."""
    x, y = top
    mouth = [
        (x - side * 11.4, y + 44),
        (x - side * 11.6, y + 20),
        (x - side * 9, y + 8),
        (x - side * 1, y - 4),
        (x + side * 11, y - 22),
    ]
    sheet.path(smooth([*mouth, (x + side * 13, y + 10), (x + side * 6, y + 44)]) + "Z", fill=individual.green_stem)
    sheet.path(smooth(mouth), stroke=INK, width=2.3)


def _scape(sheet: Sheet, individual: Individual, x: float) -> list[Point]:
    """The flower stalk beside the leaves, arching over to one side; gives its upper part."""
    side = 1 if individual.chance(0.5) else -1
    tall = individual.between(21, 26) * individual.size * UNIT
    foot, tip = (x - side * 16, 4.0), (x + side * tall * individual.between(0.16, 0.26), -tall)
    line = bow(foot, tip, side * tall * individual.between(-0.13, -0.08), 18)
    draw_stem(sheet, line, taper(9, 5), individual.green_stem, foot="#DDE3B4")
    return line[9:]


def _bells(sheet: Sheet, individual: Individual, line: list[Point], colour: str) -> None:
    """Six to ten bells, all hanging to the outer side of the arch, smaller and shut towards the tip."""
    side = 1 if line[-1][0] > line[0][0] else -1
    count = individual.count(6, 10)
    sheet.line(line, INK, 7.4)
    sheet.line(line, individual.green_stem, 4.6)
    for k in range(count):
        share = 0.1 + 0.88 * k / (count - 1)
        (x, y), _ = along(line, share)
        small = 1 - 0.45 * share
        end = (x + side * 30 * small, y + 16 * small)
        sheet.line([(x, y), (x + side * 21 * small, y - 3), end], INK, 3.0)
        sheet.line([(x, y), (x + side * 21 * small, y - 3), end], individual.green_stem, 1.6)
        if individual.stage == "fruit":
            if individual.chance(0.4):
                continue  # few flowers set a berry
            x, y = end[0] + individual.between(-16, 12), end[1] + individual.between(-4, 8)
            berry(sheet, x + side * 3, y + 16, individual.between(17, 21), individual.coloured(RED), 0.7)
            continue
        bell(
            sheet,
            end,
            36 * small,
            38 * small,
            90 - side * individual.between(4, 22),
            colour,
            ink=1.6,
            closed=share > 0.85,
        )


def _enlarged_bell(inset: Sheet, individual: Individual, colour: str) -> None:
    side = 1 if individual.chance(0.5) else -1
    arch = [(-side * 104.0, -20.0), (-side * 60.0, -62.0), (-side * 8.0, -70.0), (side * 6.0, -52.0)]
    inset.line(arch, INK, 12)
    inset.line(arch, individual.green_stem, 8.5)
    if individual.stage == "fruit":
        berry(inset, side * 8.0, 4.0, 50, individual.coloured(RED), 0.7, ink=2.4)
        return
    bell(inset, (side * 6.0, -56.0), 104, 106, 90 - side * 10, colour, ink=2.4)
