"""What is in the ground: one taproot, fingers from one crown, a thread to a tuber, runners.

Everything is drawn from the crown at (0, 0) downwards. The skin of the pale roots has one distribution of colour
for every species, since nobody should go by it.
"""

from collections.abc import Callable

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import Tube

YELLOW = "#D9A420"


def pale_skin(individual: Individual) -> str:
    """The skin of a pale root; the same range for carrot, parsnip, hemlock and water-dropwort."""
    return individual.coloured(mix("#EADFC4", "#CDB48A", individual.between(0.05, 0.7)))


def _spine(start: tuple[float, float], heading: float, length: float, wander: float, random: np.random.RandomState,
           steps: int = 14) -> Numbers:
    """A wandering line; the heading in degrees, 90 is straight down."""
    turn = np.radians(heading) + np.cumsum((random.random_sample(steps) - 0.5) * wander)
    step = length / steps
    x = start[0] + np.concatenate([[0.0], np.cumsum(np.cos(turn) * step)])
    y = start[1] + np.concatenate([[0.0], np.cumsum(np.sin(turn) * step)])
    return np.stack([x, y], axis=-1)


def draw_root(sheet: Sheet, root: Tube, skin: str, random: np.random.RandomState, rings: int = 14) -> None:
    """The skin of a root: wash, shadow, short cross wrinkles, rootlets' scars."""
    outline = root.outline()
    sheet.reach([tuple(outline.min(axis=0).tolist()), tuple(outline.max(axis=0).tolist())])
    sheet.path(outline_path(outline[None]), skin, INK, 15, transform=TENTHS)
    shadow = np.concatenate([root.side(0.2), root.side(1)[::-1]])
    sheet.path(outline_path(shadow[None]), "#8A7048", opacity=0.26, transform=TENTHS)
    light = np.concatenate([root.side(-0.75), root.side(-0.35)[::-1]])
    sheet.path(outline_path(light[None]), "#FFFBEA", opacity=0.55, transform=TENTHS)
    wrinkles = []
    for share, side, reach in zip(random.random_sample(rings) * 0.85, random.random_sample(rings) * 1.6 - 0.8,
                                  random.random_sample(rings), strict=True):
        (x, y), heading = root.place(float(share))
        half = root.wide_at(float(share)) / 2
        across = np.radians(heading + 90)
        a, b = (side - 0.22 - 0.2 * reach) * half, (side + 0.2 * reach) * half
        wrinkles.append([(x + np.cos(across) * a, y + np.sin(across) * a),
                         (x + np.cos(across) * (a + b) / 2, y + np.sin(across) * (a + b) / 2 + 1.5),
                         (x + np.cos(across) * b, y + np.sin(across) * b)])
    sheet.path(line_path(np.array(wrinkles)), stroke="#6B5433", width=9, opacity=0.8, transform=TENTHS)


def _rootlets(sheet: Sheet, root: Tube, count: int, long: float, random: np.random.RandomState) -> None:
    lines = []
    for share, side in zip(0.12 + 0.8 * random.random_sample(count), random.random_sample(count), strict=True):
        (x, y), heading = root.place(float(share))
        turn = heading + (-1 if side < 0.5 else 1) * (25 + 40 * random.random_sample())
        lines.append(_spine((x, y), turn, long * (0.4 + 0.8 * random.random_sample()), 0.6, random, 6))
    d = line_path(np.stack(lines))
    sheet.path(d, stroke=INK, width=20, opacity=0.8, transform=TENTHS)
    sheet.path(d, stroke="#E4D8BA", width=9, transform=TENTHS)


