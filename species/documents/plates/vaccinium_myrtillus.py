"""Bilberry: a low shrub with green three-ridged twigs, fine-toothed leaves, a ring on the tip of its berry."""

from dataclasses import dataclass, field
from itertools import pairwise
from math import cos, radians, sin

from species.documents.plates.bilberry_parts import (
    draw_berry,
    draw_bud,
    draw_urn,
    enlarged_berries,
    enlarged_bud,
    enlarged_flower,
    enlarged_twig,
)
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import profile, toothed
from species.documents.plates.posture import crumbs, near_edge
from species.documents.plates.regions import FRUIT, HEAD, LEAF_AGAINST_LIGHT, STEM
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import pinnate

NAME = "bilberry (Vaccinium myrtillus)"
STAGES = ("leafy", "flower", "fruit", "dormant")
FORMS = ("typical", "shade", "young", "bloomless", "autumn")
SECOND = {"flower": HEAD, "fruit": FRUIT}
UNITS = {"leafy": 46.0, "flower": 80.0, "fruit": 80.0, "dormant": 46.0}
WOOD = "#8A6A4A"


@dataclass
class Habit:
    """The whole plant, and the places that the insets enlarge."""

    unit: float
    bloom: float
    red: float
    anchor: Point = (0.0, 0.0)
    mark: Point = (0.0, 0.0)
    axils: list[tuple[Point, int]] = field(default_factory=list)


def draw(individual: Individual) -> Drawing:
    sheet = Sheet()
    form = individual.form
    bloom = 0.0 if form == "bloomless" else individual.between(0.55, 1.0)
    red = individual.between(0.35, 0.6) if form == "autumn" else 0.0
    habit = Habit(UNITS[individual.stage], bloom, red)
    whole = individual.stage in ("leafy", "dormant")
    if whole:
        _shrub(sheet, individual, habit)
    else:
        _spray(sheet, individual, habit)
    lens, second = sheet.layer(), sheet.layer()
    if individual.stage == "dormant":
        enlarged_bud(lens, individual)
    else:
        leaf_against_light(lens, individual, LeafDetail("edge", "serrate", "none", 11.0, 27.0, net=5))
    if whole:
        enlarged_twig(second, individual)
    elif individual.stage == "flower":
        enlarged_flower(second, individual)
    else:
        enlarged_berries(second, individual, habit.bloom)
    insets = (
        Inset(lens, habit.anchor, LEAF_AGAINST_LIGHT),
        Inset(second, habit.mark, SECOND.get(individual.stage, STEM)),
    )
    return Drawing(sheet, _characters(individual, habit), insets, ground=whole, features=_features(individual))


def _features(individual: Individual) -> tuple[str, ...]:
    if individual.stage == "dormant":
        return ("leafless green three-ridged twigs on wood", "small pointed buds")
    more = {
        "fruit": ("single berries with a flat ring at the tip and nothing below but the stalk",),
        "flower": ("single small urns hanging from the leaf axils",),
    }
    return (
        "green three-ridged twigs on wood",
        "small finely toothed leaves, alternate",
        *more.get(individual.stage, ()),
    )


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    if individual.stage == "dormant":
        return {"growth_form": "low_shrub"}
    states = {
        "growth_form": "low_shrub",
        "leaf_division": "undivided",
        "blade_shape": "ovate",
        "leaf_base": "rounded",
        "leaf_margin": "serrate",
        "leaf_hairs": "hairless",
        "leaf_arrangement": "alternate",
        "stem_hairs": "hairless",
        "stem_section": "ridged",
    }
    if individual.stage == "flower":
        states |= {"inflorescence": "axillary_single", "flower_colour": "pink_purple", "petals": "tube"}
    if individual.stage == "fruit":
        states |= {
            "fruit_type": "berry",
            "fruit_colour": "blue_black_bloom" if habit.bloom > 0.2 else "black",
            "fruit_calyx": "crown_tip",
            "fruit_position": "single",
        }
    return states


def _shrub(sheet: Sheet, individual: Individual, habit: Habit) -> None:
    """The whole plant: two or three woody stems from the ground, each forking into green twigs."""
    stems = individual.count(2, 3)
    feet = []
    for k in range(stems):
        place = k - (stems - 1) / 2
        foot = (place * individual.between(60, 90), 5.0)
        feet.append(foot[0])
        heading = place * individual.between(18, 28) + individual.between(-5, 5)
        _branch(
            sheet,
            individual,
            habit,
            foot,
            heading,
            individual.between(15, 19) * individual.size * habit.unit,
            5 if stems == 2 else 4,
        )
    crumbs(sheet, feet, individual.rng)


def _spray(sheet: Sheet, individual: Individual, habit: Habit) -> None:
    """A cut branch, woody where it was cut."""
    heading = individual.between(-16, 16)
    _branch(
        sheet, individual, habit, (0.0, 0.0), heading, individual.between(10.0, 11.5) * individual.size * habit.unit, 4
    )


