"""Compound umbels on the plant: rays by golden angle on a cap, umbellets, bracts, bracteoles, flowers or fruits."""

from collections.abc import Callable

import numpy as np

from species.documents.plates.bracts import draw_bracts, draw_small_bracteoles
from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook, View

GOLDEN = np.radians(137.508)


def _cap(count: int, half_angle: float, random: np.random.RandomState, loose: float) -> Numbers:
    """Directions spread evenly on a cap about the upward axis: columns right, towards us, up."""
    i = np.arange(count) + 0.5
    lean = np.radians(half_angle) * np.sqrt(i / count)
    around = GOLDEN * np.arange(count) + random.random_sample() * 6.28
    lean = lean * (1 + loose * (random.random_sample(count) - 0.5))
    return np.stack([np.sin(lean) * np.cos(around), np.sin(lean) * np.sin(around), np.cos(lean)], axis=-1)


SHOWN = 11  # flowers or fruits of a small umbel that are drawn, so that each stays a flower

FLOWER_TURN = np.arange(15) * (2 * np.pi / 15)
FLOWER_EDGE = np.tile(np.array([0.42, 1.0, 0.98]), 5)


def _flowers(centres: Numbers, outward: Numbers, size: float, outer: float) -> Numbers:
    """Five-petalled outlines at the centres; petals that look along `outward` are `outer` times larger."""
    turn = FLOWER_TURN[None, :]
    swell = 1 + (outer - 1) * np.clip(np.cos(turn - outward[:, None]), 0, 1)
    edge = FLOWER_EDGE[None, :] * size * swell
    return np.stack(
        [centres[:, None, 0] + edge * np.cos(turn), centres[:, None, 1] + 0.78 * edge * np.sin(turn)], axis=-1
    )


def draw_umbel(
    sheet: Sheet, look: UmbelLook, view: View, radius: float, random: np.random.RandomState, heads: "Heads"
) -> None:
    """One umbel; `heads` draws what stands at the ends of the rays, the far third first."""
    solid = _cap(look.rays, look.cap, random, 0.25)
    solid = solid * (radius * (0.88 + 0.24 * random.random_sample(look.rays)))[:, None]
    if look.closing:
        pull = 1 - 0.75 * look.closing
        solid = solid * np.array([pull, pull, 1.1])
    solid = solid[np.argsort(solid[:, 1])]
    tips, rays = view.flat(solid), _ray_lines(view, solid, look.closing)
    sheet.reach([tuple(tips.min(axis=0).tolist()), tuple(tips.max(axis=0).tolist())])
    if look.bracts != "none":
        draw_bracts(sheet, look, view, radius, random, front=False)
    for group in np.array_split(np.arange(look.rays), 3):
        _draw_rays(sheet, rays[group], look)
        heads(sheet, look, tips[group], solid[group] / radius, view, radius, random)
    if look.bracts != "none":
        draw_bracts(sheet, look, view, radius, random, front=True)
    if look.dark_middle:
        x, y = view.flat(np.array([0.0, 0.0, radius * 1.1])).tolist()
        sheet.disc(x, y, radius * 0.055, "#5A1A2E", INK, 0.8)


def _ray_lines(view: View, solid: Numbers, closing: float) -> Numbers:
    """Rays as bent lines, shape (rays, 5, 2); in a closing umbel they bow outwards before they meet."""
    share = np.linspace(0, 1, 5)[None, :, None]
    bow = np.array([1.0, 1.0, 0.0]) * np.sin(np.pi * share) * (0.12 + 0.75 * closing)
    return view.flat(solid[:, None, :] * (share + bow))


def _draw_rays(sheet: Sheet, rays: Numbers, look: UmbelLook) -> None:
    if not len(rays):
        return
    d = line_path(rays)
    sheet.path(d, stroke=INK, width=34, transform=TENTHS)
    sheet.path(d, stroke=look.stalk, width=19, transform=TENTHS)


Heads = Callable[[Sheet, UmbelLook, Numbers, Numbers, View, float, np.random.RandomState], None]


def flower_heads(
    sheet: Sheet,
    look: UmbelLook,
    tips: Numbers,
    directions: Numbers,
    view: View,
    radius: float,
    random: np.random.RandomState,
) -> None:
    """Small umbels in flower at the ends of some rays: washes, stalks, bracteoles, then all their flowers."""
    small = radius * (0.36 if look.rays < 14 else 0.30)
    size = small * 0.27 * look.flower_size
    shown = SHOWN if look.rays < 15 else SHOWN - 3
    stalks, flowers, centres = [], [], []
    wash = mix(look.petal, "#8E9D7E", 0.45)
    for tip, direction in zip(tips, directions, strict=True):
        ends, outward = small_umbel(look, tip, direction, view, small, random, shown)
        x, y = ends.mean(axis=0).tolist()
        sheet.oval(x, y + small * 0.12, small * 0.98, small * 0.68, view.heading + 90, wash, opacity=0.45)
        stalks.append(np.stack([np.repeat(tip[None], len(ends), axis=0), ends], axis=1))
        flowers.append(_flowers(ends, outward, size, look.outer))
        centres.append(ends)
    sheet.path(line_path(np.concatenate(stalks)), stroke=mix(look.stalk, INK, 0.5), width=9, transform=TENTHS)
    draw_small_bracteoles(sheet, look, tips, directions, small, random)
    sheet.path(outline_path(np.concatenate(flowers)), look.petal, mix(INK, look.petal, 0.38), 5, transform=TENTHS)
    hearts = np.concatenate(centres)
    dots = np.stack([hearts - (size * 0.12, 0), hearts + (size * 0.12, 0)], axis=1)
    sheet.path(line_path(dots), stroke=look.heart, width=10 * size * 0.36, transform=TENTHS)
    sheet.reach([tuple((tips.min(axis=0) - small).tolist()), tuple((tips.max(axis=0) + small).tolist())])


def small_umbel(
    look: UmbelLook,
    tip: Numbers,
    direction: Numbers,
    view: View,
    small: float,
    random: np.random.RandomState,
    shown: int = SHOWN,
) -> tuple[Numbers, Numbers]:
    """Ends of the flower stalks on the sheet and the angle that looks away from the umbel's middle."""
    axis = direction / (np.linalg.norm(direction) or 1.0)
    own = _cap(min(look.flowers, shown), 70, random, 0.3)
    right = np.array([axis[2], 0.0, -axis[0]])
    right = right / (np.linalg.norm(right) or 1.0)
    front = np.cross(axis, right)
    solid = own[:, :1] * right + own[:, 1:2] * front + own[:, 2:] * axis
    solid = solid[np.argsort(solid[:, 1] - 0.4 * solid[:, 2])]
    ends = View(float(tip[0]), float(tip[1]), view.heading, view.tilt).flat(solid * small)
    middle = np.array([view.x, view.y])
    away = ends - middle
    return ends, np.arctan2(away[:, 1], away[:, 0])
