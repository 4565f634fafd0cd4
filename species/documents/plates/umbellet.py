"""The lens over one small umbel: in flower seen from below, in fruit from the side, bracteoles in plain sight."""

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.fruits import DRESS, laid
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook

BRACTEOLE_GREEN = "#4A7430"
"""Darker than any stalk: on a telephone they are told from the stalks by nothing else."""


def flower_lens(sheet: Sheet, individual: Individual, look: UmbelLook) -> None:
    """One small umbel from below. The ray that carries it comes in from the middle of the whole umbel."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    inward = individual.between(100, 160) if individual.chance(0.5) else individual.between(20, 80)
    inner = np.radians(inward)
    count = min(13, max(9, look.flowers))
    turns = np.arange(count) * 2 * np.pi / count + random.random_sample() * 0.4
    reach = 66 + 9 * (random.random_sample(count) - 0.5)
    ends = np.stack([np.cos(turns), np.sin(turns)], axis=-1) * reach[:, None]
    _flower_backs(sheet, look, ends, turns, inner, random)
    stalks = np.stack([ends * s for s in (0.02, 0.35, 0.7, 1.0)], axis=1)
    sheet.path(line_path(stalks), stroke=INK, width=62, transform=TENTHS)
    sheet.path(line_path(stalks), stroke=mix(look.stalk, "#F0F2D0", 0.5), width=36, transform=TENTHS)
    _bracteoles(sheet, look, inner + np.pi, 50.0, random)
    _ray(sheet, look, inner)


def _flower_backs(
    sheet: Sheet, look: UmbelLook, ends: Numbers, turns: Numbers, inner: float, random: np.random.RandomState
) -> None:
    """Petals from behind, notched at their tips; those that look outward are larger when the species has it so."""
    petal = np.array([(0.12, 0.05), (0.55, 0.34), (0.95, 0.3), (0.86, 0.0), (0.95, -0.3), (0.55, -0.34), (0.12, -0.05)])
    shapes, size = [], 19.0 * look.flower_size
    for end, turn in zip(ends, turns.tolist(), strict=True):
        for i in range(5):
            angle = turn + i * 2 * np.pi / 5
            large = 1 + (look.outer - 1) * max(0.0, np.cos(angle - turn)) * (0.6 - 0.4 * np.cos(turn - inner))
            shapes.append(laid(petal, end[None], np.array([angle]), size * large, size * large))
    shadow = mix(look.petal, "#7E9170", 0.5)
    sheet.path(outline_path(np.concatenate(shapes) + (2.0, 3.0)), shadow, opacity=0.5, transform=TENTHS)
    sheet.path(outline_path(np.concatenate(shapes)), look.petal, INK, 12, transform=TENTHS)
    around = np.linspace(0, 2 * np.pi, 9)[:-1]
    knob = np.stack([np.cos(around), np.sin(around)], axis=-1) * 5.2
    sheet.path(outline_path(ends[:, None, :] + knob), look.heart, INK, 11, transform=TENTHS)


def _bracteoles(sheet: Sheet, look: UmbelLook, outward: float, long: float, random: np.random.RandomState) -> None:
    """Bracteoles at the joint: none, all round, or few on the outer side only and joined at the base."""
    fill = mix(BRACTEOLE_GREEN, look.stalk, 0.1)
    if look.bracteoles == "none":
        return
    if look.bracteoles == "outer_short":
        turns = outward + np.linspace(-0.95, 0.95, look.bracteole_count)
        long, wide = long * 0.82, 24.0
    else:
        turns = np.arange(look.bracteole_count) * 2 * np.pi / look.bracteole_count + outward
        wide = 17.0
    leaf = np.array([(0.0, 0.42), (0.25, 0.5), (0.6, 0.28), (1.0, 0.0), (0.6, -0.28), (0.25, -0.5), (0.0, -0.42)])
    sizes = long * (0.88 + 0.24 * random.random_sample(len(turns)))
    zero = np.zeros((1, 2))
    shapes = np.concatenate([laid(leaf, zero, np.array([t]), s, wide) for t, s in zip(turns, sizes, strict=True)])
    sheet.path(outline_path(shapes), fill, INK, 17, transform=TENTHS)
    if look.fringed:
        _fringe(sheet, turns, long)
    ribs = np.concatenate(
        [
            laid(np.array([(0.1, 0.0), (0.8, 0.0)]), zero, np.array([t]), s, wide)
            for t, s in zip(turns, sizes, strict=True)
        ]
    )
    sheet.path(line_path(ribs), stroke=INK, width=8, opacity=0.6, transform=TENTHS)


def _fringe(sheet: Sheet, turns: Numbers, long: float) -> None:
    """Fine hairs on the margins of bracteoles."""
    lines = [
        laid(np.array([(s, side * 0.36), (s + 0.12, side * 0.78)]), np.zeros((len(turns), 2)), turns, long, 17.0)
        for s in (0.25, 0.4, 0.55, 0.7)
        for side in (1, -1)
    ]
    sheet.path(line_path(np.concatenate(lines)), stroke=INK, width=9, transform=TENTHS)


def _ray(sheet: Sheet, look: UmbelLook, inner: float) -> None:
    """The ray, foreshortened, from the rim of the lens to the joint."""
    tip = np.array([np.cos(inner), np.sin(inner)])
    side = np.array([-tip[1], tip[0]])
    shape = np.stack([tip * 130 + side * 13, tip * 6 + side * 7.5, tip * 6 - side * 7.5, tip * 130 - side * 13])
    sheet.path(outline_path(shape[None]), look.stalk, INK, 22, transform=TENTHS)
    streak = np.stack([tip * 125 + side * 5, tip * 8 + side * 3])
    sheet.path(line_path(streak[None]), stroke="#F4F6DE", width=34, opacity=0.6, transform=TENTHS)
    sheet.disc(0, 0, 8, look.stalk, INK, 1.8)


LENS_FRUIT = {
    "long_smooth_beaked": (92.0, 25.0),
    "round_wavy_ridges": (50.0, 48.0),
    "spiny": (56.0, 34.0),
    "round_black": (56.0, 66.0),
    "cylinder_styles": (62.0, 30.0),
    "egg_ridged": (50.0, 38.0),
    "flat_winged": (74.0, 58.0),
    "oval_slender": (62.0, 26.0),
}


def fruit_lens(sheet: Sheet, individual: Individual, look: UmbelLook) -> None:
    """The joint of one small umbel from the side with its bracteoles, and three ripe fruits."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    joint = np.array([0.0, 62.0])
    outer = 1.0 if individual.chance(0.5) else -1.0
    ray = np.array([(-34.0 * outer, 130.0), (-14.0 * outer, 92.0), (0.0, 62.0)])
    turns = np.radians(np.array([-128.0, -90.0, -52.0]) + 5 * (random.random_sample(3) - 0.5))
    stalk_ends = joint + np.stack([np.cos(turns), np.sin(turns)], axis=-1) * np.array([60.0, 50.0, 60.0])[:, None]
    stalks = np.stack([np.repeat(joint[None], 3, axis=0), stalk_ends], axis=1)
    for lines, width in ((stalks, 62), (ray[None], 130)):
        sheet.path(line_path(lines), stroke=INK, width=width + 26, transform=TENTHS)
        sheet.path(line_path(lines), stroke=look.stalk, width=width, transform=TENTHS)
    long, wide = LENS_FRUIT[look.fruit]
    for i in range(3):
        DRESS[look.fruit](sheet, look, stalk_ends[i : i + 1], turns[i : i + 1], long, wide, 2.4)
    _side_bracteoles(sheet, look, joint, outer, random)


def _side_bracteoles(
    sheet: Sheet, look: UmbelLook, joint: Numbers, outer: float, random: np.random.RandomState
) -> None:
    if look.bracteoles == "none":
        return
    if look.bracteoles == "outer_short":
        turns, wide, long = np.pi / 2 - outer * np.array([1.75, 1.25, 0.75]), 17.0, 34.0
    else:
        turns, wide, long = np.linspace(-0.15, np.pi + 0.15, max(5, look.bracteole_count)), 13.0, 42.0
    leaf = np.array([(0.0, 0.4), (0.3, 0.5), (1.0, 0.0), (0.3, -0.5), (0.0, -0.4)])
    turns = turns + 0.1 * (random.random_sample(len(turns)) - 0.5)
    shapes = laid(leaf, np.repeat(joint[None], len(turns), axis=0), turns, long, wide)
    sheet.path(outline_path(shapes), BRACTEOLE_GREEN, INK, 16, transform=TENTHS)
