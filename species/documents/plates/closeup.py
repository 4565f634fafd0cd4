"""What the lens and the section insets of a plant with hollow or solid stalks show.

Both are drawn in a circle of radius 100 about (0, 0); the lens enlarges a leaf stalk and, where there is one, the
stem it stands on.
"""

from dataclasses import dataclass, replace

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import FLUSH, StemLook, Tube, draw_tube


@dataclass(frozen=True)
class StalkLook:
    """The leaf stalk: its tube look (hairs by the states of the leaf) and the shape of its section.

    `groove`: round, grooved or triangular.
    """

    look: StemLook
    groove: str


# strokes per side and length and width of hairs in the lens
LENS_HAIRS = {"sparse": (9, 20.0, 2.0), "downy": (44, 17.0, 1.5), "bristly": (17, 34.0, 3.0)}


def hair_lens(
    sheet: Sheet, individual: Individual, stem: StemLook | None, stalk: StalkLook, slender: float = 1.0
) -> None:
    """A leaf stalk much enlarged, alone (rosette) or springing from the stem; hairs, or a clean double line."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    if stem is None:
        _piece(
            sheet, np.array([(-30.0, 125.0), (-8, 40), (4, -40), (34, -125)]), 66, 60, stalk.look, random, stalk.groove
        )
        return
    thin = 0.5 + 0.5 * min(1.0, slender)
    _piece(sheet, np.array([(-26.0, 60.0), (10, 18), (52, -40), (98, -112)]), 40, 36, stalk.look, random, stalk.groove)
    _piece(sheet, np.array([(-42.0, 125.0), (-38, 40), (-36, -40), (-30, -125)]), 74 * thin, 70 * thin, stem, random)


def _piece(
    sheet: Sheet,
    spine: Numbers,
    wide: float,
    narrow: float,
    look: StemLook,
    random: np.random.RandomState,
    groove: str = "round",
) -> None:
    # The four points are the handles of one soft curve (cubic Bézier).
    t = np.linspace(0, 1, 16)[:, None]
    a, b, c, d = spine
    centre = a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t * t * (1 - t) + d * t**3
    piece = Tube(centre, np.linspace(wide, narrow, 16))
    draw_tube(sheet, piece, replace(look, hairs="hairless", flush=look.flush * 0.9), random, 0.0, 0.08)
    if groove == "triangular":
        face = np.concatenate([piece.side(0.18), piece.side(1)[::-1]])
        sheet.path(outline_path(face[None]), "#1E2A24", opacity=0.3, transform=TENTHS)
        sheet.path(line_path(piece.side(0.18)[None]), stroke=INK, width=18, transform=TENTHS)
    if groove == "grooved":
        channel = np.concatenate([piece.side(-0.34), piece.side(0.3)[::-1]])
        sheet.path(outline_path(channel[None]), "#1E2A24", opacity=0.34, transform=TENTHS)
        sheet.path(line_path(np.stack([piece.side(-0.34), piece.side(0.3)])), stroke=INK, width=14, transform=TENTHS)
    if look.hairs == "hairless":
        return
    per, long, line = LENS_HAIRS[look.hairs]
    shares = (np.arange(per) + random.random_sample(per)) / per
    both = np.tile(shares, 2)
    base, outward = piece.on_edge(both, np.repeat([-1.0, 1.0], per))
    _strokes(sheet, base, outward, long, line, look.hairs, random)
    face = random.random_sample((per, 2)) * 1.5 - 0.75
    inner, side = piece.on_edge(shares, np.sign(face[:, 0]))
    inner = inner - side * (wide * (0.12 + 0.34 * np.abs(face[:, 1])))[:, None]
    _strokes(sheet, inner, side * 0.5 + (0, 0.35), long * 0.8, line * 0.8, look.hairs, random)


def _strokes(
    sheet: Sheet, base: Numbers, outward: Numbers, long: float, line: float, hairs: str, random: np.random.RandomState
) -> None:
    """Curved hairs; bristles are straight and stand on a small bulb."""
    count = len(base)
    reach = (long * (0.65 + 0.5 * random.random_sample(count)))[:, None]
    lean = (random.random_sample((count, 2)) - 0.5) * (0.5 if hairs == "bristly" else 0.9)
    tip = base + (outward + lean) * reach
    middle = (base + tip) / 2 + (0.0, 0.0 if hairs == "bristly" else 3.0)
    d = line_path(np.stack([base, middle, tip], axis=1))
    sheet.path(d, stroke="#FBF7EC", width=10 * (line + 2.2), opacity=0.6, transform=TENTHS)
    sheet.path(d, stroke=INK, width=10 * line, transform=TENTHS)
    if hairs == "bristly":
        around = np.linspace(0, 2 * np.pi, 9)[:-1]
        bulb = np.stack([np.cos(around), np.sin(around)], axis=-1) * 4.2
        sheet.path(outline_path(base[:, None, :] + bulb), "#D9D8B0", INK, 10, transform=TENTHS)


def section_inset(sheet: Sheet, individual: Individual, stem: StemLook | None, stalk: StalkLook) -> None:
    """Cut across: the leaf stalk alone, or the stem large with the leaf stalk small beside it."""
    if stem is None:
        _stalk_section(sheet, stalk, 0, 4, 62, individual)
        return
    _stem_section(sheet, stem, -21, -17, 58)
    _stalk_section(sheet, stalk, 50, 49, 26, individual)


def _ring(x: float, y: float, radius: float, waves: int, depth: float, steps: int = 96) -> Numbers:
    turn = np.linspace(0, 2 * np.pi, steps, endpoint=False)
    edge = radius * (1 + depth * np.cos(waves * turn))
    return np.stack([x + edge * np.cos(turn), y + edge * np.sin(turn)], axis=-1)


def _stem_section(sheet: Sheet, look: StemLook, x: float, y: float, radius: float) -> None:
    ridged = look.section == "ridged"
    outer = _ring(x, y, radius, look.ridges, 0.06 if ridged else 0.0)
    rind = mix(look.colour, FLUSH, 0.7 * look.flush)
    sheet.path(outline_path(outer[None]), mix(rind, "#F4F1DC", 0.15), INK, 26, transform=TENTHS)
    sheet.path(
        outline_path(_ring(x, y, radius * 0.88, look.ridges, 0.03 if ridged else 0)[None]), "#DDE5BE", transform=TENTHS
    )
    _bundles(sheet, x, y, radius * 0.79, look.ridges if ridged else 16, radius * 0.05)
    if look.inside == "hollow":
        sheet.path(outline_path(_ring(x, y, radius * 0.65, 7, 0.012)[None]), "#FBF7EC", INK, 18, transform=TENTHS)
        shadow = np.concatenate(
            [_ring(x, y, radius * 0.65, 0, 0)[40:88], _ring(x + 5, y + 6, radius * 0.6, 0, 0)[40:88][::-1]]
        )
        sheet.path(outline_path(shadow[None]), "#8E9277", opacity=0.5, transform=TENTHS)
    else:
        sheet.path(outline_path(_ring(x, y, radius * 0.66, 0, 0)[None]), "#EFF0D8", "#A9B088", 10, transform=TENTHS)
        cells = [
            _ring(x + radius * 0.5 * r * np.cos(t), y + radius * 0.5 * r * np.sin(t), radius * 0.05, 0, 0, 8)
            for r, t in zip(np.sqrt((np.arange(30) + 0.5) / 30) * 1.1, np.arange(30) * 2.4, strict=True)
        ]
        sheet.path(outline_path(np.stack(cells)), "none", "#B4BA98", 8, transform=TENTHS)


def _bundles(sheet: Sheet, x: float, y: float, radius: float, count: int, size: float) -> None:
    turns = np.arange(count) * 2 * np.pi / count
    dots = np.stack([_ring(x + radius * np.cos(t), y + radius * np.sin(t), size, 0, 0, 8) for t in turns.tolist()])
    sheet.path(outline_path(dots), "#7C9A5A", transform=TENTHS)


def _three_cornered(turn: Numbers) -> Numbers:
    """A triangle of blunt corners, one down, with a shallow groove in the side that looks up."""
    off = (turn - np.pi / 2 + np.pi / 3) % (2 * np.pi / 3) - np.pi / 3
    edge = 0.64 / np.cos(np.abs(np.abs(off) - np.pi / 3)) ** 0.85
    above = np.abs((turn + np.pi / 2 + np.pi) % (2 * np.pi) - np.pi)
    edge = edge - 0.17 * np.exp(-((above / 0.3) ** 2))
    return np.stack([np.cos(turn), np.sin(turn)], axis=-1) * (edge * 1.12)[:, None]


def _stalk_section(sheet: Sheet, stalk: StalkLook, x: float, y: float, radius: float, individual: Individual) -> None:
    """Leaf stalk with its upper side up: round, or with a deep groove above."""
    turn = np.linspace(-np.pi / 2, 1.5 * np.pi, 96, endpoint=False)
    edge = np.full(96, radius)
    if stalk.look.section == "ridged":
        edge = edge * (1 + 0.035 * np.cos(9 * (turn + np.pi / 2)))
    shape = np.stack([np.cos(turn), np.sin(turn) * 0.94], axis=-1) * edge[:, None]
    if stalk.groove == "triangular":
        shape = _three_cornered(turn) * radius
    if stalk.groove == "grooved":
        off = np.abs((turn + np.pi / 2 + np.pi) % (2 * np.pi) - np.pi)
        notch = np.exp(-((off / 0.34) ** 2))
        shape[:, 1] += notch * radius * 0.72
        shape[:, 0] *= 1 + 0.12 * np.exp(-(((off - 0.75) / 0.3) ** 2))
    rind = mix(stalk.look.colour, FLUSH, 0.7 * stalk.look.flush)
    sheet.path(outline_path((shape + (x, y))[None]), mix(rind, "#F4F1DC", 0.15), INK, 24, transform=TENTHS)
    sheet.path(outline_path((shape * 0.86 + (x, y + radius * 0.06))[None]), "#E1E8C4", transform=TENTHS)
    places = np.linspace(-0.15, np.pi + 0.15, 7).tolist()
    dots = np.stack(
        [
            _ring(x + radius * 0.62 * np.cos(t), y + radius * (0.1 + 0.56 * np.sin(t)), radius * 0.08, 0, 0, 8)
            for t in places
        ]
    )
    sheet.path(outline_path(dots), "#7C9A5A", transform=TENTHS)
    # Whether a leaf stalk is hollow is no character of anybody: by chance, for all alike.
    if individual.chance(0.5):
        sheet.path(
            outline_path(_ring(x, y + radius * 0.3, radius * 0.26, 0, 0, 24)[None]),
            "#FBF7EC",
            INK,
            12,
            transform=TENTHS,
        )
