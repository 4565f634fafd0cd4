"""Fruits of the carrot family: outlines by state id, small on the plant and large in the lens."""

from collections.abc import Callable

import numpy as np

from species.documents.plates.bracts import draw_small_bracteoles
from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel import small_umbel
from species.documents.plates.umbel_look import UmbelLook, View

SHOWN_FRUITS = 7

# Length of a ripe fruit as a share of the umbel radius, and width as a share of its length. Lengths keep the
# order of nature (cow parsley longest, carrot and hemlock smallest) but are drawn larger than life.
SIZES = {
    "long_smooth_beaked": (0.21, 0.24),
    "round_wavy_ridges": (0.115, 0.95),
    "spiny": (0.13, 0.6),
    "round_black": (0.17, 1.1),
    "cylinder_styles": (0.165, 0.5),
    "egg_ridged": (0.12, 0.75),
    "flat_winged": (0.18, 0.8),
    "oval_slender": (0.14, 0.38),
}


def silhouette(fruit: str, steps: int = 9) -> Numbers:
    """Outline from the stalk (0, 0) along +x to (1, 0), half widths up to 0.5."""
    t = np.linspace(0, 1, steps)
    if fruit == "long_smooth_beaked":
        half = 0.5 * np.clip(np.sin(np.pi * np.clip(t * 1.12, 0, 1)) ** 0.7, 0, 1) * (1 - 0.25 * t) + 0.07
        half[-1] = 0.02
    elif fruit == "cylinder_styles":
        half = 0.5 * np.clip(np.minimum(t, 1 - t) * 9, 0, 1) ** 0.5 * (0.92 + 0.08 * t)
    elif fruit == "oval_slender":
        half = 0.5 * np.sin(np.pi * t) ** 0.8 * (1.15 - 0.4 * t)
    else:
        half = 0.5 * np.sqrt(np.clip(1 - (2 * t - 1) ** 2, 0, 1))
    return np.concatenate([np.stack([t, half], axis=-1), np.stack([t, -half], axis=-1)[::-1][1:-1]])


def laid(shape: Numbers, at: Numbers, turn: Numbers, long: float, wide: float) -> Numbers:
    """A shape of unit frame put at many places: (places, points, 2)."""
    u, v = shape[None, :, 0] * long, shape[None, :, 1] * wide
    cos, sin = np.cos(turn)[:, None], np.sin(turn)[:, None]
    return np.stack([at[:, None, 0] + u * cos - v * sin, at[:, None, 1] + u * sin + v * cos], axis=-1)


def fruit_heads(
    sheet: Sheet,
    look: UmbelLook,
    tips: Numbers,
    directions: Numbers,
    view: View,
    radius: float,
    random: np.random.RandomState,
) -> None:
    """Small umbels in fruit at the ends of some rays."""
    small = radius * 0.22
    shown = SHOWN_FRUITS if look.rays < 15 else SHOWN_FRUITS - 2
    pieces = [
        small_umbel(look, tip, direction, view, small, random, shown)[0]
        for tip, direction in zip(tips, directions, strict=True)
    ]
    ends, feet = np.concatenate(pieces), np.repeat(tips, [len(piece) for piece in pieces], axis=0)
    away = ends - feet
    turn = np.arctan2(away[:, 1], away[:, 0])
    if look.fruit in ("long_smooth_beaked", "cylinder_styles", "oval_slender"):
        turn = turn * 0.75 + np.radians(view.heading) * 0.25
    sheet.path(line_path(np.stack([feet, ends], axis=1)), stroke=mix(look.stalk, INK, 0.4), width=12, transform=TENTHS)
    draw_small_bracteoles(sheet, look, tips, directions, radius * 0.32, random)
    long, slim = SIZES[look.fruit]
    DRESS[look.fruit](sheet, look, ends, turn, radius * long, radius * long * slim, 1.0)
    reach = small + radius * long
    sheet.reach([tuple((tips.min(axis=0) - reach).tolist()), tuple((tips.max(axis=0) + reach * 0.5).tolist())])


