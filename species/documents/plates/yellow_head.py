"""Heads of yellow straps, and the balls of parachutes that they turn into."""

from math import cos, pi, radians, sin

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.fruits import laid
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Local, Point, Sheet
from species.documents.plates.unreliable import stream

STRAP = np.array(
    [(0.0, 0.2), (0.5, 0.5), (0.94, 0.46), (1.0, 0.2), (0.95, 0.0), (1.0, -0.2), (0.94, -0.46), (0.0, -0.2)]
)


def draw_head(
    sheet: Sheet, individual: Individual, place: Point, lean: float, radius: float, colour: str, bent_bracts: bool
) -> None:
    """An open head seen aslant, on its green cup; `bent_bracts` hang down from the cup."""
    x, y = place
    cup = Local((x, y + radius * 0.42), lean - 90, radius)
    green = mix(individual.green, "#8FA36A", 0.2)
    sheet.shape(
        cup.all([(-0.12, -0.12), (0.1, -0.34), (0.5, -0.4), (0.5, 0.4), (0.1, 0.34), (-0.12, 0.12)]), green, INK, 1.5
    )
    for off in (-0.34, -0.17, 0.0, 0.17, 0.34):
        tip = (-0.34, off * 2.1) if bent_bracts else (0.62, off * 1.15)
        foot = 0.16 if bent_bracts else -0.02
        shape = [(foot, off - 0.08), (foot + (tip[0] - foot) * 0.5, off * 1.5 - 0.07), tip, (foot, off + 0.08)]
        sheet.shape(cup.all(shape), tint(green, 0, 0.05), INK, 1.1)
    random = stream(individual)
    centre = np.array([[x, y]])
    for ring, (count, reach, light) in enumerate(((26, 1.0, -0.04), (20, 0.78, 0.0), (14, 0.52, 0.04))):
        turn = np.arange(count) * 2 * pi / count + random.random_sample() + 0.06 * random.random_sample(count)
        straps = laid(STRAP, np.repeat(centre, count, axis=0), turn, radius * reach, radius * 0.17)
        straps = (straps - centre) * (1, 0.52) + centre - (0, radius * 0.05 * ring)
        sheet.path(outline_path(straps), tint(colour, 0, light), mix(colour, INK, 0.62), 7, transform=TENTHS)
    dots = np.stack(
        [
            x + (random.random_sample(16) - 0.5) * radius * 0.6,
            y - radius * 0.12 + (random.random_sample(16) - 0.5) * radius * 0.3,
        ],
        axis=-1,
    )
    sheet.path(
        line_path(np.stack([dots, dots + (0, -5)], axis=1)),
        stroke=mix(colour, "#8A5A10", 0.5),
        width=16,
        transform=TENTHS,
    )
    reach = radius * 1.02
    sheet.reach([(x - reach, y - reach * 0.6), (x + reach, y + reach * 0.6)])


def draw_clock(sheet: Sheet, individual: Individual, place: Point, radius: float, tint_of: str) -> None:
    """A ball of parachutes: nutlets on a bald knob, stalks, and rayed tufts."""
    random = stream(individual)
    x, y = place
    count = 46
    i = np.arange(count) + 0.5
    out = np.sqrt(i / count) * radius
    turn = np.radians(137.508) * np.arange(count) + random.random_sample() * 6.28
    ends = np.stack([x + np.cos(turn) * out, y + np.sin(turn) * out], axis=-1)
    sheet.disc(x, y, radius * 1.16, "#FBFAF2", opacity=0.55)
    feet = np.array([x, y]) + (ends - (x, y)) * 0.24
    sheet.path(line_path(np.stack([feet, ends], axis=1)), stroke="#8E8873", width=7, opacity=0.8, transform=TENTHS)
    rays = np.arange(9) * 2 * pi / 9
    tuft = np.stack([np.cos(rays), np.sin(rays)], axis=-1) * radius * 0.2
    pairs = np.stack([np.repeat(ends, 9, axis=0), (ends[:, None, :] + tuft).reshape(-1, 2)], axis=1)
    sheet.path(line_path(pairs), stroke=mix("#6E6A5C", tint_of, 0.3), width=6, opacity=0.9, transform=TENTHS)
    seeds = np.stack([feet, np.array([x, y]) + (ends - (x, y)) * 0.42], axis=1)
    sheet.path(line_path(seeds), stroke="#6B5433", width=26, transform=TENTHS)
    sheet.disc(x, y, radius * 0.13, "#C9C08E", INK, 1.2)
    sheet.reach([(x - radius * 1.2, y - radius * 1.2), (x + radius * 1.2, y + radius * 1.2)])


def section_of_stalk(inset: Sheet, colour: str, x: float, y: float, radius: float, hollow: bool) -> None:
    """A stalk cut across: a thin-walled tube, or solid and wiry."""
    inset.disc(x, y, radius, mix(colour, "#E9EED0", 0.4), INK, 3.0)
    if hollow:
        inset.disc(x, y, radius * 0.74, "#FBF7EC", INK, 1.8)
        inset.oval(x + radius * 0.2, y + radius * 0.24, radius * 0.44, radius * 0.36, 40, "#8E9277", opacity=0.35)
        return
    inset.disc(x, y, radius * 0.6, "#EFF0D8", "#A9B088", 1.4)
    for k in range(10):
        a = radians(36 * k)
        inset.disc(x + cos(a) * radius * 0.78, y + sin(a) * radius * 0.78, radius * 0.07, "#7C9A5A")


def milk(inset: Sheet, places: Numbers, size: float) -> None:
    """White drops where something was broken."""
    for x, y in places.tolist():
        inset.oval(x, y, size, size * 1.2, 0, "#FDFDFA", INK, 1.4)
        inset.disc(x - size * 0.3, y - size * 0.35, size * 0.22, "#FFFFFF")
