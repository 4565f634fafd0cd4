"""Flower, and the star under the berry, of deadly nightshade."""

from math import cos, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Point, Sheet, smooth


def draw_bell(
    sheet: Sheet, individual: Individual, pale: bool, top: Point, long: float, angle: float, ink: float = 1.8
) -> None:
    """A hanging bell, dull purple with a greenish base, five short lobes, in a green calyx of five lobes."""
    a = radians(angle)

    def at(u: float, v: float) -> Point:
        return top[0] + cos(a) * u * long - sin(a) * v * long, top[1] + sin(a) * u * long + cos(a) * v * long

    colour = individual.coloured("#B9BE7C" if pale else "#7E5468")
    base = mix("#9DAE76", colour, 0.25)
    body = [
        (0.02, 0.1),
        (0.12, 0.22),
        (0.4, 0.29),
        (0.7, 0.29),
        (0.88, 0.31),
        (0.98, 0.34),
        (1.0, 0.24),
        (0.93, 0.16),
        (1.03, 0.08),
        (1.04, -0.06),
        (0.93, -0.14),
        (1.0, -0.22),
        (0.97, -0.34),
        (0.88, -0.31),
        (0.7, -0.29),
        (0.4, -0.29),
        (0.12, -0.22),
        (0.02, -0.1),
    ]
    wash = sheet.gradient(at(0.0, 0.0), at(1.0, 0.0), [(0, base, 1), (0.45, colour, 1), (1, tint(colour, 0, -0.05), 1)])
    sheet.shape([at(u, v) for u, v in body], wash, INK, ink)
    sheet.path(
        "".join(smooth([at(0.2, v * 0.7), at(0.6, v), at(0.9, v)]) for v in (-0.16, 0.0, 0.16)),
        stroke=mix(colour, INK, 0.55),
        width=ink * 0.6,
        opacity=0.8,
    )
    for v in (-0.24, 0.24, 0.0):
        lobe = [
            at(-0.02, v * 0.35 - 0.07),
            at(0.16, v * 0.95 - 0.1),
            at(0.36, v * 1.25),
            at(0.16, v * 0.95 + 0.1),
            at(-0.02, v * 0.35 + 0.07),
        ]
        sheet.shape(lobe, mix(individual.green, "#C9D59A", 0.2), INK, ink * 0.8)


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
