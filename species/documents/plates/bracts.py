"""Bracts at the joint of the whole umbel and bracteoles at the joints of its small umbels, as seen from the side."""

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, mix
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook, View


def draw_bracts(
    sheet: Sheet, look: UmbelLook, view: View, radius: float, random: np.random.RandomState, front: bool
) -> None:
    """Bracts at the main joint: the far ones before the rays are drawn, the near ones after."""
    count = look.bract_count
    around = np.arange(count) * 2 * np.pi / count + 0.35
    around = around[(np.sin(around) >= -0.05) == front]
    if look.bracts == "large_divided":
        _feathered(sheet, look, view, radius * 0.62, around, random)
        return
    drop = -0.55 - 0.25 * random.random_sample(len(around))
    long = radius * 0.27 * (0.85 + 0.3 * random.random_sample(len(around)))
    solid = np.stack([np.cos(around), np.sin(around), drop], axis=-1)
    ends = view.flat(solid * long[:, None])
    joint = np.array([view.x, view.y])
    away = ends - joint
    turns = np.arctan2(away[:, 1], away[:, 0])
    for turn, reach in zip(turns, np.hypot(away[:, 0], away[:, 1]), strict=True):
        sheet.path(
            outline_path(_darts(joint, np.array([turn]), float(reach), 0.34)),
            mix(look.stalk, "#3E6B34", 0.35),
            INK,
            9,
            transform=TENTHS,
        )


def _feathered(
    sheet: Sheet, look: UmbelLook, view: View, long: float, around: Numbers, random: np.random.RandomState
) -> None:
    """Large bracts cut into three to seven threads."""
    lines = []
    for turn in around.tolist():
        reach = long * (0.85 + 0.3 * random.random_sample())
        base = np.array([np.cos(turn), np.sin(turn), 0.0])
        cup = 0.55 * look.closing + 0.05

        def at(share: float, base: Numbers = base, reach: float = reach, cup: float = cup) -> Numbers:
            rise = np.array([0.0, 0.0, 1.0]) * (cup * share - 0.35 * (share - share * share))
            return (base * share + rise) * reach

        lines.append([at(s) for s in np.linspace(0, 1, 4)])
        side = np.array([-np.sin(turn), np.cos(turn), 0.15])
        for start in (0.3, 0.5, 0.68)[: 1 + int(random.random_sample() * 3)]:
            for hand in (1.0, -1.0):
                tip = at(min(1.0, start + 0.36)) + side * hand * reach * 0.17
                lines.append(np.linspace(at(start), tip, 4).tolist())
    d = line_path(view.flat(np.array(lines)))
    sheet.path(d, stroke=INK, width=30, transform=TENTHS)
    sheet.path(d, stroke=mix(look.stalk, "#3E6B34", 0.3), width=17, transform=TENTHS)


def draw_small_bracteoles(
    sheet: Sheet, look: UmbelLook, tips: Numbers, directions: Numbers, small: float, random: np.random.RandomState
) -> None:
    """Bracteoles at the joints of small umbels, as far as they show from the side."""
    if look.bracteoles == "none":
        return
    shapes = []
    for tip, direction in zip(tips, directions, strict=True):
        outer = 1.0 if direction[0] >= 0 else -1.0
        turns = (
            np.linspace(0.1, np.pi - 0.1, 5)
            if look.bracteoles == "all_round"
            else np.pi / 2 - outer * np.array([0.95, 0.5, 0.1])
        )
        shapes.append(_darts(tip, turns + 0.15 * (random.random_sample(len(turns)) - 0.5), small * 0.48, 0.2))
    sheet.path(outline_path(np.concatenate(shapes)), mix(look.stalk, "#3E6B34", 0.4), INK, 7, transform=TENTHS)


def _darts(at: Numbers, turns: Numbers, long: float, slim: float) -> Numbers:
    """Narrow pointed outlines that start at one place."""
    shape = np.array([(0.0, 0.3), (0.4, 1.0), (1.0, 0.0), (0.4, -1.0), (0.0, -0.3)])
    u, v = shape[:, 0] * long, shape[:, 1] * long * slim / 2
    cos, sin = np.cos(turns)[:, None], np.sin(turns)[:, None]
    return np.stack([at[0] + u * cos - v * sin, at[1] + u * sin + v * cos], axis=-1)
