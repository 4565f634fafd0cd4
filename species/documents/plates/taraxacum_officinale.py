"""Dandelion: bald leaves with teeth that point back, each head alone on a bare hollow stalk."""

import numpy as np

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.lobed_rosette import LobeLook, draw_rosette, draw_stalks, stalk_ends
from species.documents.plates.regions import HEAD_STALK, LEAF_AGAINST_LIGHT
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Point, Sheet, along, bow
from species.documents.plates.yellow_head import draw_clock, draw_head, milk, section_of_stalk

NAME = "dandelion (Taraxacum officinale agg.)"
STAGES = ("rosette", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "unlobed", "few-hairs")
YELLOW = "#F2C21A"
FIRST = FirstLeaf(LeafDetail("edge", "serrate", "none", 9.0, 44.0), 2.4, 1.1, 0.8, 0.3, 5, 0.06)


def draw(individual: Individual) -> Drawing:
    """One dandelion."""
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=1.8, a=1.1, b=0.8, stalk=0.35), FIRST, ("first leaves with a few teeth",)
        )
    plain = individual.form == "unlobed" or (individual.form == "typical" and individual.chance(0.05))
    few = individual.form == "few-hairs" or (individual.form == "typical" and individual.chance(0.15))
    look = LobeLook(0 if plain else individual.count(4, 6), 0.72, 0.3, False, False, "#B98A82")
    sheet, heads = Sheet(), individual.stage != "rosette"
    leaf = draw_rosette(sheet, individual, look, 0.72 if heads else 1.0)
    lens, second = sheet.layer(), sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("edge", "entire", "sparse" if few else "none"))
    stalk = (0.0, -30.0)
    if heads:
        stalk, _ = draw_stalks(sheet, individual, _stalk)
        _enlarged_stalk(second, individual)
    else:
        _enlarged_rib(second, individual)
    insets = (Inset(lens, leaf, LEAF_AGAINST_LIGHT), Inset(second, stalk, HEAD_STALK))
    return Drawing(sheet, _characters(individual, plain, few), insets, features=_features(individual, plain))


def _features(individual: Individual, plain: bool) -> tuple[str, ...]:
    leaf = "leaves almost without lobes" if plain else "leaves with lobes that point back"
    heads = {
        "flower": ("one yellow head on each bare hollow stalk",),
        "fruit": ("a ball of parachutes on each bare hollow stalk",),
    }
    return (leaf, "no bristles", *heads.get(individual.stage, ()))


def _characters(individual: Individual, plain: bool, few: bool) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "crown",
        "leaf_division": "undivided" if plain else "lobed",
        "leaf_hairs": "sparse" if few else "hairless",
        "leaf_arrangement": "basal",
        "sap": "white_milky",
    }
    if individual.stage != "rosette":
        states |= {"flower_stalk": "single_hollow", "stalk_scales": "none"}
    if individual.stage == "flower":
        states |= {"inflorescence": "single_head", "flower_colour": "yellow", "petals": "strap"}
    if individual.stage == "fruit":
        states["fruit_type"] = "parachute"
    return states


def _stalk(sheet: Sheet, individual: Individual, foot: Point, lean: float) -> tuple[Point, Point]:
    """A bare stalk with one head."""
    tall = individual.between(640, 820)
    top = stalk_ends(individual, foot, lean, tall)
    line = bow(foot, top, -lean * 1.2, 14)
    colour = mix(individual.green_stem, "#C9A596", individual.between(0.1, 0.5))
    draw_stem(sheet, line, taper(19, 17), colour, foot="#EBDCCB")
    head = (top[0], top[1] - 40)
    if individual.stage == "flower":
        draw_head(sheet, individual, head, lean, individual.between(92, 112), individual.coloured(YELLOW), True)
    else:
        draw_clock(sheet, individual, head, individual.between(88, 108), "#FFFFFF")
    return along(line, 0.5)[0], head


def _enlarged_stalk(inset: Sheet, individual: Individual) -> None:
    """The stalk bare and smooth, broken across: a hollow tube with a ring of milk."""
    colour = mix(individual.green_stem, "#C9A596", 0.25)
    side = 1 if individual.chance(0.5) else -1
    x = -side * 34.0
    draw_stem(inset, bow((x, 118.0), (x + 4, -118.0), 3.0, 8), taper(54, 52), colour, ink=2.4)
    section_of_stalk(inset, colour, side * 42.0, 26.0, 40.0, True)
    milk(inset, np.array([(side * 42.0 - 30, 52.0), (side * 42.0 + 6, 64.0)]), 7.0)


def _enlarged_rib(inset: Sheet, individual: Individual) -> None:
    """The midrib of a leaf torn across, with drops of milk."""
    rib = mix(individual.green_stem, "#B98A82", 0.45)
    draw_stem(inset, bow((0.0, 118.0), (individual.between(-10, 10), -28.0), 4.0, 8), taper(58, 46), rib, ink=2.4)
    section_of_stalk(inset, rib, 0.0, -30.0, 24.0, True)
    milk(inset, np.array([(-14.0, -20.0), (12.0, -12.0), (0.0, 2.0)]), 8.0)
