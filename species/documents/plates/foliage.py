"""Divided leaves put on the sheet in ink and wash: leaf stalk, segments in three tones, axes, veins, shine."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from species.documents.plates.compound import (
    TENTHS,
    Division,
    Frames,
    Numbers,
    Pose,
    joined,
    line_path,
    on_frames,
    outline_path,
)
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.segments import Outline
from species.documents.plates.svg import Sheet

TONES = 3


@dataclass(frozen=True)
class Blade:
    """A divided blade ready to draw: what grew, how wide its leaflets, whether they show veins and shine."""

    division: Division
    axis_width: float = 2.6
    plump: float = 1.0
    veined: bool = False
    hair_length: float = 0.0
    hairs_per_axis: int = 0
    ink: float = 0.75


@dataclass(frozen=True)
class LeafTone:
    """Washes of one leaf, light to dark, and the colour of its axes."""

    washes: tuple[str, str, str]
    axis: str
    shine: float


def leaf_tone(individual: Individual, depth: float = 0.0, old: float = 0.0) -> LeafTone:
    """Colours of the next leaf; `depth` 0 (front) to 1 (far behind, paler), `old` 0 to 1 yellows it."""
    green = mix(individual.leaf_green(), "#C9B458", 0.75 * old)
    green = mix(green, "#C9D3B0", 0.42 * depth)
    washes = (mix(green, "#E4ECC4", 0.34), green, mix(green, "#22452F", 0.26))
    return LeafTone(washes, mix(green, "#DCE4B0", 0.35), individual.shine * (1 - depth))


def draw_blade(sheet: Sheet, blade: Blade, pose: Pose, tone: LeafTone, random: np.random.RandomState) -> None:
    """One blade at its pose: the segments by tone, or leaflet by leaflet when they are large, and the axes."""
    frames = blade.division.last
    pick = random.randint(0, len(blade.division.outlines), len(frames))
    shade = _tone_of(frames, pose, random)
    if blade.veined:
        _axes(sheet, blade, pose, tone)
        for i in _far_first(frames, pose):
            one = np.arange(len(frames)) == i
            outline = blade.division.outlines[int(pick[i])]
            _leaflet(sheet, blade, pose, tone, frames.where(one), outline, tone.washes[int(shade[i])])
    else:
        for level in range(TONES):
            _segments(sheet, blade, pose, tone, (shade == level), pick, level)
        _axes(sheet, blade, pose, tone)
    if blade.hairs_per_axis:
        _axis_hairs(sheet, blade, pose, random)


def nibbled(blade: Blade, random: np.random.RandomState) -> Blade:
    """The same blade with a small part eaten away, never more than a tenth of it."""
    last = blade.division.last
    if len(last) < 12:
        return blade
    middle = int(random.randint(0, len(last)))
    reach = float(blade.division.axes[0].size[0]) * (0.06 + 0.08 * random.random_sample())
    kept = np.hypot(last.x - last.x[middle], last.y - last.y[middle]) > reach
    return replace(blade, division=replace(blade.division, last=last.where(kept))) if kept.mean() > 0.9 else blade


def _far_first(frames: Frames, pose: Pose) -> list[int]:
    """Leaflets from the tip of the leaf to its foot, so that the lower ones lie on top."""
    along = frames.at(0.5)[0]
    return list(np.argsort(-along))


def _segments(
    sheet: Sheet,
    blade: Blade,
    pose: Pose,
    tone: LeafTone,
    chosen: NDArray[np.bool_],
    pick: NDArray[np.int_],
    level: int,
) -> None:
    """All segments of one tone as one path."""
    polygons = [
        pose.place(on_frames(blade.division.last.where((pick == i) & chosen), outline, blade.plump))
        for i, outline in enumerate(blade.division.outlines)
    ]
    points = np.concatenate([group.reshape(-1, 2) for group in polygons])
    if not len(points):
        return
    sheet.reach([tuple(points.min(axis=0).tolist()), tuple(points.max(axis=0).tolist())])
    # Only the middle tone has a line: on lit segments it looks heavy, on dark ones it is not seen, and lines are what
    # costs time to render.
    ink = INK if level == 1 else None
    sheet.path(
        "".join(outline_path(group) for group in polygons if len(group)),
        tone.washes[level],
        ink,
        10 * blade.ink,
        stroke_opacity=None if ink is None else "0.85",
        transform=TENTHS,
    )


def _tone_of(frames: Frames, pose: Pose, random: np.random.RandomState) -> Numbers:
    """Segments that look up and to the left are lit, those that hang are dark."""
    heading = frames.turn + np.radians(pose.turn)
    light = np.cos(heading + 2.2) + random.random_sample(len(frames)) * 1.3 - 0.65
    return np.where(light > 0.45, 0, np.where(light > -0.62, 1, 2))


def _axes(sheet: Sheet, blade: Blade, pose: Pose, tone: LeafTone) -> None:
    for order, frames in enumerate(blade.division.axes):
        d = line_path(pose.place(frames.lines(4)))
        width = blade.axis_width * (1.0, 0.62, 0.42, 0.3)[min(order, 3)]
        if order > 1:
            # Too fine for two lines to be told apart.
            sheet.path(d, stroke=mix(tone.axis, INK, 0.55), width=10 * (width + 0.5), transform=TENTHS)
            continue
        sheet.path(d, stroke=INK, width=10 * (width + 1.2), opacity=0.8, transform=TENTHS)
        sheet.path(d, stroke=tone.axis, width=10 * width, transform=TENTHS)


VEIN_SHARES = (0.14, 0.29, 0.44, 0.58, 0.71)


def _leaflet(
    sheet: Sheet, blade: Blade, pose: Pose, tone: LeafTone, frame: Frames, outline: Outline, wash: str
) -> None:
    """One large leaflet: wash, darker half, light streak when it shines, side veins, midrib."""
    shape = pose.place(on_frames(frame, outline, blade.plump))
    points = shape.reshape(-1, 2)
    sheet.reach([tuple(points.min(axis=0).tolist()), tuple(points.max(axis=0).tolist())])
    sheet.path(outline_path(shape), wash, INK, 10 * blade.ink, stroke_opacity="0.9", transform=TENTHS)
    lower = np.array([p for p in outline if p[1] <= 1e-9])
    sheet.path(
        outline_path(pose.place(on_frames(frame, lower, blade.plump))), tone.washes[2], opacity=0.34, transform=TENTHS
    )
    wide = float(outline[:, 1].max()) * blade.plump
    if tone.shine > 0.15:
        streak = np.array([(0.2, 0.26), (0.45, 0.4), (0.72, 0.26), (0.5, 0.56), (0.3, 0.5)]) * (1, wide)
        sheet.path(
            outline_path(pose.place(on_frames(frame, streak))), "#EAF3D6", opacity=0.55 * tone.shine, transform=TENTHS
        )
    veins = np.concatenate([_side_vein(at, wide * side) for at in VEIN_SHARES for side in (0.8, -0.8)])
    placed = pose.place(on_frames(frame, veins)).reshape(len(VEIN_SHARES) * 2, -1, 2)
    sheet.path(line_path(placed), stroke=tone.washes[0], width=10 * 1.1, opacity=0.9, transform=TENTHS)
    rib = line_path(pose.place(frame.lines(4, 0.95)))
    sheet.path(rib, stroke=mix(tone.axis, INK, 0.35), width=10 * 1.3, transform=TENTHS)


def _side_vein(at: float, reach: float) -> Numbers:
    """A vein that leaves the midrib at `at` and bends forward to the margin."""
    fade = 1 - max(0.0, at - 0.25) * 1.35
    return np.array([(at, 0.0), (at + 0.09, reach * 0.5 * fade), (at + 0.15, reach * 0.86 * fade)])


def _axis_hairs(sheet: Sheet, blade: Blade, pose: Pose, random: np.random.RandomState) -> None:
    """Short hairs standing off the axes of the blade."""
    axes = joined(blade.division.axes[:2])
    frames = axes.where(np.repeat(np.arange(len(axes)), blade.hairs_per_axis))
    share = random.random_sample(len(frames)) * 0.9
    side = np.where(random.random_sample(len(frames)) < 0.5, -1.0, 1.0)
    x, y, heading = frames.at(share)
    turn = heading + side * (1.2 + 0.5 * random.random_sample(len(frames)))
    hairs = replace(frames, x=x, y=y, turn=turn, size=0 * x + blade.hair_length, bend=0 * x).lines(1)
    sheet.path(line_path(pose.place(hairs)), stroke=INK, width=6, opacity=0.75, transform=TENTHS)
