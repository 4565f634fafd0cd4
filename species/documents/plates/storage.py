"""What rests in the ground between two seasons: bulbs, corms, lying tubers and creeping rhizomes, with their roots.

Everything is drawn from the neck at (0, 0) downwards; `resting.rooted` adds the insets.
"""

from math import cos, pi, radians, sin

import numpy as np

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.roots import draw_root, spine_of
from species.documents.plates.svg import Point, Points, Sheet, arch, bow, smooth
from species.documents.plates.tube import Tube
from species.documents.plates.underground import threads
from species.documents.plates.unreliable import stream


def swollen_body(sheet: Sheet, outline: Points, skin: str, ink: float = 1.9) -> None:
    """A rounded body lit from the upper left."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    x, y, reach = min(xs), min(ys), max(max(xs) - min(xs), max(ys) - min(ys))
    wash = sheet.glow(
        (x + 0.34 * (max(xs) - x), y + 0.35 * (max(ys) - y)),
        reach * 0.75,
        [(0, tint(skin, 0, 0.1), 1), (0.55, skin, 1), (1, mix(skin, "#3A2A1C", 0.45), 1)],
    )
    sheet.shape(outline, wash, INK, ink)


def _egg(x: float, top: float, wide: float, tall: float, peak: float) -> list[Point]:
    """An egg standing on its blunt end: `peak` is where it is widest, from the top."""
    right = []
    for k in range(11):
        t = k / 10
        swell = sin(pi / 2 * min(1.0, t / peak)) if t < peak else cos(pi / 2 * (t - peak) / (1 - peak)) ** 0.6
        right.append((x + wide / 2 * swell, top + tall * t))
    return [*right, *((2 * x - px, py) for px, py in reversed(right[1:-1]))]


def draw_bulb(sheet: Sheet, individual: Individual, skin: str) -> Point:
    """A narrow bulb in torn skins, a pale shoot out of its neck, a tuft of roots below; gives its middle."""
    tall, wide = individual.between(330, 400), individual.between(104, 128)
    top = 60.0
    shoot = [(-17.0, top + 40), (-13.0, -individual.between(40, 90)), (2.0, -individual.between(110, 150))]
    sheet.shape([*shoot, (15.0, -40.0), (19.0, top + 40)], "#DDE3B8", INK, 1.6)
    threads(
        sheet, (0.0, top + tall - 12), individual.count(9, 13), individual.between(170, 230), stream(individual), 62
    )
    outline = _egg(0.0, top, wide, tall, 0.66)
    swollen_body(sheet, outline, skin)
    lines = [
        [(f * 12, top + 14), (f * wide * 0.42, top + tall * 0.62), (f * wide * 0.2, top + tall * 0.98)]
        for f in (-0.8, -0.35, 0.2, 0.7)
    ]
    sheet.path(arch(lines), stroke=mix(skin, INK, 0.5), width=1.0, opacity=0.7)
    for side in (-1, 1):
        torn = bow((side * 10.0, top + 30), (side * individual.between(44, 66), top - individual.between(10, 50)), 6, 5)
        sheet.line(torn, mix(skin, "#8A7048", 0.6), 2.0)
    return (0.0, top + tall * 0.66)


def draw_corm(sheet: Sheet, individual: Individual) -> Point:
    """A fat egg in a dark brown skin that runs up into a long neck; roots below; gives its middle."""
    skin = individual.coloured("#6B4A33")
    neck, tall, wide = individual.between(150, 230), individual.between(270, 320), individual.between(230, 270)
    threads(sheet, (0.0, neck + tall - 16), individual.count(8, 11), individual.between(110, 160), stream(individual))
    sheet.shape(
        [(-24.0, -8.0), (-28.0, neck * 0.6), (-44.0, neck + 40), (44.0, neck + 40), (28.0, neck * 0.6), (22.0, -2.0)],
        mix(skin, "#A98A66", 0.3),
        INK,
        1.7,
        soft=False,
    )
    swollen_body(sheet, _egg(0.0, neck, wide, tall, 0.6), skin, 2.1)
    seams = [
        [(f * 22, neck - 20), (f * wide * 0.46, neck + tall * 0.5), (f * wide * 0.2, neck + tall * 0.94)]
        for f in (-0.85, -0.4, 0.15, 0.6, 0.9)
    ]
    sheet.path(arch(seams), stroke=mix(skin, INK, 0.6), width=1.4, opacity=0.8)
    return (0.0, neck + tall * 0.55)


def draw_lying_tuber(sheet: Sheet, individual: Individual) -> Point:
    """A knobbly tuber lying on its side, a white bud at one end, last year's withered part at the other."""
    skin = individual.coloured("#B79B78")
    side = 1 if individual.chance(0.5) else -1
    long, thick = individual.between(300, 350), individual.between(170, 200)
    threads(
        sheet, (side * long * 0.36, 120.0), individual.count(7, 10), individual.between(120, 170), stream(individual)
    )
    old = [(x * -side, y) for x, y in ((long * 0.3, 70.0), (long * 0.66, 104), (long * 0.7, 140), (long * 0.3, 170))]
    sheet.shape(old, mix(skin, "#5A4630", 0.45), INK, 1.5)
    turn = [2 * pi * k / 20 for k in range(20)]
    outline = [
        (cos(a) * long / 2 * (1 + 0.05 * sin(3 * a)), 130 + sin(a) * thick / 2 * (1 + 0.06 * cos(4 * a))) for a in turn
    ]
    swollen_body(sheet, outline, skin)
    rings = [
        [(x - 14, 130 - thick * 0.44), (x + side * 12, 130), (x - 14, 130 + thick * 0.44)] for x in (-60.0, 10.0, 80.0)
    ]
    sheet.path(arch(rings), stroke=mix(skin, INK, 0.5), width=1.3, opacity=0.6)
    x = side * long * 0.36
    bud = [(x - 34, 80.0), (x - 30, 10.0), (x + side * 6, -individual.between(70, 110)), (x + 30, 6.0), (x + 34, 84.0)]
    sheet.shape(bud, "#F1ECD8", INK, 1.8)
    sheet.path(smooth([(x - 6, 70.0), (x - 2, 0.0), (x + side * 5, -60.0)]), stroke=INK, width=1.1, opacity=0.6)
    return (0.0, 130.0)


