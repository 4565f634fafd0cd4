"""Divided leaves put on the sheet in ink and wash: leaf stalk, segments in three tones, axes, veins, shine."""

from dataclasses import dataclass, replace

import numpy as np

from species.documents.plates.compound import (
    TENTHS,
    Division,
    Frames,
    Numbers,
    Pose,
    line_path,
    on_frames,
    outline_path,
)
from species.documents.plates.individual import INK, Individual, mix, tint
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
    """One blade at its pose: first a soft wash behind, then the segments by tone, then axes and veins."""
    frames, pick = blade.division.last, None
    pick = random.randint(0, len(blade.division.outlines), len(frames))
    shade = _tone_of(frames, pose, random)
    placed = []
    for level in range(TONES):
        d = []
        for i, outline in enumerate(blade.division.outlines):
            chosen = frames.where((pick == i) & (shade == level))
            if len(chosen):
                polygons = pose.place(on_frames(chosen, outline, blade.plump))
                placed.append(polygons.reshape(-1, 2))
                d.append(outline_path(polygons))
        if d:
            sheet.path("".join(d), tone.washes[level], INK, 10 * blade.ink, stroke_opacity="0.8", transform=TENTHS)
    points = np.concatenate(placed)
    sheet.reach([tuple(points.min(axis=0).tolist()), tuple(points.max(axis=0).tolist())])
    if blade.veined:
        _veins(sheet, blade, pose, tone, pick)
    _axes(sheet, blade, pose, tone)
    if blade.hairs_per_axis:
        _axis_hairs(sheet, blade, pose, random)


def _tone_of(frames: Frames, pose: Pose, random: np.random.RandomState) -> Numbers:
    """Segments that look up and to the left are lit, those that hang are dark."""
    heading = frames.turn + np.radians(pose.turn)
    light = np.cos(heading + 2.2) + random.random_sample(len(frames)) * 1.3 - 0.65
    return np.where(light > 0.45, 0, np.where(light > -0.62, 1, 2))


def _axes(sheet: Sheet, blade: Blade, pose: Pose, tone: LeafTone) -> None:
    for order, frames in enumerate(blade.division.axes):
        d = line_path(pose.place(frames.lines(4, 0.96)))
        width = blade.axis_width * (1.0, 0.62, 0.42, 0.3)[min(order, 3)]
        sheet.path(d, stroke=INK, width=10 * (width + 1.2), opacity=0.8, transform=TENTHS)
        sheet.path(d, stroke=tone.axis, width=10 * width, transform=TENTHS)


VEIN_SHARES = (0.14, 0.3, 0.46, 0.62, 0.77)


def _veins(sheet: Sheet, blade: Blade, pose: Pose, tone: LeafTone, pick: Numbers) -> None:
    """The darker half of every leaflet, its midrib and side veins, and a light streak when it shines."""
    halves, ribs, side_veins, streaks = [], [], [], []
    for i, outline in enumerate(blade.division.outlines):
        frames = blade.division.last.where(pick == i)
        if not len(frames):
            continue
        wide = float(outline[:, 1].max()) * blade.plump
        lower = np.array([p for p in outline if p[1] <= 1e-9])
        halves.append(outline_path(pose.place(on_frames(frames, lower, blade.plump))))
        ribs.append(line_path(pose.place(frames.lines(4, 0.95))))
        side_veins += [line_path(pose.place(on_frames(frames, _side_vein(at, wide * side)))) for at in VEIN_SHARES
                       for side in (0.8, -0.8)]
        streak = np.array([(0.2, 0.26), (0.45, 0.4), (0.72, 0.26), (0.5, 0.56), (0.3, 0.5)]) * (1, wide)
        streaks.append(outline_path(pose.place(on_frames(frames, streak))))
    sheet.path("".join(halves), tone.washes[2], opacity=0.34, transform=TENTHS)
    if tone.shine > 0.15:
        sheet.path("".join(streaks), "#EAF3D6", opacity=0.55 * tone.shine, transform=TENTHS)
    sheet.path("".join(side_veins), stroke=tone.washes[0], width=10 * 1.1, opacity=0.9, transform=TENTHS)
    sheet.path("".join(ribs), stroke=INK, width=10 * 1.0, opacity=0.55, transform=TENTHS)
    sheet.path("".join(ribs), stroke=tone.axis, width=10 * 0.9, transform=TENTHS)


def _side_vein(at: float, reach: float) -> Numbers:
    """A vein that leaves the midrib at `at` and bends forward to the margin."""
    fade = 1 - max(0.0, at - 0.35) * 0.9
    return np.array([(at, 0.0), (at + 0.09, reach * 0.5 * fade), (at + 0.15, reach * 0.86 * fade)])


def _axis_hairs(sheet: Sheet, blade: Blade, pose: Pose, random: np.random.RandomState) -> None:
    """Short hairs standing off the axes of the blade."""
    drawn = []
    for frames in blade.division.axes[:2]:
        for _ in range(blade.hairs_per_axis):
            share = random.random_sample(len(frames)) * 0.9
            side = np.where(random.random_sample(len(frames)) < 0.5, -1.0, 1.0)
            x, y, heading = frames.at(share)
            turn = heading + side * (1.2 + 0.5 * random.random_sample(len(frames)))
            drawn.append(replace(frames, x=x, y=y, turn=turn, size=0 * x + blade.hair_length, bend=0 * x).lines(1))
    sheet.path(line_path(pose.place(np.concatenate(drawn))), stroke=INK, width=6, opacity=0.75, transform=TENTHS)


def faded(tone: LeafTone, share: float) -> LeafTone:
    """The same leaf further away."""
    washes = tuple(mix(wash, "#E6E6CF", share) for wash in tone.washes)
    return LeafTone((washes[0], washes[1], washes[2]), tint(tone.axis, 0.0, 0.05), tone.shine * (1 - share))
