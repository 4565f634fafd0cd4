"""Meadow saffron in autumn: leafless goblets on long white tubes straight from the soil."""

from math import cos, radians, sin

from species.documents.plates.flower import star
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.posture import crumbs, earth_inset
from species.documents.plates.regions import HEAD
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Local, Point, Sheet, bow, smooth, trail

LILAC, WHITE = "#C59AD8", "#F6F2EA"
SEGMENT = trail("0 .035, .2 .1, .5 .2, .78 .19, .94 .09, 1 0, .94 -.09, .78 -.19, .5 -.2, .2 -.1, 0 -.035")


def draw_goblets(individual: Individual) -> Drawing:
    """One to three flowers of one plant, with no leaf."""
    sheet = Sheet()
    pale = individual.form == "white-flowered" or (individual.form == "typical" and individual.chance(0.05))
    colour = individual.coloured(WHITE if pale else LILAC)
    count = individual.count(1, 3)
    mouth: Point = (0.0, 0.0)
    order = sorted(range(count), key=lambda k: abs(k - (count - 1) / 2), reverse=True)
    for k in order:
        off = k - (count - 1) / 2
        tall = individual.between(400, 500) * (1 - 0.12 * abs(off))
        lean = off * individual.between(14, 20) + individual.between(-5, 5)
        end = (off * 30 + sin(radians(lean)) * tall, -cos(radians(lean)) * tall)
        tube = bow((off * 24, 6.0), end, individual.between(-16, 16), 10)
        draw_stem(sheet, tube, taper(19, 24), mix(colour, "#FBF8F0", 0.7), foot="#FBF8F0")
        _goblet(sheet, individual, end, lean, individual.between(330, 380), colour)
        mouth = (end[0] + sin(radians(lean)) * 180, end[1] - cos(radians(lean)) * 180)
    crumbs(sheet, [0.0], individual.rng, 24)
    lens, second = sheet.layer(), sheet.layer()
    star(lens, individual, (0.0, 0.0), 92, 6, colour, 0.92, 90, "#F1E7C2", 2.2, 0.46)
    for k in range(6):
        a = radians(60 * k + 20)
        lens.oval(cos(a) * 24, sin(a) * 24, 11, 5, 60 * k + 20, "#E3A83A", INK, 1.2)
    earth_inset(second, lambda inset: _feet(inset, individual, colour), individual.rng)
    characters = {
        "growth_form": "herb",
        "inflorescence": "from_ground",
        "flower_colour": "white" if pale else "pink_purple",
        "petals": "6",
        "flowers_leafless": "yes",
    }
    features = ("goblets of six on white tubes straight from the soil", "no leaves")
    return Drawing(
        sheet,
        characters,
        (Inset(lens, mouth, HEAD), Inset(second, (0.0, -40.0), ("flowers_leafless",))),
        features=features,
    )


def _goblet(sheet: Sheet, individual: Individual, foot: Point, lean: float, long: float, colour: str) -> None:
    """Six segments: three behind, three in front, opening a little."""
    gape = individual.between(9, 15)
    back = [(-0.9, 0.95, -0.05), (0.9, 0.95, -0.05), (0.0, 1.0, -0.08)]
    front = [(-1.15, 0.93, 0.06), (1.15, 0.93, 0.06), (0.12, 0.86, 0.1)]
    for group in (back, front):
        for off, tall, light in group:
            here = Local(foot, lean - 90 + off * gape, long * tall, long * 1.02)
            wash = sheet.gradient(
                here.at(0, 0), here.at(1, 0), [(0, mix(colour, "#FBF8F0", 0.75), 1), (0.5, tint(colour, 0, light), 1)]
            )
            sheet.shape(here.all(SEGMENT), wash, INK, 1.8)
            veins = [here.all([(0.1, v * 0.3), (0.5, v), (0.9, v * 0.5)]) for v in (-0.1, 0.0, 0.1)]
            sheet.path("".join(smooth(v) for v in veins), stroke=mix(colour, "#6A3F7A", 0.45), width=1.0, opacity=0.7)


def _feet(inset: Sheet, individual: Individual, colour: str) -> None:
    """The white tube going straight into the soil, with no leaf beside it."""
    line = bow((0.0, 70.0), (individual.between(-10, 10), -116.0), 4.0, 8)
    draw_stem(inset, line, taper(40, 44), mix(colour, "#FBF8F0", 0.8), foot="#FBF8F0", ink=2.4)
