"""Flower, star under the berry, and stem of deadly nightshade."""

from math import cos, radians, sin

from species.documents.plates.flower import berry
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Local, Point, Sheet, bow, smooth, traced, trail

BERRY_COLOUR = "#17131A"
BELL = trail(
    ".02 .1, .12 .22, .4 .29, .7 .29, .88 .31, .98 .34, 1 .24, .93 .16, 1.03 .08, 1.04 -.06, .93 -.14, 1 -.22,"
    ".97 -.34, .88 -.31, .7 -.29, .4 -.29, .12 -.22, .02 -.1"
)


def draw_bell(
    sheet: Sheet, individual: Individual, pale: bool, top: Point, long: float, angle: float, ink: float = 1.8
) -> None:
    """A hanging bell, dull purple with a greenish base, five short lobes, in a green calyx of five lobes."""
    here = Local(top, angle, long)
    colour = individual.coloured("#B9BE7C" if pale else "#7E5468")
    stops = [(0, mix("#9DAE76", colour, 0.25), 1), (0.45, colour, 1), (1, tint(colour, 0, -0.05), 1)]
    sheet.shape(here.all(BELL), sheet.gradient(here.at(0, 0), here.at(1, 0), stops), INK, ink)
    folds = [here.all([(0.2, v * 0.7), (0.6, v), (0.9, v)]) for v in (-0.16, 0.0, 0.16)]
    sheet.path(traced(folds), stroke=mix(colour, INK, 0.55), width=ink * 0.6, opacity=0.8)
    for v in (-0.24, 0.24, 0.0):
        root, wide = v * 0.35, v * 0.95
        lobe = [(-0.02, root - 0.07), (0.16, wide - 0.1), (0.36, v * 1.25), (0.16, wide + 0.1), (-0.02, root + 0.07)]
        sheet.shape(here.all(lobe), mix(individual.green, "#C9D59A", 0.2), INK, ink * 0.8)


def draw_star(
    sheet: Sheet,
    individual: Individual,
    centre: Point,
    reach: float,
    turn: float,
    squash: float,
    axis: float,
    ink: float = 1.7,
) -> None:
    """The calyx spread flat under the berry: five broad pointed lobes, seen past its edge."""
    green = mix(individual.green, "#B9CC86", 0.35)
    ax = radians(axis)
    for k in range(5):
        a = radians(turn + 72 * k)
        outline = []
        for u, v in ((0.1, 0.16), (0.45, 0.34), (0.72, 0.28), (1.0, 0.0), (0.72, -0.28), (0.45, -0.34), (0.1, -0.16)):
            x, y = reach * (u * cos(a) - v * sin(a)), reach * (u * sin(a) + v * cos(a))
            along_axis, across = (x * cos(ax) + y * sin(ax)) * squash, -x * sin(ax) + y * cos(ax)
            outline.append(
                (
                    centre[0] + along_axis * cos(ax) - across * sin(ax),
                    centre[1] + along_axis * sin(ax) + across * cos(ax),
                )
            )
        sheet.shape(outline, tint(green, 0, 0.03 if k % 2 else -0.02), INK, ink)
        tip = outline[3]
        sheet.path(
            smooth([centre, ((centre[0] + tip[0] * 2) / 3, (centre[1] + tip[1] * 2) / 3)]),
            stroke=mix(green, INK, 0.6),
            width=ink * 0.6,
        )


def enlarged_stem(inset: Sheet, individual: Individual, stem: str) -> None:
    """A cut stem: round, soft, finely downy, and the circle of the cut."""
    lean = individual.between(-8, 8)
    line = bow((0.0, 10.0), (lean, -116.0), 2.0, 12)
    draw_stem(inset, line, taper(70, 66), stem, ink=2.6)
    for edge, side in zip(sides(line, taper(70, 66)), (1, -1), strict=True):
        hairs(inset, edge, side, 30, 9.0, individual.rng, width=1.1, soft=True)
    inset.oval(0.0, 10.0, 35, 12, 0, "#E8E9C9", INK, 2.2)
    inset.disc(0.0, 66.0, 30, "#E8E9C9", INK, 2.4)
    inset.disc(0.0, 66.0, 22, "#F2F0DC", mix(stem, INK, 0.4), 1.3)


def enlarged_berries(inset: Sheet, individual: Individual, stem: str) -> None:
    """The berry from both sides: its plain tip, and the star that it sits on."""
    tip, seat = ((-46.0, -46.0), (16.0, 8.0)) if individual.chance(0.5) else ((46.0, -46.0), (-16.0, 8.0))
    side = 1 if seat[0] > 0 else -1
    line = bow((seat[0], seat[1] + 34), (seat[0] + side * 26, 112.0), 6, 6)
    inset.line(line, INK, 12)
    inset.line(line, stem, 8.5)
    draw_star(inset, individual, (seat[0], seat[1] + 30), 70.0, individual.between(-8, 8) + 18, 0.62, 90, 2.4)
    berry(inset, *seat, 42.0, BERRY_COLOUR, 0.9, ink=2.4)
    berry(inset, *tip, 34.0, BERRY_COLOUR, 0.9, ink=2.2)