def taproot(sheet: Sheet, individual: Individual, long: float, wide: float, forked: bool = False) -> None:
    """One cone that narrows downwards, with shoulders and a few thin side roots."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    skin = pale_skin(individual)
    spine = _spine((0.0, -4.0), 90 + individual.between(-6, 6), long, 0.16, random)
    t = np.linspace(0, 1, len(spine))
    width = wide * (0.72 + 0.28 * np.clip(t / 0.09, 0, 1)) * (1 - t) ** 0.85 + 2.2
    root = Tube(spine, width)
    _rootlets(sheet, root, 9, long * 0.22, random)
    if forked:
        (x, y), heading = root.place(0.38)
        side = _spine((x, y), heading + individual.between(18, 28) * (1 if individual.chance(0.5) else -1),
                      long * 0.42, 0.16, random)
        draw_root(sheet, Tube(side, root.wide_at(0.38) * 0.6 * (1 - np.linspace(0, 1, len(side))) ** 0.8 + 2), skin,
                  random, 6)
    draw_root(sheet, root, skin, random, 24)


def finger_cluster(sheet: Sheet, individual: Individual, long: float, wide: float, count: int, drops: bool) -> None:
    """Spindles spread like fingers from one crown, some cut or scraped so that yellow drops stand on them."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    skin = pale_skin(individual)
    order = np.argsort(-np.abs(np.linspace(-1, 1, count)))
    headings = 90 + np.linspace(-46, 46, count)
    for i in order.tolist():
        reach = long * (0.72 + 0.5 * random.random_sample()) * (1.05 - 0.25 * abs(headings[i] - 90) / 46)
        start = ((i - (count - 1) / 2) * wide * 0.28, -2.0 + 4 * random.random_sample())
        spine = _spine(start, float(headings[i]) + 6 * (random.random_sample() - 0.5), reach, 0.18, random)
        spine[:, 1] += np.linspace(0, 1, len(spine)) ** 2 * abs(headings[i] - 90) * 0.6
        t = np.linspace(0, 1, len(spine))
        belly = np.sin(np.pi * np.clip(0.14 + 0.86 * t, 0, 1) ** 0.85) ** 0.8
        root = Tube(spine, wide * (0.85 + 0.35 * random.random_sample()) * belly * (1 - 0.25 * t) + 2.4)
        _rootlets(sheet, root, 3, long * 0.16, random)
        draw_root(sheet, root, skin, random, 9)
        if drops and i % 2 == 0:
            _drops(sheet, root, random)


def _drops(sheet: Sheet, root: Tube, random: np.random.RandomState) -> None:
    """A scraped place, white, with yellow drops on it."""
    (x, y), heading = root.place(0.3 + 0.25 * random.random_sample())
    half = root.wide_at(0.4) / 2
    sheet.oval(x, y, half * 1.1, half * 0.62, heading, "#FBF8EE", "#7A6540", 1.2)
    for off in (-0.5, 0.05, 0.5):
        sheet.disc(x + off * half * 1.2, y + half * 0.3 * (random.random_sample() - 0.5), half * 0.26, YELLOW,
                   "#8A6414", 0.9)


