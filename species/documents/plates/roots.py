"""Pale roots: one taproot, or fingers from one crown.

Everything is drawn from the crown at (0, 0) downwards. The skin of the pale roots has one distribution of colour
for every species, since nobody should go by it.
"""

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import Tube

YELLOW = "#D9A420"


def pale_skin(individual: Individual) -> str:
    """The skin of a pale root; the same range for carrot, parsnip, hemlock and water-dropwort."""
    return individual.coloured(mix("#EADFC4", "#CDB48A", individual.between(0.05, 0.7)))


def spine_of(
    start: tuple[float, float],
    heading: float,
    length: float,
    wander: float,
    random: np.random.RandomState,
    steps: int = 14,
) -> Numbers:
    """A wandering line; the heading in degrees, 90 is straight down."""
    turn = np.radians(heading) + np.cumsum((random.random_sample(steps) - 0.5) * wander)
    step = length / steps
    x = start[0] + np.concatenate([[0.0], np.cumsum(np.cos(turn) * step)])
    y = start[1] + np.concatenate([[0.0], np.cumsum(np.sin(turn) * step)])
    return np.stack([x, y], axis=-1)


def _paleness(skin: str) -> float:
    """0.15 to 1: a dark skin shows less of the light on it."""
    bright = sum(int(skin[i : i + 2], 16) for i in (1, 3, 5)) / 765
    return max(0.15, min(1.0, 1.8 * bright - 0.45))


def draw_root(sheet: Sheet, root: Tube, skin: str, random: np.random.RandomState, rings: int = 14) -> None:
    """The skin of a root: wash, shadow, short cross wrinkles, rootlets' scars."""
    outline = root.outline()
    sheet.reach([tuple(outline.min(axis=0).tolist()), tuple(outline.max(axis=0).tolist())])
    sheet.path(outline_path(outline[None]), skin, INK, 15, transform=TENTHS)
    shadow = np.concatenate([root.side(0.2), root.side(1)[::-1]])
    sheet.path(outline_path(shadow[None]), "#8A7048", opacity=0.26, transform=TENTHS)
    light = np.concatenate([root.side(-0.75), root.side(-0.35)[::-1]])
    sheet.path(outline_path(light[None]), "#FFFBEA", opacity=0.55 * _paleness(skin), transform=TENTHS)
    wrinkles = []
    for share, side, reach in zip(
        random.random_sample(rings) * 0.85,
        random.random_sample(rings) * 1.6 - 0.8,
        random.random_sample(rings),
        strict=True,
    ):
        (x, y), heading = root.place(float(share))
        half = root.wide_at(float(share)) / 2
        across = np.radians(heading + 90)
        a, b = (side - 0.22 - 0.2 * reach) * half, (side + 0.2 * reach) * half
        wrinkles.append(
            [
                (x + np.cos(across) * a, y + np.sin(across) * a),
                (x + np.cos(across) * (a + b) / 2, y + np.sin(across) * (a + b) / 2 + 1.5),
                (x + np.cos(across) * b, y + np.sin(across) * b),
            ]
        )
    sheet.path(line_path(np.array(wrinkles)), stroke="#6B5433", width=9, opacity=0.8, transform=TENTHS)


def _rootlets(sheet: Sheet, root: Tube, count: int, long: float, random: np.random.RandomState) -> None:
    lines = []
    for share, side in zip(0.12 + 0.8 * random.random_sample(count), random.random_sample(count), strict=True):
        (x, y), heading = root.place(float(share))
        turn = heading + (-1 if side < 0.5 else 1) * (25 + 40 * random.random_sample())
        lines.append(spine_of((x, y), turn, long * (0.4 + 0.8 * random.random_sample()), 0.6, random, 6))
    d = line_path(np.stack(lines))
    sheet.path(d, stroke=INK, width=20, opacity=0.8, transform=TENTHS)
    sheet.path(d, stroke="#E4D8BA", width=9, transform=TENTHS)


def taproot(
    sheet: Sheet, individual: Individual, long: float, wide: float, forked: bool = False, skin: str = ""
) -> None:
    """One cone that narrows downwards, with shoulders and a few thin side roots."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    skin = skin or pale_skin(individual)
    spine = spine_of((0.0, -6.0), 90 + individual.between(-6, 6), long, 0.1, random, 26)
    t = np.linspace(0, 1, len(spine))
    width = wide * np.clip(np.sqrt(np.clip((t + 0.012) / 0.1, 0, 1)), 0.4, 1) * (1 - t) ** 0.85 + 2.2
    root = Tube(spine, width)
    _rootlets(sheet, root, 9, long * 0.22, random)
    if forked:
        (x, y), heading = root.place(0.38)
        side = spine_of(
            (x, y),
            heading + individual.between(18, 28) * (1 if individual.chance(0.5) else -1),
            long * 0.42,
            0.16,
            random,
        )
        draw_root(
            sheet, Tube(side, root.wide_at(0.38) * 0.6 * (1 - np.linspace(0, 1, len(side))) ** 0.8 + 2), skin, random, 6
        )
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
        spine = spine_of(start, float(headings[i]) + 6 * (random.random_sample() - 0.5), reach, 0.1, random, 26)
        spine[:, 1] += np.linspace(0, 1, len(spine)) ** 2 * abs(headings[i] - 90) * 0.6
        t = np.linspace(0, 1, len(spine))
        belly = np.sin(np.pi * (0.035 + 0.965 * t) ** 0.72) ** 0.85
        root = Tube(spine, wide * (0.9 + 0.4 * random.random_sample()) * belly + 2.4)
        _rootlets(sheet, root, 3, long * 0.16, random)
        draw_root(sheet, root, skin, random, 9)
        if drops and i % 2 == 0:
            _drops(sheet, root, random)
    _knob(sheet, skin, wide)


def _knob(sheet: Sheet, skin: str, wide: float) -> None:
    """The crown that all the fingers hang from."""
    turn = np.linspace(0, 2 * np.pi, 17)[:-1]
    rough = 1 + 0.07 * np.sin(5 * turn)
    shape = np.stack([np.cos(turn) * wide * 0.66, 8 + np.sin(turn) * wide * 0.36], axis=-1) * rough[:, None]
    sheet.shape([(float(x), float(y)) for x, y in shape], mix(skin, "#8A7048", 0.14), INK, 1.4)
    sheet.oval(-wide * 0.15, -wide * 0.08, wide * 0.4, wide * 0.13, 0, "#FFFBEA", opacity=0.45)


def _drops(sheet: Sheet, root: Tube, random: np.random.RandomState) -> None:
    """A scraped place, white, on which yellow drops have gathered; one has begun to run."""
    share = 0.3 + 0.25 * float(random.random_sample())
    (x, y), heading = root.place(share)
    half = root.wide_at(share) / 2
    sheet.oval(x, y, half * 1.35, half * 0.55, heading, "#FBF8EE", "#7A6540", 1.1)
    along, across = np.radians(heading), np.radians(heading + 90)
    for far, off, size in (
        (-0.8, 0.1, 0.15),
        (-0.35, -0.2, 0.2),
        (0.1, 0.15, 0.24),
        (0.55, -0.1, 0.18),
        (0.9, 0.12, 0.13),
    ):
        px = x + float(np.cos(along) * far + np.cos(across) * off) * half
        py = y + float(np.sin(along) * far + np.sin(across) * off) * half
        sheet.oval(px, py, half * size * 1.25, half * size, heading, YELLOW, "#8A6414", 0.8)
        sheet.disc(px - half * size * 0.3, py - half * size * 0.3, half * size * 0.25, "#F6E2A0")