def draw_rhizome(sheet: Sheet, individual: Individual, skin: str, thick: float, bud: str) -> Point:
    """A long thin rhizome that creeps and forks, with roots at its joints and pointed buds; gives its middle."""
    random = stream(individual)
    side = 1 if individual.chance(0.5) else -1
    reach = individual.between(640, 720)
    start = (-side * reach / 2, individual.between(90, 130))
    spine = spine_of(start, 0 if side > 0 else 180, reach, 0.34, random, 18)
    spine[:, 1] = np.clip(spine[:, 1], 60, 240)
    main = Tube(spine, np.full(len(spine), thick))
    (x, y), _ = main.place(0.55)
    fork = spine_of((x, y), (38 if side > 0 else 142), reach * 0.42, 0.2, random, 10)
    for share in (0.12, 0.3, 0.46, 0.64, 0.82):
        threads(sheet, main.place(share)[0], individual.count(4, 6), individual.between(90, 130), random, 40)
    draw_root(sheet, Tube(fork, np.full(len(fork), thick * 0.85)), skin, random, 10)
    draw_root(sheet, main, skin, random, 20)
    for share in (0.2, 0.38, 0.56, 0.74, 0.9):
        (px, py), heading = main.place(share)
        across = radians(heading + 90)
        ring = [(px + cos(across) * thick * f, py + sin(across) * thick * f) for f in (-0.5, 0.0, 0.5)]
        sheet.line(ring, mix(skin, INK, 0.6), 1.4)
    for end, lean in ((spine[-1], side * 16.0), (spine[9], -side * 10.0)):
        px, py = float(end[0]), float(end[1])
        tall = individual.between(110, 160)
        spike = [(px - thick * 0.6, py), (px - thick * 0.5 + lean * 0.5, py - tall * 0.6), (px + lean, py - tall)]
        sheet.shape([*spike, (px + thick * 0.7, py - tall * 0.4), (px + thick * 0.6, py)], bud, INK, 1.7)
    return main.place(0.42)[0]