def thread_tuber(sheet: Sheet, individual: Individual, depth: float, size: float, stem_width: float) -> None:
    """The stem bends below the ground, thins to a thread, and joins one rounded tuber from the side."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    side = 1.0 if individual.chance(0.5) else -1.0
    drift = individual.between(0.15, 0.34) * depth * side
    raw = np.array([(0.0, 0.0), (0.16 * drift, depth * 0.2), (-0.25 * drift, depth * 0.42),
                    (0.3 * drift, depth * 0.66), (0.62 * drift, depth * 0.86), (drift, depth * 0.9)])
    index = np.linspace(0, len(raw) - 1, 22)
    spine = np.stack([np.interp(index, range(len(raw)), raw[:, i]) for i in (0, 1)], axis=-1)
    spine[1:-1] = (spine[:-2] + spine[1:-1] * 2 + spine[2:]) / 4
    t = np.linspace(0, 1, len(spine))
    thread = Tube(spine, np.maximum(4.2, stem_width * (1 - t * 1.6)))
    x, y = drift + side * size * 0.42, depth * 0.9 + size * 0.12
    _tuber(sheet, x, y, size, individual, random)
    outline = thread.outline()
    sheet.path(outline_path(outline[None]), "#EFE6CC", INK, 14, transform=TENTHS)
    sheet.reach([tuple(outline.min(axis=0).tolist()), tuple(outline.max(axis=0).tolist())])


def _tuber(sheet: Sheet, x: float, y: float, size: float, individual: Individual,
           random: np.random.RandomState) -> None:
    turn = np.linspace(0, 2 * np.pi, 25)[:-1]
    knobs = 1 + 0.05 * np.sin(3 * turn + individual.between(0, 6)) + 0.04 * np.sin(5 * turn + individual.between(0, 6))
    shape = np.stack([x + np.cos(turn) * size / 2 * knobs * 1.08, y + np.sin(turn) * size / 2 * knobs * 0.94], axis=-1)
    sheet.shape([tuple(p) for p in shape.tolist()], individual.coloured("#7A5636"), INK, 1.8)
    sheet.oval(x - size * 0.13, y - size * 0.15, size * 0.24, size * 0.15, -25, "#B08A5E", opacity=0.7)
    sheet.oval(x + size * 0.14, y + size * 0.16, size * 0.27, size * 0.2, -20, "#4E351F", opacity=0.45)
    flakes = []
    for angle, out in zip(random.random_sample(12) * 6.28, random.random_sample(12) ** 0.5, strict=True):
        px, py = x + np.cos(angle) * size * 0.4 * out, y + np.sin(angle) * size * 0.36 * out
        flakes.append([(px - 4, py + 1), (px, py - 1), (px + 4, py + 1.5)])
    sheet.path(line_path(np.array(flakes)), stroke="#3A2817", width=10, opacity=0.8, transform=TENTHS)


def threads(sheet: Sheet, at: tuple[float, float], count: int, long: float, random: np.random.RandomState,
            fan: float = 55.0) -> None:
    """A tuft of white threads that hangs from one place, as at a rooting joint."""
    lines = np.stack([_spine(at, 90 + fan * (2 * (i + 0.5) / count - 1), long * (0.65 + 0.6 * random.random_sample()),
                             0.5, random, 7) for i in range(count)])
    sheet.reach([tuple(lines.reshape(-1, 2).min(axis=0).tolist()), tuple(lines.reshape(-1, 2).max(axis=0).tolist())])
    d = line_path(lines)
    sheet.path(d, stroke=INK, width=42, transform=TENTHS)
    sheet.path(d, stroke="#FDFBF2", width=25, transform=TENTHS)


def runner(sheet: Sheet, individual: Individual, reach: float, wide: float) -> None:
    """Creeping runners to both sides with scales and thin roots."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    for side in (-1.0, 1.0):
        spine = _spine((0.0, 0.0), 90 - side * 64, reach * individual.between(0.75, 1.1), 0.25, random)
        spine[:, 1] = np.minimum(spine[:, 1], 30 + 18 * np.linspace(0, 1, len(spine))) + 2
        run = Tube(spine, np.linspace(wide, wide * 0.7, len(spine)))
        for share in (0.3, 0.55, 0.8):
            threads(sheet, run.place(share)[0], 4, wide * 6, random, 35)
        draw_root(sheet, run, pale_skin(individual), random, 6)


RootDrawer = Callable[[Sheet, Individual], None]


def root_section(sheet: Sheet, individual: Individual, fingers: bool, core: bool, drops: bool) -> None:
    """A root cut across: white; with a core ring, and with yellow drops where they showed."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    places = [(-34.0, -22.0, 40.0), (42.0, -30.0, 36.0), (4.0, 48.0, 38.0)] if fingers else [(0.0, 0.0, 74.0)]
    for x, y, radius in places:
        turn = np.linspace(0, 2 * np.pi, 40, endpoint=False)
        edge = radius * (1 + 0.03 * np.sin(3 * turn + x) + 0.02 * np.sin(5 * turn))
        ring = np.stack([np.cos(turn), np.sin(turn)], axis=-1) * edge[:, None]
        sheet.path(outline_path((ring + (x, y))[None]), pale_skin(individual), INK, 22, transform=TENTHS)
        sheet.path(outline_path((ring * 0.9 + (x, y))[None]), "#FCF9EF", "#B9A77C", 9, transform=TENTHS)
        if core:
            sheet.path(outline_path((ring * 0.46 + (x, y))[None]), "#F6EFD6", "#8A7448", 15, transform=TENTHS)
        spokes = np.stack([np.stack([ring[::4] * s + (x, y) for s in (0.56, 0.82)], axis=1)])[0]
        sheet.path(line_path(spokes), stroke="#CDBD92", width=9, transform=TENTHS)
        if drops:
            for angle, out in zip(random.random_sample(5) * 6.28, 0.3 + 0.45 * random.random_sample(5), strict=True):
                sheet.disc(x + np.cos(angle) * radius * out, y + np.sin(angle) * radius * out, radius * 0.11, YELLOW,
                           "#8A6414", 1.2)
