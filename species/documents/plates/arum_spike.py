"""Lords-and-ladies in fruit: a bare stalk with a dense spike of orange berries, its leaves long gone."""

from math import cos, pi, sin

from species.documents.plates.flower import berry
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.posture import crumbs, earth_inset
from species.documents.plates.regions import FRUIT
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Points, Sheet, along, bow

ORANGE, RED, UNRIPE = "#E0531F", "#CF3A1C", "#8FA656"


def draw_spike(individual: Individual) -> Drawing:
    """One or two bare fruiting stalks."""
    sheet = Sheet()
    ripe = ORANGE if individual.chance(0.6) else RED
    feet = [0.0]
    if individual.chance(0.4):
        feet.insert(0, individual.between(150, 210) * (1 if individual.chance(0.5) else -1))
    top = (0.0, 0.0)
    for x in feet:
        tall = individual.between(560, 680) * (1.0 if x == feet[-1] else individual.between(0.7, 0.85))
        line = bow((x, 4.0), (x + individual.between(-0.1, 0.1) * tall, -tall), individual.between(-0.05, 0.05) * tall)
        draw_stem(sheet, line, taper(26, 21), individual.green_stem, foot="#E6E4C6")
        _berries(sheet, individual, line, individual.between(0.68, 0.76), ripe)
        top = along(line, 0.86)[0]
    crumbs(sheet, feet, individual.rng)
    lens, second = sheet.layer(), sheet.layer()
    for x, y, green in ((-44.0, 30.0, 0.0), (42.0, 34.0, 0.25), (-2.0, -34.0, 0.0)):
        berry(lens, x, y, 47, mix(individual.coloured(ripe), UNRIPE, green), 0.75, ink=2.4)
        lens.disc(x + 6, y + 4, 4.5, mix(INK, ripe, 0.3))
    earth_inset(second, lambda inset: _foot(inset, individual), individual.rng)
    characters = {
        "growth_form": "herb",
        "fruit_type": "berry",
        "fruit_colour": "orange" if ripe == ORANGE else "red",
        "fruit_position": "spike",
    }
    features = ("a bare stalk with a dense spike of orange-red berries", "no leaves")
    return Drawing(sheet, characters, (Inset(lens, top, FRUIT), Inset(second, (feet[-1], -30.0))), features=features)


def _berries(sheet: Sheet, individual: Individual, line: Points, low: float, ripe: str) -> None:
    """Berries in slanting rings round the top of the stalk, the far ones first; a few still green above."""
    rings = individual.count(7, 9)
    for k in range(rings):
        share = low + (1.0 - low) * k / (rings - 1)
        (x, y), _ = along(line, share)
        wide = 58.0 * (0.72 + 0.5 * sin(pi * (0.2 + 0.75 * k / rings)))
        for turn in sorted((2 * pi * (j + 0.5 * (k % 2)) / 5 for j in range(5)), key=sin):
            green = 0.75 if k > rings - 3 and individual.chance(0.3) else 0.0
            colour = mix(individual.coloured(ripe), UNRIPE, green)
            px, py = x + cos(turn) * wide * 0.78, y + sin(turn) * wide * 0.2
            berry(sheet, px, py, individual.between(24, 29), colour, 0.7, ink=1.4)


def _foot(inset: Sheet, individual: Individual) -> None:
    """The fleshy stalk with the withered remains of its hood and leaves."""
    draw_stem(
        inset, bow((0.0, 68.0), (individual.between(-8, 8), -116.0), 3.0, 8), taper(40, 36), individual.green_stem
    )
    for flip in (-1, 1):
        scale = [
            (flip * 20.0, 70.0),
            (flip * 24.0, 30.0),
            (flip * 44.0, 12.0),
            (flip * 52.0, 26.0),
            (flip * 34.0, 70.0),
        ]
        inset.shape(scale, "#CDB98E", INK, 1.9)
