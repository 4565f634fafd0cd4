"""Divided leaves, grown order by order.

A leaf is a set of *frames*: short axes with place, heading, length and bend. Each order puts pairs of smaller
frames on every frame that is still long; the last ones carry a segment outline. Everything is arrays, since one
plate holds thousands of segments.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from species.documents.plates.segments import Outline

Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Frames:
    """Axes: start (x, y), heading and total bend in radians, length in units."""

    x: Numbers
    y: Numbers
    turn: Numbers
    size: Numbers
    bend: Numbers

    def __len__(self) -> int:
        return len(self.x)

    def at(self, share: Numbers | float) -> tuple[Numbers, Numbers, Numbers]:
        """Place and heading at a share of the length; the axis is an arc of a circle."""
        bend = np.where(np.abs(self.bend) < 1e-4, 1e-4, self.bend)
        heading = self.turn + bend * share
        x = self.x + self.size / bend * (np.sin(heading) - np.sin(self.turn))
        y = self.y - self.size / bend * (np.cos(heading) - np.cos(self.turn))
        return x, y, heading

    def where(self, chosen: NDArray[np.bool_] | NDArray[np.int_]) -> "Frames":
        return Frames(self.x[chosen], self.y[chosen], self.turn[chosen], self.size[chosen], self.bend[chosen])

    def lines(self, steps: int = 4, until: float = 1.0) -> Numbers:
        """The axes as polylines, shape (frames, steps + 1, 2)."""
        shares = np.linspace(0.0, until, steps + 1)
        placed = [self.at(float(share))[:2] for share in shares]
        return np.stack([np.stack(place, axis=-1) for place in placed], axis=1)


def one_frame(x: float, y: float, turn: float, size: float, bend: float = 0.0) -> Frames:
    return Frames(*(np.array([value]) for value in (x, y, turn, size, bend)))


def joined(groups: Sequence[Frames]) -> Frames:
    return Frames(
        *(np.concatenate([getattr(group, name) for group in groups]) for name in ("x", "y", "turn", "size", "bend"))
    )


@dataclass(frozen=True)
class Order:
    """How one order of division sits on its axis.

    `pairs` side axes each side; the first pair has `ratio` of the axis length and the last (1 - `taper`) of
    that; `spread` is their angle in degrees; `first` the share of the axis below the first pair; `end` the
    length of the end segment against the last pair.
    """

    pairs: int
    ratio: float
    spread: float = 60.0
    taper: float = 0.75
    first: float = 0.0
    end: float = 1.2
    bulge: float = 0.0


def divided(parents: Frames, order: Order, random: np.random.RandomState, loose: float = 1.0) -> Frames:
    """The frames of the next order: pairs up each axis, then one at its end."""
    groups = []
    for i in range(order.pairs):
        step = i / order.pairs
        place = order.first + (0.95 - order.first) * (1 - (1 - step) ** 1.25)
        swell = 1 + order.bulge * np.sin(np.pi * min(1.0, step * 1.5))
        for side in (1.0, -1.0):
            noise = random.random_sample((4, len(parents))) * 2 - 1
            x, y, heading = parents.at(place + 0.02 * loose * noise[0])
            size = parents.size * order.ratio * (1 - order.taper * step) * swell * (1 + 0.12 * loose * noise[1])
            angle = np.radians(order.spread - 14 * step + 6 * loose * noise[2])
            groups.append(Frames(x, y, heading + side * angle, size, -side * (0.25 + 0.12 * noise[3])))
    x, y, heading = parents.at(0.95)
    last = parents.size * order.ratio * (1 - order.taper * (1 - 1 / order.pairs)) * order.end
    groups.append(Frames(x, y, heading, last, parents.bend * 0.1))
    return joined(groups)


def ternate(
    parents: Frames, stalk: float, ratio: float, random: np.random.RandomState, angle: float = 52.0
) -> tuple[Frames, Frames]:
    """Three stalked parts at the end of every axis: (stalks, blades); the middle stalk is 1.3 times longer."""
    stalks = []
    for side, longer in ((1.0, 1.0), (-1.0, 1.0), (0.0, 1.3)):
        noise = random.random_sample((2, len(parents))) * 2 - 1
        x, y, heading = parents.at(1.0)
        turn = heading + side * np.radians(angle) + np.radians(7) * noise[0]
        stalks.append(Frames(x, y, turn, parents.size * stalk * longer * (1 + 0.1 * noise[1]), -side * 0.25 + 0 * x))
    all_stalks = joined(stalks)
    x, y, heading = all_stalks.at(1.0)
    size = np.concatenate([parents.size * ratio] * 3)
    return all_stalks, Frames(x, y, heading, size, 0.0 * x)


def swollen(frames: Frames, by: float) -> Frames:
    """The same frames `by` times as large, about the place where the leaf starts."""
    return Frames(frames.x * by, frames.y * by, frames.turn, frames.size * by, frames.bend)


@dataclass(frozen=True)
class Division:
    """A grown leaf: its axes by order, and its last frames with the segment outlines to put on them."""

    axes: tuple[Frames, ...]
    last: Frames
    outlines: tuple[Outline, ...]


def grown(
    leaf: Frames,
    orders: Sequence[Order],
    outlines: tuple[Outline, ...],
    limits: Sequence[float],
    random: np.random.RandomState,
    loose: float = 1.0,
) -> Division:
    """Divide again and again, but leave axes shorter than the limit (units) of the next order as last segments."""
    axes, finished, current = [leaf], [], divided(leaf, orders[0], random, loose)
    for order, limit in zip(orders[1:], limits, strict=True):
        long = current.size > limit
        finished.append(current.where(~long))
        current = current.where(long)
        if not len(current):
            break
        axes.append(current)
        current = divided(current, order, random, loose)
    last = joined([*finished, current])
    return Division(tuple(axes), last.where(last.size > 3.5), outlines)


def segments(division: Division, random: np.random.RandomState, plump: float = 1.0) -> list[Numbers]:
    """Polygons of the last segments, one array (count, points, 2) per outline variant."""
    pick = random.randint(0, len(division.outlines), len(division.last))
    return [on_frames(division.last.where(pick == i), outline, plump) for i, outline in enumerate(division.outlines)]


def on_frames(frames: Frames, outline: Outline, plump: float = 1.0) -> Numbers:
    """The outline put on every frame, following its bend: (frames, points, 2). `plump` scales the width."""
    along = outline[:, 0][None, :]
    across = outline[:, 1][None, :] * plump * frames.size[:, None]
    tall = Frames(*(getattr(frames, name)[:, None] for name in ("x", "y", "turn", "size", "bend")))
    x, y, heading = tall.at(along)
    return np.stack([x - np.sin(heading) * across, y + np.cos(heading) * across], axis=-1)


@dataclass(frozen=True)
class Pose:
    """Where a leaf's own plane lies on the sheet: start, heading in degrees, and how much it is turned away."""

    x: float
    y: float
    turn: float
    narrow: float = 1.0
    short: float = 1.0

    def place(self, points: Numbers) -> Numbers:
        """Points of the leaf plane (x along the leaf) put on the sheet; the last axis is (x, y)."""
        angle = np.radians(self.turn)
        u, v = points[..., 0] * self.short, points[..., 1] * self.narrow
        return np.stack(
            [self.x + u * np.cos(angle) - v * np.sin(angle), self.y + u * np.sin(angle) + v * np.cos(angle)], axis=-1
        )


def outline_path(polygons: Numbers) -> str:
    """Path data of many closed polygons, in tenths of a unit (draw it with `transform=TENTHS`)."""
    return "".join(f"M{head}l{tail}z" for head, tail in _steps(polygons))


def line_path(lines: Numbers) -> str:
    """Path data of many open lines, in tenths of a unit."""
    return "".join(f"M{head}l{tail}" for head, tail in _steps(lines))


TENTHS = "scale(.1)"


def _steps(shapes: Numbers) -> list[tuple[str, str]]:
    tenths = np.rint(shapes * 10).astype(np.int64)
    heads = tenths[:, 0, :].tolist()
    tails = np.diff(tenths, axis=1).reshape(len(tenths), -1).tolist()
    return [
        (f"{x} {y}", " ".join(map(str, tail)).replace(" -", "-")) for (x, y), tail in zip(heads, tails, strict=True)
    ]