def _branch(
    sheet: Sheet, individual: Individual, habit: Habit, foot: Point, heading: float, long: float, twigs: int
) -> None:
    a = radians(heading)
    tip = (foot[0] + sin(a) * long * 0.62, foot[1] - cos(a) * long * 0.62)
    line = bow(foot, tip, individual.between(-0.05, 0.05) * long, 12)
    side = 1 if individual.chance(0.5) else -1
    for k in range(twigs):
        share = 0.42 + 0.55 * k / (twigs - 1) if twigs > 1 else 1.0
        place, _ = along(line, share)
        way = side * (1 if k % 2 else -1)
        turn = way * individual.between(26, 44) if k < twigs - 1 else individual.between(-8, 8)
        _twig(
            sheet,
            individual,
            habit,
            place,
            heading + turn,
            long * individual.between(0.34, 0.44),
            4 if k % 2 and individual.stage != "leafy" else 5,
        )
    wood = individual.coloured(WOOD)
    draw_stem(sheet, line, taper(17, 10), mix(individual.green_stem, wood, 0.35), foot=wood, ridges=2)
    for place, way in habit.axils:
        _hanging(sheet, individual, habit, place, way)


def _twig(
    sheet: Sheet, individual: Individual, habit: Habit, foot: Point, heading: float, long: float, leaves: int
) -> None:
    """A green twig bent a little at every leaf; leaves by turns left and right, fruit or flower from the axils."""
    a = radians(heading)
    points: list[Point] = [foot]
    way = 1 if individual.chance(0.5) else -1
    for k in range(1, leaves + 1):
        bend = a + radians(9) * (way if k % 2 else -way)
        px, py = points[-1]
        points.append((px + sin(bend) * long / leaves, py - cos(bend) * long / leaves))
    green = mix(individual.green_stem, individual.green, 0.25)
    for k in range(leaves, 0, -1):
        side = way if k % 2 else -way
        grow = 0.72 + 0.35 * sin(k / leaves * 2.6)
        turn = side * individual.between(42, 62) if k < leaves else individual.between(-14, 14)
        if individual.stage == "dormant":
            draw_bud(sheet, points[k], heading + turn * 0.5, individual.between(17, 23))
            habit.anchor = habit.mark = points[k]
            continue
        _leaf(sheet, individual, habit, points[k], heading + turn, grow)
        if individual.stage != "leafy" and 0 < k < leaves and individual.chance(0.55):
            habit.axils.append((points[k], -side))
    draw_stem(sheet, _zigzag(points), taper(10, 6), green, ridges=1, ink=1.5)


def _zigzag(points: Points) -> list[Point]:
    out: list[Point] = [points[0]]
    for a, b in pairwise(points):
        out += [((a[0] * 2 + b[0]) / 3, (a[1] * 2 + b[1]) / 3), ((a[0] + b[0] * 2) / 3, (a[1] + b[1] * 2) / 3), b]
    return out


def _leaf(sheet: Sheet, individual: Individual, habit: Habit, place: Point, heading: float, grow: float) -> None:
    long = individual.between(1.9, 2.5) * habit.unit * grow
    wide = long / individual.between(1.55, 1.85)
    edge = profile(
        long, wide, individual.between(0.7, 0.85), individual.between(0.95, 1.1), individual.lopsided, foot=4, steps=11
    )
    small = individual.stage == "leafy"
    outline = toothed(edge, 10 if small else 13, 0.03 * wide + 1.6, "serrate", 0.1)
    a = radians(heading)
    start = (place[0] + sin(a) * 5, place[1] - cos(a) * 5)
    side = 1 if heading > 0 else -1
    pose = Pose(
        start,
        heading,
        long,
        side * individual.between(-4, 30),
        individual.between(-0.5, 0.5),
        individual.between(-0.4, 0.4),
        individual.between(0.72, 1.0),
    )
    green = (
        mix(individual.leaf_green(), individual.coloured("#B5522F"), habit.red * individual.between(0.3, 1.3))
        if habit.red
        else individual.leaf_green()
    )
    draw_blade(
        sheet,
        outline,
        pose,
        look_of(individual, midrib=2.0, green=green, small=small),
        pinnate(edge, 3 if small else 5, 46, 0.9, width=0.9, start=0.08),
    )
    habit.anchor = near_edge(edge, pose, 0.55)
    habit.mark = place if individual.stage == "leafy" else habit.mark


def _hanging(sheet: Sheet, individual: Individual, habit: Habit, place: Point, side: int) -> None:
    """One flower or one berry on a short stalk that bends down."""
    unit = habit.unit
    end = (place[0] + side * 0.34 * unit, place[1] + individual.between(0.42, 0.6) * unit)
    stalk = bow(place, end, side * 10, 6)
    sheet.line(stalk, INK, 4.6)
    sheet.line(stalk, mix(individual.green_stem, "#B06A50", 0.3), 2.8)
    if individual.stage == "flower":
        colour = mix(individual.coloured("#CB7F7A"), "#B9C58A", individual.between(0.0, 0.4))
        draw_urn(sheet, end, 0.5 * unit, 90 - side * individual.between(0, 14), colour, individual)
        habit.mark = end
        return
    radius = individual.between(0.28, 0.36) * unit
    centre = (end[0] + side * radius * 0.2, end[1] + radius * 0.92)
    draw_berry(
        sheet, centre, radius, habit.bloom, (side * individual.between(0.1, 0.45), individual.between(0.35, 0.6))
    )
    habit.mark = centre
