"""What else is in the ground: a thread to one tuber, runners, tufts of threads at rooting joints."""

import numpy as np

from species.documents.plates.compound import TENTHS, line_path, outline_path
from species.documents.plates.individual import INK, Individual
from species.documents.plates.roots import draw_root, pale_skin, spine_of
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import Tube


def thread_tuber(sheet: Sheet, individual: Individual, depth: float, size: float, stem_width: float) -> Point:
    """The stem bends below the ground, thins to a thread, joins one rounded tuber from the side; gives its middle."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    side = 1.0 if individual.chance(0.5) else -1.0
    drift = individual.between(0.15, 0.34) * depth * side
    raw = np.array(
        [
            (0.0, 0.0),
            (0.16 * drift, depth * 0.2),
            (-0.25 * drift, depth * 0.42),
            (0.3 * drift, depth * 0.66),
            (0.62 * drift, depth * 0.86),
            (drift, depth * 0.9),
        ]
    )
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
    return x, y


def _tuber(
    sheet: Sheet, x: float, y: float, size: float, individual: Individual, random: np.random.RandomState
) -> None:
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


def threads(
    sheet: Sheet, at: tuple[float, float], count: int, long: float, random: np.random.RandomState, fan: float = 55.0
) -> None:
    """A tuft of white threads that hangs from one place, as at a rooting joint."""
    lines = np.stack(
        [
            spine_of(
                at, 90 + fan * (2 * (i + 0.5) / count - 1), long * (0.65 + 0.6 * random.random_sample()), 0.5, random, 7
            )
            for i in range(count)
        ]
    )
    sheet.reach([tuple(lines.reshape(-1, 2).min(axis=0).tolist()), tuple(lines.reshape(-1, 2).max(axis=0).tolist())])
    d = line_path(lines)
    sheet.path(d, stroke=INK, width=52, transform=TENTHS)
    sheet.path(d, stroke="#FFFEF8", width=36, transform=TENTHS)


def runner(sheet: Sheet, individual: Individual, reach: float, wide: float) -> None:
    """Creeping runners to both sides with scales and thin roots."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    for side in (-1.0, 1.0):
        spine = spine_of((0.0, 0.0), 90 - side * 64, reach * individual.between(0.75, 1.1), 0.25, random)
        spine[:, 1] = np.minimum(spine[:, 1], 30 + 18 * np.linspace(0, 1, len(spine))) + 2
        run = Tube(spine, np.linspace(wide, wide * 0.7, len(spine)))
        for share in (0.3, 0.55, 0.8):
            threads(sheet, run.place(share)[0], 4, wide * 6, random, 35)
        draw_root(sheet, run, pale_skin(individual), random, 6)
