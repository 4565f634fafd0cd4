"""Scarlet pimpernel: a square hairless stem, stalkless leaves with black dots below, single flowers on long stalks."""

from math import cos, pi, radians, sin

from species.documents.plates.flower import petal
from species.documents.plates.frame import Drawing
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.lens import LeafDetail
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.sprawling import Sprawl, sprawling_plate
from species.documents.plates.sprawling_lens import stem_lens, underside_lens
from species.documents.plates.svg import Point, Sheet, bow

NAME = "scarlet pimpernel (Lysimachia arvensis)"
STAGES = ("leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "blue", "pink", "in-threes")
COLOURS = {"scarlet": "#D9492B", "blue": "#3F63B5", "pink": "#E29AA6"}
STATE_OF = {"scarlet": "red_orange", "blue": "blue_violet", "pink": "pink_purple"}
FIRST = FirstLeaf(LeafDetail("edge"), 1.5, 0.62, 1.15, 0.04, opposite=True)


def draw(individual: Individual) -> Drawing:
    """One scarlet pimpernel."""
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=1.9, a=0.8, b=1.1, stalk=0.2), FIRST, ("egg-shaped seed leaves",)
        )
    roll = individual.between(0, 1)
    colour = individual.form if individual.form in COLOURS else _by_luck(individual, roll)
    whorled = individual.form == "in-threes" or (individual.form == "typical" and individual.chance(0.1))
    axils = {
        "flower": lambda sheet, one, joint, side, heading, _: _flower(sheet, one, joint, side, heading, colour),
        "fruit": _capsule,
    }
    sprawl = Sprawl(
        (0.0, 0.0),
        axils.get(individual.stage),
        False,
        lambda inset: stem_lens(inset, individual, True, False),
        lambda inset: underside_lens(inset, individual, True, False),
        whorled,
    )
    more = {"flower": (f"single {colour} flowers on long stalks",), "fruit": ("round capsules on stalks curled back",)}
    features = ("a square hairless stem", "black dots below the leaves", *more.get(individual.stage, ()))
    return sprawling_plate(individual, sprawl, _characters(individual, colour, whorled), features)


def _by_luck(individual: Individual, roll: float) -> str:
    if individual.form != "typical" or roll > 0.12:
        return "scarlet"
    return "blue" if roll < 0.08 else "pink"


def _characters(individual: Individual, colour: str, whorled: bool) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_division": "undivided",
        "blade_shape": "ovate",
        "leaf_base": "rounded",
        "leaf_margin": "entire",
        "leaf_hairs": "hairless",
        "leaf_dots": "black_dots",
        "leaf_arrangement": "whorled" if whorled else "opposite",
        "leaf_stalk": "stalkless",
        "stem_hairs": "hairless",
        "stem_section": "square",
    }
    if individual.stage == "flower":
        states |= {"inflorescence": "axillary_single", "flower_colour": STATE_OF[colour], "petals": "5"}
    if individual.stage == "fruit":
        states["fruit_type"] = "capsule"
    return states


def _stalk(sheet: Sheet, individual: Individual, joint: Point, end: Point, sag: float) -> None:
    line = bow(joint, end, sag, 8)
    sheet.line(line, INK, 4.0)
    sheet.line(line, individual.green_stem, 2.3)


def _flower(sheet: Sheet, individual: Individual, joint: Point, side: int, heading: float, colour: str) -> Point:
    """Five rounded lobes with a purple eye, on a stalk longer than the leaf."""
    a = radians(heading + side * individual.between(10, 36))
    long = individual.between(120, 165)
    x, y = joint[0] + sin(a) * long, joint[1] - cos(a) * long
    _stalk(sheet, individual, joint, (x, y), side * 10)
    start, squash, axis = individual.between(0, 72), individual.between(0.65, 1.0), individual.between(60, 120)
    shade = individual.coloured(COLOURS[colour])
    for k in range(5):
        sheet.shape(petal((x, y), start + 36 + 72 * k, 46, 10, squash, axis), individual.green, INK, 0.9)
    for k in range(5):
        sheet.shape(petal((x, y), start + 72 * k, 50, 50, squash, axis, 0.68), shade, INK, 1.1)
    sheet.disc(x, y, 12, "#6E2A5E", INK, 0.8)
    for k in range(5):
        b = radians(start + 72 * k)
        sheet.disc(x + cos(b) * 13, y + sin(b) * 13 * squash, 3.4, "#F0D24A")
    return x, y


def _capsule(sheet: Sheet, individual: Individual, joint: Point, side: int, heading: float, height: float) -> Point:
    """A round capsule with the line of its lid, on a long stalk that curls back."""
    out, low = individual.between(84, 112), individual.between(20, 60)
    x, y = joint[0] + side * out, joint[1] + low
    _stalk(sheet, individual, joint, (x, y - 17), -side * individual.between(46, 62))
    for k in range(4):
        a = pi * (1.12 + 0.25 * k)
        sheet.line([(x, y), (x + cos(a) * 38, y + sin(a) * 33)], mix(individual.green, INK, 0.3), 3.0)
    sheet.disc(x, y, 24, individual.coloured("#BFA972"), INK, 1.4)
    sheet.path(f"M{x - 24:.1f} {y:.1f}q24 12 48 0", stroke=INK, width=1.3)
    sheet.oval(x - 6, y - 7, 4, 2.6, -30, "#F2E8C6", opacity=0.8)
    sheet.line([(x, y + 24), (x + 1, y + 38)], INK, 1.4)
    return x, y
