"""The bell of foxglove, and its capsule."""

from math import cos, radians

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Local, Point, Sheet, ovals, trail

OPEN = trail(
    "0 -.07, .16 -.12, .36 -.2, .62 -.25, .82 -.24, .95 -.29, 1 -.2, 1.06 -.05, 1.15 .08, 1.14 .24, 1.02 .29, .82 .25,"
    ".55 .25, .3 .2, .12 .13, 0 .07"
)
SHUT = trail("0 -.1, .3 -.2, .7 -.16, 1 0, .7 .16, .3 .2, 0 .1")
MOUTH = trail(".86 -.18, .95 -.28, 1 -.2, 1.06 -.05, 1.14 .08, 1.13 .23, 1.02 .28, .9 .18, .84 0")
SPOTS = trail(".93 -.1, .97 0, 1.05 .1, .95 .1, 1.02 .19, 1 .06")


def draw_glove(
    sheet: Sheet, individual: Individual, joint: Point, top: Point, long: float, angle: float, colour: str, ripe: float
) -> None:
    """One flower: a tube that widens to an oblique mouth, spotted inside; unripe ones are shut and greener."""
    side = 1 if cos(radians(angle)) > 0 else -1
    here = Local(top, angle, long, long * side)
    tone = colour if ripe > 0.25 else mix(colour, individual.green_below, 0.75 - 2 * ripe)
    sheet.line([joint, top], INK, 4.4)
    sheet.line([joint, top], individual.green_stem, 2.6)
    stops = [(0, tint(tone, 0, 0.1), 1), (0.5, tone, 1), (1, mix(tone, "#4A2348", 0.3), 1)]
    wash = sheet.gradient(here.at(0.5, -0.2), here.at(0.5, 0.2), stops)
    sheet.shape(here.all(OPEN if ripe > 0.12 else SHUT), wash, INK, 1.7)
    if ripe > 0.12:
        sheet.shape(here.all(MOUTH), mix(tone, "#FBF3F0", 0.62), INK, 1.3)
        spots = [(*place, long * 0.022, long * 0.016, angle) for place in here.all(SPOTS)]
        sheet.path(ovals(spots), fill="#5A1848", stroke="#FFF8F4", width=1.1)
    green = mix(individual.green, "#C9D59A", 0.15)
    for low, high in ((-0.17, -0.02), (0.02, 0.17), (-0.08, 0.08)):
        mid = (low + high) / 2
        lobe = [(-0.05, low * 0.5), (0.16, mid - 0.07), (0.3, mid), (0.16, mid + 0.07), (-0.05, high * 0.5)]
        sheet.shape(here.all(lobe), green, INK, 1.0)


CAPSULE = trail("0 -.2, .3 -.34, .6 -.28, .86 -.12, 1 0, .86 .12, .6 .28, .3 .34, 0 .2")


def draw_capsule(sheet: Sheet, individual: Individual, joint: Point, top: Point, long: float, angle: float) -> None:
    """One fruit: an egg with a dry style at its tip, sitting in the five lobes of the calyx."""
    here = Local(top, angle, long)
    colour = individual.coloured("#A58C5A")
    sheet.line([joint, top], INK, 5.0)
    sheet.line([joint, top], individual.green_stem, 3.0)
    stops = [(0, tint(colour, 0, 0.1), 1), (1, mix(colour, "#5A4630", 0.5), 1)]
    sheet.shape(here.all(CAPSULE), sheet.gradient(here.at(0.5, -0.3), here.at(0.5, 0.3), stops), INK, 1.7)
    sheet.line(here.all([(0.1, 0.02), (0.95, 0.0)]), mix(colour, INK, 0.6), 1.2)
    sheet.line(here.all([(1.0, 0.0), (1.5, 0.06)]), mix(colour, INK, 0.5), 1.6)
    green = mix(individual.green, "#B9A56A", 0.4)
    for v in (-0.3, 0.3, 0.0):
        lobe = [(-0.12, v * 0.4), (0.2, v - 0.17), (0.55, v * 1.2), (0.2, v + 0.17)]
        sheet.shape(here.all(lobe), green, INK, 1.1)
