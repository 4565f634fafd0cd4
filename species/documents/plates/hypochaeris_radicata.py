"""Cat's-ear: bristly leaves with blunt lobes, heads on wiry forked stalks with small dark-tipped scales."""

import numpy as np

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.lobed_rosette import LobeLook, draw_rosette, draw_stalks, stalk_ends
from species.documents.plates.regions import HEAD_STALK, LEAF_AGAINST_LIGHT
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.yellow_head import draw_clock, draw_head, milk, section_of_stalk

NAME = "cat's-ear (Hypochaeris radicata)"
STAGES = ("rosette", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "unbranched", "unlobed")
YELLOW = "#F2C21A"
FIRST = FirstLeaf(LeafDetail("edge", "entire", "bristly"), 2.6, 1.2, 0.8, 0.2)


def draw(individual: Individual) -> Drawing:
    """One cat's-ear."""
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=3.0, a=1.2, b=0.8, stalk=0.35), FIRST, ("bristly first leaves",)
        )
    plain = individual.form == "unlobed" or (individual.form == "typical" and individual.chance(0.1))
    single = individual.form == "unbranched" or (individual.form == "typical" and individual.chance(0.2))
    look = LobeLook(0 if plain else individual.count(3, 5), 0.42, 0.0, True, True, "#B98A82")
    sheet, heads = Sheet(), individual.stage != "rosette"
    leaf = draw_rosette(sheet, individual, look, 0.72 if heads else 1.0)
    lens, second = sheet.layer(), sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("edge", "entire", "bristly"))
    stalk = (0.0, -30.0)
    if heads:
        stalk, _ = draw_stalks(sheet, individual, lambda where, one, foot, lean: _stalk(where, one, foot, lean, single))
        _enlarged_stalk(second, individual)
    else:
        _enlarged_rib(second, individual)
    insets = (Inset(lens, leaf, LEAF_AGAINST_LIGHT), Inset(second, stalk, HEAD_STALK))
    return Drawing(sheet, _characters(individual, plain, single), insets, features=_features(individual, plain, single))


def _features(individual: Individual, plain: bool, single: bool) -> tuple[str, ...]:
    leaf = "leaves almost without lobes" if plain else "leaves with blunt lobes"
    stalk = f"wiry {'unbranched' if single else 'forked'} stalks with small dark-tipped scales"
    heads = {"flower": (f"yellow heads on {stalk}",), "fruit": (f"balls of parachutes on {stalk}",)}
    return (leaf, "bristles on both faces", *heads.get(individual.stage, ()))


def _characters(individual: Individual, plain: bool, single: bool) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "crown",
        "leaf_division": "undivided" if plain else "lobed",
        "leaf_hairs": "bristly_rough",
        "leaf_arrangement": "basal",
        "sap": "white_milky",
    }
    if individual.stage != "rosette":
        states |= {"flower_stalk": "wiry_unbranched" if single else "wiry_branched", "stalk_scales": "scales"}
    if individual.stage == "flower":
        states |= {"inflorescence": "single_head", "flower_colour": "yellow", "petals": "strap"}
    if individual.stage == "fruit":
        states["fruit_type"] = "parachute"
    return states


def _stalk(sheet: Sheet, individual: Individual, foot: Point, lean: float, single: bool) -> tuple[Point, Point]:
    """A wiry stalk, forked once or twice unless `single`, with scales along it and a head on each end."""
    tall = individual.between(640, 820)
    top = stalk_ends(individual, foot, lean, tall)
    line = bow(foot, top, -lean * 1.2, 14)
    for k in range(0 if single else individual.count(1, 2)):
        place, _ = along(line, 0.42 + 0.16 * k)
        off = lean + (1 if (k % 2) == (lean > 0) else -1) * individual.between(20, 30)
        end = stalk_ends(individual, place, off, tall * individual.between(0.34, 0.42))
        _wire(sheet, individual, bow(place, end, -off * 0.5, 10), 4)
        _head(sheet, individual, end, off, 0.86)
    _wire(sheet, individual, line, individual.count(5, 8))
    _head(sheet, individual, top, lean, 1.0)
    return along(line, 0.5)[0], (top[0], top[1] - 40)


def _wire(sheet: Sheet, individual: Individual, line: Points, scales: int) -> None:
    """A thin stalk, a little thicker below the head, with small dark-tipped scales pressed to it."""
    draw_stem(sheet, line, lambda t: 9.0 + 7.0 * max(0.0, t - 0.75) * 4, individual.green_stem, ink=1.5)
    for k in range(scales):
        (x, y), (dx, dy) = along(line, 0.3 + 0.64 * k / scales)
        side = 1 if k % 2 else -1
        tip = (x + dx * 24 + dy * side * -8, y + dy * 24 + dx * side * 8)
        root = [(x - dy * side * 4, y + dx * side * 4), (x - dy * side * 10 + dx * 10, y + dx * side * 10 + dy * 10)]
        sheet.shape([*root, tip, (x + dx * 6, y + dy * 6)], mix(individual.green, "#8FA36A", 0.3), INK, 1.2)
        sheet.line([((root[1][0] + tip[0]) / 2, (root[1][1] + tip[1]) / 2), tip], "#3A2430", 4.2)


def _head(sheet: Sheet, individual: Individual, top: Point, lean: float, share: float) -> None:
    head = (top[0], top[1] - 40 * share)
    if individual.stage == "flower":
        radius = individual.between(92, 112) * share
        draw_head(sheet, individual, head, lean, radius, individual.coloured(YELLOW), False)
    else:
        draw_clock(sheet, individual, head, individual.between(88, 108) * share, "#B7A27A")


def _enlarged_stalk(inset: Sheet, individual: Individual) -> None:
    """The wiry stalk with a scale, broken across: solid, with a drop of milk."""
    side = 1 if individual.chance(0.5) else -1
    x = -side * 34.0
    draw_stem(inset, bow((x, 118.0), (x + 4, -118.0), 3.0, 8), taper(34, 32), individual.green_stem, ridges=2, ink=2.4)
    for y, way in ((34.0, side), (-44.0, -side)):
        scale = [(x + way * 10, y + 20), (x + way * 30, y - 6), (x + way * 26, y - 46), (x + way * 10, y - 10)]
        inset.shape(scale, mix(individual.green, "#8FA36A", 0.3), INK, 2.0)
        inset.line([(x + way * 27, y - 24), (x + way * 26, y - 44)], "#3A2430", 8.0)
    section_of_stalk(inset, individual.green_stem, side * 46.0, 32.0, 28.0, False)
    milk(inset, np.array([(side * 46.0 - 18, 56.0), (side * 46.0 + 8, 64.0)]), 7.0)


def _enlarged_rib(inset: Sheet, individual: Individual) -> None:
    """The midrib of a leaf torn across, bristly, with drops of milk."""
    rib = mix(individual.green_stem, "#B98A82", 0.45)
    line = bow((0.0, 118.0), (individual.between(-10, 10), -28.0), 4.0, 8)
    draw_stem(inset, line, taper(58, 46), rib, ink=2.4)
    for edge, side in zip(sides(line, taper(58, 46)), (1, -1), strict=True):
        hairs(inset, edge, side, 11, 30.0, individual.rng, width=2.2)
    section_of_stalk(inset, rib, 0.0, -30.0, 24.0, True)
    milk(inset, np.array([(-14.0, -20.0), (12.0, -12.0), (0.0, 2.0)]), 8.0)