def _body(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    d = outline_path(laid(silhouette(look.fruit, 6 if pen <= 1 else 12), ends, turn, long, wide))
    sheet.path(d, look.fruit_colour, INK, 8 * pen, transform=TENTHS)


def _plain(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """Smooth flask with a short beak and a light streak."""
    _body(sheet, look, ends, turn, long, wide, pen)
    streak = np.array([(0.2, 0.18), (0.6, 0.16)])
    sheet.path(
        line_path(laid(streak, ends, turn, long, wide)), stroke="#D8CDB0", width=8 * pen, opacity=0.7, transform=TENTHS
    )


def _ridged(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """Ridges along the fruit, wavy where the species has them so."""
    _body(sheet, look, ends, turn, long, wide, pen)
    t = np.linspace(0.08, 0.92, 4 if pen <= 1 else 37)
    waves = 15.7 if pen <= 1 else 6 * 2 * np.pi
    wave = 0.055 * np.cos((t - 0.08) / 0.84 * waves) if look.fruit == "round_wavy_ridges" else 0.0
    arc = np.sqrt(np.clip(1 - (2 * t - 1) ** 2, 0.1, 1))
    lines = [laid(np.stack([t, share * arc + wave], axis=-1), ends, turn, long, wide) for share in (-0.26, 0.0, 0.26)]
    sheet.path(
        line_path(np.concatenate(lines)),
        stroke=mix(look.fruit_colour, "#F3EFC8", 0.55),
        width=9 * pen,
        transform=TENTHS,
    )


def _styled(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """A cylinder that carries two straight styles at its end."""
    styles = [laid(np.array([(0.94, side * 0.18), (1.55, side * 0.55)]), ends, turn, long, wide) for side in (1, -1)]
    sheet.path(line_path(np.concatenate(styles)), stroke=INK, width=9 * pen, transform=TENTHS)
    _ridged(sheet, look, ends, turn, long, wide, pen)


def _spined(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """Four rows of spines."""
    edge, face = [], []
    for t in (0.16, 0.48, 0.8) if pen <= 1 else (0.12, 0.32, 0.52, 0.72, 0.9):
        out = 0.42 * np.sqrt(max(0.1, 1 - (2 * t - 1) ** 2))
        edge += [
            laid(np.array([(t, side * out), (t + 0.1, side * (out + 0.42))]), ends, turn, long, wide)
            for side in (1.0, -1.0)
        ]
        face += [
            laid(np.array([(t - 0.04, side * 0.14), (t + 0.1, side * 0.3)]), ends, turn, long, wide)
            for side in (1.0, -1.0)
        ]
    sheet.path(line_path(np.concatenate(edge)), stroke=INK, width=7 * pen, transform=TENTHS)
    _body(sheet, look, ends, turn, long, wide, pen)
    if pen > 1:
        sheet.path(line_path(np.concatenate(face)), stroke=INK, width=6 * pen, transform=TENTHS)


def _winged(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """Flat, with a pale wing all round and four dark lines."""
    sheet.path(
        outline_path(laid(silhouette(look.fruit), ends, turn, long, wide)), "#E8DFB6", INK, 7 * pen, transform=TENTHS
    )
    body = silhouette(look.fruit) * (0.86, 0.68) + (0.07, 0.0)
    sheet.path(outline_path(laid(body, ends, turn, long, wide)), look.fruit_colour, transform=TENTHS)
    lines = [laid(np.array([(0.25, s), (0.8, s)]), ends, turn, long, wide) for s in (-0.2, -0.07, 0.07, 0.2)]
    sheet.path(line_path(np.concatenate(lines)), stroke="#4A3A22", width=6 * pen, transform=TENTHS)


def _paired(sheet: Sheet, look: UmbelLook, ends: Numbers, turn: Numbers, long: float, wide: float, pen: float) -> None:
    """A thick pair of black halves."""
    half = silhouette(look.fruit) * (0.95, 0.56)
    both = [laid(half + (0.0, side * 0.26), ends, turn, long, wide) for side in (1, -1)]
    sheet.path(outline_path(np.concatenate(both)), look.fruit_colour, "#6C6A5C", 6 * pen, transform=TENTHS)
    gleam = laid(np.array([(0.3, 0.34), (0.55, 0.36)]), ends, turn, long, wide)
    sheet.path(line_path(gleam), stroke="#C9CBB8", width=10 * pen, opacity=0.8, transform=TENTHS)


Dress = Callable[[Sheet, UmbelLook, Numbers, Numbers, float, float, float], None]
DRESS: dict[str, Dress] = {
    "long_smooth_beaked": _plain,
    "round_wavy_ridges": _ridged,
    "spiny": _spined,
    "round_black": _paired,
    "cylinder_styles": _styled,
    "egg_ridged": _ridged,
    "flat_winged": _winged,
    "oval_slender": _styled,
}
