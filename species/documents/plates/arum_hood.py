"""The hood of lords-and-ladies and the club that stands in it."""

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Local, Point, Sheet, smooth, traced, trail

# Outlines in shares of the height, (height, side), from the foot of the bulging tube upwards.
BACK = trail(".27 -.045, .42 -.15, .6 -.17, .8 -.11, 1 .01, .82 .1, .62 .155, .42 .13, .27 .045")
FRONT = trail(
    ".27 -.048, .4 -.125, .58 -.172, .66 -.16, .52 -.11, .4 -.03, .34 .04, .4 .105, .53 .15, .6 .158, .48 .15, .36 .1,"
    ".27 .048"
)
BULB = trail("-.01 -.02, .07 -.062, .16 -.066, .27 -.046, .27 .046, .16 .066, .07 .06, -.01 .02")
SEAM = trail(".262 .046, .235 -.01, .1 -.03, 0 -.012")
CLUB = trail(".28 .012, .42 .013, .5 .026, .58 .032, .68 .03")


def draw_hood(
    sheet: Sheet, individual: Individual, yellow: bool, foot: Point, tall: float, lean: float, ink: float = 2.2
) -> None:
    """The hood with its bulging lower tube, narrow throat and open upper part, and the club standing in it."""
    side = 1 if individual.chance(0.5) else -1
    here = Local(foot, lean - 90, tall, tall * side)
    pale = individual.coloured("#CBD9A2")
    stops = [(0, mix(pale, "#6E8350", 0.5), 1), (0.4, mix(pale, "#F2F2CF", 0.45), 1), (1, pale, 1)]
    sheet.shape(here.all(BACK), sheet.gradient(here.at(0.3, 0), here.at(1.0, 0), stops), INK, ink)
    nerves = [here.all([(0.36, 0.02 * k), (0.62, 0.042 * k), (0.95, 0.012 * k)]) for k in (-2, -1, 1, 2)]
    sheet.path(traced(nerves), stroke=mix(pale, "#5A6B3C", 0.6), width=ink * 0.4, opacity=0.7)
    _club(sheet, individual, yellow, here)
    sheet.shape(here.all(FRONT), mix(pale, "#93AD6C", 0.45), INK, ink)
    sheet.path(smooth(here.all(FRONT[3:10])), stroke="#7A5068", width=ink * 2.2, opacity=0.55)
    stops = [(0, tint(pale, 0, 0.05), 1), (0.55, mix(pale, "#8CA868", 0.5), 1), (1, mix(pale, "#60804C", 0.7), 1)]
    sheet.shape(here.all(BULB), sheet.gradient(here.at(0.1, -0.07), here.at(0.1, 0.07), stops), INK, ink)
    sheet.path(smooth(here.all(SEAM)), stroke=INK, width=ink * 0.6)


def _club(sheet: Sheet, individual: Individual, yellow: bool, here: Local) -> None:
    colour = individual.coloured("#D9B84A" if yellow else "#6B2D4A")
    tip = individual.between(0.7, 0.78)
    right = [*CLUB, (tip - 0.012, 0.018), (tip, 0.0)]
    left = [(u, -v) for u, v in reversed(right[:-1])]
    stops = [(0, tint(colour, 4, 0.17), 1), (0.5, colour, 1), (1, mix(colour, INK, 0.5), 1)]
    wash = sheet.gradient(here.at(0.55, -0.035), here.at(0.55, 0.035), stops)
    sheet.shape(here.all([*right, *left]), wash, INK, 2.0)
