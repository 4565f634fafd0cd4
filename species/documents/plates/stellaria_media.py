"""Chickweed: one line of hairs on a round stem, opposite leaves, white petals split almost to the base."""

from math import cos, radians, sin

from species.documents.plates.flower import petal
from species.documents.plates.frame import Drawing
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.lens import LeafDetail
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.sprawling import Sprawl, sprawling_plate
from species.documents.plates.sprawling_lens import stem_lens, underside_lens
from species.documents.plates.svg import Point, Sheet, bow

NAME = "common chickweed (Stellaria media)"
STAGES = ("leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "petalless", "hairless-leaf")
FIRST = FirstLeaf(LeafDetail("edge"), 1.5, 0.7, 1.2, 0.5, opposite=True)


def draw(individual: Individual) -> Drawing:
    """One chickweed."""
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=2.6, a=0.8, b=1.2, stalk=0.4), FIRST, ("pointed seed leaves",)
        )
    bare = individual.form == "petalless" or (individual.form == "typical" and individual.chance(0.2))
    ciliate = not (individual.form == "hairless-leaf" or individual.chance(0.25))
    axils = {
        "flower": lambda sheet, one, joint, side, heading, _: _flower(sheet, one, joint, side, heading, bare),
        "fruit": _capsule,
    }
    sprawl = Sprawl(
        (0.55, 0.0),
        axils.get(individual.stage),
        True,
        lambda inset: stem_lens(inset, individual, False, True),
        lambda inset: underside_lens(inset, individual, False, ciliate),
    )
    more = {
        "flower": ("white flowers of five split petals" if not bare else "flowers without petals",),
        "fruit": ("drooping capsules",),
    }
    features = ("one line of hairs that changes side at each joint", "a round stem", *more.get(individual.stage, ()))
    return sprawling_plate(individual, sprawl, _characters(individual, bare, ciliate), features)


def _characters(individual: Individual, bare: bool, ciliate: bool) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_division": "undivided",
        "blade_shape": "ovate",
        "leaf_base": "rounded",
        "leaf_margin": "entire",
        "leaf_hairs": "sparse" if ciliate else "hairless",
        "leaf_dots": "none",
        "leaf_arrangement": "opposite",
        "leaf_stalk": "stalked",
        "stem_hairs": "one_line",
        "stem_section": "round_smooth",
    }
    if individual.stage == "flower":
        states |= {"inflorescence": "loose_cyme", "flower_colour": "white", "petals": "none" if bare else "5_split"}
    if individual.stage == "fruit":
        states["fruit_type"] = "capsule"
    return states


def _stalk(sheet: Sheet, individual: Individual, joint: Point, end: Point, sag: float) -> None:
    line = bow(joint, end, sag, 6)
    sheet.line(line, INK, 4.4)
    sheet.line(line, individual.green_stem, 2.6)


def _flower(sheet: Sheet, individual: Individual, joint: Point, side: int, heading: float, bare: bool) -> Point:
    """Five green sepals and, shorter than they are, five white petals that look like ten."""
    a = radians(heading + side * individual.between(8, 34))
    long = individual.between(90, 130)
    x, y = joint[0] + sin(a) * long, joint[1] - cos(a) * long
    _stalk(sheet, individual, joint, (x, y), side * 8)
    start, squash, axis = individual.between(0, 72), individual.between(0.65, 1.0), individual.between(60, 120)
    green = mix(individual.green, "#C9D59A", 0.25)
    for k in range(5):
        sheet.shape(petal((x, y), start + 72 * k, 50, 26, squash, axis), green, INK, 1.2)
    if not bare:
        for k in range(5):
            for half in (-13, 13):
                turn = start + 36 + 72 * k + half
                sheet.shape(petal((x, y), turn, 43, 13, squash, axis, 0.66), "#FDFDF8", INK, 0.9)
    sheet.disc(x, y, 9, "#B9C97E", INK, 1.0)
    for k in range(4):
        b = radians(start + 90 * k)
        sheet.disc(x + cos(b) * 16, y + sin(b) * 16 * squash, 3.4, "#8A4A5E")
    return x, y


def _capsule(sheet: Sheet, individual: Individual, joint: Point, side: int, heading: float, height: float) -> Point:
    """An egg-shaped capsule in its sepals, hanging from a stalk that bends down."""
    x = joint[0] + side * individual.between(46, 66)
    y = joint[1] + individual.between(34, 58)
    _stalk(sheet, individual, joint, (x, y - 22), -side * 26)
    sheet.oval(x, y + 4, 17, 27, 0, "#D9CE9C", INK, 1.3)
    green = mix(individual.green, "#C9D59A", 0.2)
    for off in (-0.8, 0.8, 0.0):
        tip = (x + off * 24, y + 21)
        sheet.shape([(x + off * 5, y - 30), (x + off * 18 - 6, y - 4), tip, (x + off * 18 + 6, y - 4)], green, INK, 1.1)
    return x, y
