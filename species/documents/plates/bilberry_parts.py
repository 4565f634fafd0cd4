"""Flower, berry and twig of bilberry."""

from math import atan2, degrees

from species.documents.plates.flower import berry
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Local, Point, Sheet, bow, trail


def draw_berry(sheet: Sheet, centre: Point, radius: float, bloom: float, scar: Point, ink: float = 1.7) -> None:
    """A blue-black berry; `scar` is where its tip lies, from the centre, in radii: a flat disc in a low ring."""
    x, y = centre
    berry(sheet, x, y, radius, "#2B2F4E", 0.35, mix("#2B2F4E", "#9AA2CC", 0.2 + 0.6 * bloom), ink)
    sx, sy = x + scar[0] * radius, y + scar[1] * radius
    far = (scar[0] ** 2 + scar[1] ** 2) ** 0.5
    turn = degrees(atan2(scar[1], scar[0]))
    flat = max(0.35, (1 - far**2) ** 0.5)
    sheet.oval(sx, sy, radius * 0.42 * flat, radius * 0.42, turn, mix("#2B2F4E", "#B9BEDB", 0.35), INK, ink)
    sheet.oval(sx, sy, radius * 0.29 * flat, radius * 0.29, turn, "#20233C", INK, ink * 0.8)
    sheet.oval(sx, sy, radius * 0.06, radius * 0.06, 0, "#8C93B8")


URN = trail(
    "0 .16, .14 .4, .42 .52, .7 .43, .86 .24, .93 .3, .98 .26, .95 0, .98 -.26, .93 -.3, .86 -.24, .7 -.43, .42 -.52,"
    ".14 -.4, 0 -.16"
)
RIM = trail("-.02 -.2, .08 -.3, .1 0, .08 .3, -.02 .2")


def draw_urn(
    sheet: Sheet, top: Point, long: float, angle: float, colour: str, individual: Individual, ink: float = 1.6
) -> None:
    """A round urn with a narrow mouth and tiny turned-out teeth."""
    here = Local(top, angle, long)
    stops = [(0, tint(colour, 0, 0.1), 1), (0.5, colour, 1), (1, mix(colour, "#7A3F48", 0.4), 1)]
    sheet.shape(here.all(URN), sheet.gradient(here.at(0.4, 0.5), here.at(0.4, -0.5), stops), INK, ink)
    sheet.oval(*here.at(0.93, 0.0), long * 0.2, long * 0.07, angle + 90, mix(colour, INK, 0.6), INK, ink * 0.6)
    sheet.shape(here.all(RIM), individual.green_stem, INK, ink * 0.8)


def enlarged_twig(inset: Sheet, individual: Individual) -> None:
    """A cut twig: three sharp ridges that run along it, and the triangle of the cut."""
    green = mix(individual.green_stem, individual.green, 0.3)
    lean = individual.between(-8, 8)
    inset.shape(
        [(-34.0, 10.0), (-28.0 + lean, -116.0), (30.0 + lean, -116.0), (36.0, 10.0)], tint(green, 0, 0.05), soft=False
    )
    inset.shape(
        [(8.0, 26.0), (10.0 + lean, -116.0), (30.0 + lean, -116.0), (36.0, 10.0)],
        mix(green, "#2A3A2C", 0.28),
        soft=False,
    )
    for x, top, low in ((-34.0, -28.0 + lean, 10.0), (8.0, 10.0 + lean, 26.0), (36.0, 30.0 + lean, 10.0)):
        inset.line([(x, low), (top, -116.0)], INK, 2.6)
        inset.line([(x + 3, low - 2), (top + 3, -116.0)], tint(green, 0, 0.2), 1.8)
    cut = [
        (-34.0, 10.0),
        (-16.0, 13.0),
        (8.0, 26.0),
        (24.0, 14.0),
        (36.0, 10.0),
        (20.0, 2.0),
        (2.0, -4.0),
        (-18.0, 2.0),
    ]
    inset.shape(cut, "#E8E9C9", INK, 2.2)
    inset.shape(
        [(-36.0, 58.0), (-10.0, 50.0), (32.0, 58.0), (14.0, 74.0), (-4.0, 92.0), (-18.0, 76.0)], "#E8E9C9", INK, 2.4
    )
    inset.oval(-3.0, 66.0, 12, 10, 0, "#C9D39C", INK, 1.2)


def draw_bud(sheet: Sheet, place: Point, heading: float, long: float, ink: float = 1.3) -> None:
    """A pointed winter bud lying against its twig; the heading in degrees from upright."""
    here = Local(place, heading - 90, long)
    sheet.shape(here.all([(-0.05, -0.2), (0.35, -0.26), (1.0, 0.0), (0.35, 0.26), (-0.05, 0.2)]), "#A8624C", INK, ink)
    sheet.line(here.all([(0.1, 0.12), (0.55, 0.06)]), mix("#A8624C", INK, 0.5), ink * 0.8)


def enlarged_bud(inset: Sheet, individual: Individual) -> None:
    """A piece of leafless twig with one bud."""
    green = mix(individual.green_stem, individual.green, 0.3)
    side = 1 if individual.chance(0.5) else -1
    inset.shape([(-26.0, 120.0), (-22.0, -120.0), (20.0, -120.0), (24.0, 120.0)], green, soft=False)
    for x in (-25.0, 4.0, 23.0):
        inset.line([(x, 120.0), (x * 0.88, -120.0)], INK, 2.4)
    draw_bud(inset, (side * 22.0, 40.0), side * 16, 88.0, 2.2)


def enlarged_flower(inset: Sheet, individual: Individual) -> None:
    side = 1 if individual.chance(0.5) else -1
    stalk = bow((-side * 40.0, -112.0), (0.0, -44.0), side * 14, 8)
    inset.line(stalk, INK, 12)
    inset.line(stalk, individual.green_stem, 8.5)
    draw_urn(inset, (0.0, -48.0), 116.0, 90 - side * 6, individual.coloured("#CB7F7A"), individual, 2.6)


def enlarged_berries(inset: Sheet, individual: Individual, bloom: float) -> None:
    """The berry from both ends: the ring at its tip, and the bare stalk."""
    tip, stalk = ((-36.0, -34.0), (34.0, 40.0)) if individual.chance(0.5) else ((36.0, -34.0), (-34.0, 40.0))
    draw_berry(inset, tip, 44.0, bloom, (individual.between(-0.12, 0.12), individual.between(-0.08, 0.12)), 2.4)
    berry(inset, *stalk, 44.0, "#2B2F4E", 0.35, mix("#2B2F4E", "#9AA2CC", 0.2 + 0.6 * bloom), 2.4)
    line = bow((stalk[0] - 4, stalk[1] - 6), (stalk[0] + (46 if stalk[0] > 0 else -46), stalk[1] - 58), 6, 6)
    inset.line(line, INK, 9)
    inset.line(line, mix(individual.green_stem, "#B06A50", 0.3), 6)
    inset.oval(stalk[0] - 4, stalk[1] - 5, 7, 5, 0, "#20233C", INK, 1.4)
