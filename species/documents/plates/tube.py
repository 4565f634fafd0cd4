"""Stems, branches and leaf stalks of one plant: bent tubes, and the marks and hairs that they carry.

Words for looks are the state ids of the state table, so that what is recorded is what is drawn.
"""

from dataclasses import dataclass
from functools import cached_property
from math import atan2, degrees

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, mix
from species.documents.plates.svg import Point, Sheet, bow

FLUSH = "#7A4C58"
BLOTCH = "#5B2A4A"


@dataclass(frozen=True)
class StemLook:
    """How the stems (or leaf stalks) of one plant look.

    `hairs`: hairless, sparse, downy or bristly. `marks`: plain, flushed or blotched; `blotches` says how many
    (0 to 1) and `flush` how strong (0 to 1): a blotched stem may be flushed too. `section`: round_smooth or
    ridged. `inside`: hollow or solid.
    """

    hairs: str
    marks: str
    section: str
    inside: str
    colour: str
    blotches: float = 0.0
    flush: float = 0.0
    ridges: int = 12
    bloom: float = 0.0


@dataclass(frozen=True)
class Tube:
    """A bent tube: centre line and width at each of its points, from the lower end to the upper."""

    centre: Numbers
    width: Numbers

    @cached_property
    def normals(self) -> Numbers:
        """Unit vectors to the left of the way, one per point."""
        along = np.gradient(self.centre, axis=0)
        size = np.hypot(along[:, 0], along[:, 1])[:, None]
        return np.stack([along[:, 1], -along[:, 0]], axis=-1) / size

    def length(self) -> float:
        return float(np.hypot(*np.diff(self.centre, axis=0).T).sum())

    def side(self, share: float) -> Numbers:
        """A line along the tube at a share of its half width: -1 left edge, 1 right edge (looking up)."""
        return self.centre - self.normals * (self.width / 2 * share)[:, None]

    def outline(self) -> Numbers:
        return np.concatenate([self.side(-1), self.side(1)[::-1]])

    def place(self, share: float) -> tuple[Point, float]:
        """The centre point at a share of the length and the heading there in degrees."""
        last = len(self.centre) - 1
        at = min(last, max(0.0, share * last))
        low = min(last - 1, int(at))
        part = at - low
        (x0, y0), (x1, y1) = self.centre[low].tolist(), self.centre[low + 1].tolist()
        return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part), degrees(atan2(y1 - y0, x1 - x0))

    def wide_at(self, share: float) -> float:
        return float(np.interp(share * (len(self.width) - 1), range(len(self.width)), self.width))

    def on_edge(self, shares: Numbers, sides: Numbers) -> tuple[Numbers, Numbers]:
        """Points on the edges and the outward direction there; sides are -1 (left) or 1."""
        at = shares * (len(self.centre) - 1)
        index = np.arange(len(self.centre))
        normals = self.normals
        centre = np.stack([np.interp(at, index, self.centre[:, i]) for i in (0, 1)], axis=-1)
        outward = np.stack([np.interp(at, index, normals[:, i]) for i in (0, 1)], axis=-1) * -sides[:, None]
        return centre + outward * (np.interp(at, index, self.width) / 2)[:, None], outward


def tube(start: Point, end: Point, sag: float, wide: float, narrow: float, steps: int = 14) -> Tube:
    """A tube bent like a bow, tapering from `wide` to `narrow`."""
    return Tube(np.array(bow(start, end, sag, steps)), np.linspace(wide, narrow, steps + 1))


def draw_tube(
    sheet: Sheet, stem: Tube, look: StemLook, random: np.random.RandomState, low: float = 0.0, high: float = 1.0
) -> None:
    """The whole look of one tube; `low` and `high` say which part of the plant's height it covers."""
    outline = stem.outline()
    sheet.reach([tuple(outline.min(axis=0).tolist()), tuple(outline.max(axis=0).tolist())])
    colour = mix(look.colour, "#C3CFC4", look.bloom)
    sheet.path(outline_path(outline[None]), colour, transform=TENTHS)
    shadow = np.concatenate([stem.side(0.25), stem.side(1)[::-1]])
    sheet.path(outline_path(shadow[None]), mix(colour, "#2F4A34", 0.55), opacity=0.4, transform=TENTHS)
    light = np.concatenate([stem.side(-0.72), stem.side(-0.38)[::-1]])
    sheet.path(outline_path(light[None]), "#F4F6DE", opacity=0.5, transform=TENTHS)
    if look.flush:
        _flush(sheet, stem, look, low, high)
    if look.section == "ridged":
        lines = np.stack([stem.side(share) for share in _ridge_shares(look.ridges)])
        sheet.path(line_path(lines), stroke=INK, width=8, opacity=0.5, transform=TENTHS)
    if look.marks == "blotched":
        _blotches(sheet, stem, look, random, low, high)
    edges = np.stack([stem.side(-1), stem.side(1)])
    sheet.path(line_path(edges), stroke=INK, width=14, transform=TENTHS)
    sheet.path(line_path(stem.side(0.93)[None]), stroke=INK, width=16, opacity=0.6, transform=TENTHS)
    _hairs(sheet, stem, look.hairs, random, low)


def _ridge_shares(ridges: int) -> list[float]:
    """Where the ridges that face us show: closer together towards the edges."""
    seen = max(2, ridges // 3)
    return [float(np.sin(np.pi * ((i + 0.5) / seen - 0.5))) for i in range(seen)]


def _flush(sheet: Sheet, stem: Tube, look: StemLook, low: float, high: float) -> None:
    """An even purple wash, strongest at the foot of the plant, gone by about half its height."""
    (x0, y0), (x1, y1) = stem.centre[0].tolist(), stem.centre[-1].tolist()

    def strength(height: float) -> float:
        return look.flush * max(0.0, min(1.0, 1.12 - height / 0.62)) * 0.95

    middle = (low + high) / 2
    fill = sheet.gradient(
        (x0 * 10, y0 * 10),
        (x1 * 10, y1 * 10),
        [(0, FLUSH, strength(low)), (0.5, FLUSH, strength(middle)), (1, FLUSH, strength(high))],
    )
    sheet.path(outline_path(stem.outline()[None]), fill, transform=TENTHS)


ROUND = np.linspace(0, 2 * np.pi, 15)[:-1]


def _blotches(sheet: Sheet, stem: Tube, look: StemLook, random: np.random.RandomState, low: float, high: float) -> None:
    """Separate purple patches, longer than wide, denser below; feathered by a paler rim."""
    wide = float(stem.width.mean())
    tries = int(stem.length() / max(6.0, wide * 0.55) * look.blotches * 4)
    rims, cores = [], []
    placed: list[tuple[float, float, float]] = []
    for share, thin, across, length, slim in random.random_sample((tries, 5)).tolist():
        if thin < 0.8 * (low + (high - low) * share):
            continue
        (x, y), heading = stem.place(share)
        half = stem.wide_at(share) / 2
        long = half * (0.3 + 0.62 * length**2) + 1.6
        off = (across * 1.6 - 0.8) * half
        angle = np.radians(heading)
        x, y = x - np.sin(angle) * off, y + np.cos(angle) * off
        if any(abs(x - a) * 1.3 + abs(y - b) < (long + other) * 1.05 for a, b, other in placed):
            continue
        placed.append((x, y, long))
        rough = 1 + 0.2 * np.sin(2 * ROUND + 6 * thin) * across + 0.16 * np.sin(3 * ROUND + 9 * length)
        u, v = np.cos(ROUND) * long * rough, np.sin(ROUND) * long / (1.4 + slim) * rough
        v = np.clip(off + v, -half * 0.96, half * 0.96) - off
        rims.append(_turned(u * 1.2, v * 1.1, x, y, angle))
        cores.append(_turned(u, v, x, y, angle))
    if cores:
        sheet.path(outline_path(np.stack(rims)), BLOTCH, opacity=0.35, transform=TENTHS)
        sheet.path(outline_path(np.stack(cores)), BLOTCH, opacity=0.88, transform=TENTHS)


def _turned(u: Numbers, v: Numbers, x: float, y: float, angle: float) -> Numbers:
    return np.stack([x + u * np.cos(angle) - v * np.sin(angle), y + u * np.sin(angle) + v * np.cos(angle)], axis=-1)


# hairs per 100 units of length, their length in units, width of the line in tenths
HAIRS = {"sparse": (9, 7.0, 7), "downy": (40, 6.0, 6), "bristly": (18, 11.0, 9)}


def _hairs(sheet: Sheet, stem: Tube, hairs: str, random: np.random.RandomState, low: float) -> None:
    """Hairs standing off both edges; soft ones get fewer upwards."""
    if hairs == "hairless":
        return
    per, long, line = HAIRS[hairs]
    count = max(4, int(stem.length() * per / 100))
    if hairs != "bristly":
        count = max(3, int(count * max(0.3, 1 - low)))
    base, outward = stem.on_edge(random.random_sample(count), np.where(random.random_sample(count) < 0.5, -1.0, 1.0))
    lean = (random.random_sample((count, 2)) - 0.5) * 0.8
    reach = long * (0.6 + 0.6 * random.random_sample(count))
    tip = base + (outward + lean + (0, 0.25)) * reach[:, None]
    sheet.path(line_path(np.stack([base, tip], axis=1)), stroke=INK, width=line, opacity=0.85, transform=TENTHS)


@dataclass(frozen=True)
class SheathLook:
    """The sheath at the foot of a leaf stalk: its colour, how swollen, how many hairs fringe its rim."""

    colour: str
    swell: float = 1.5
    fringe: int = 0
    veins: str = ""


def draw_sheath(sheet: Sheet, stalk: Tube, look: SheathLook, share: float, random: np.random.RandomState) -> None:
    """A boat-shaped sheath over the lowest `share` of a leaf stalk."""
    count = max(4, int(len(stalk.centre) * share) + 1)
    swell = 1 + (look.swell - 1) * np.sin(np.pi * np.linspace(0.2, 1.0, count)) ** 0.8
    boat = Tube(stalk.centre[:count], stalk.width[:count] * swell)
    sheet.path(outline_path(boat.outline()[None]), look.colour, INK, 12, transform=TENTHS)
    lines = np.stack([boat.side(s) for s in (-0.6, -0.25, 0.15, 0.5, 0.8)])
    sheet.path(
        line_path(lines), stroke=look.veins or INK, width=9, opacity=0.8 if look.veins else 0.4, transform=TENTHS
    )
    if look.fringe:
        shares = np.tile(np.linspace(0.3, 1.0, look.fringe // 2), 2)
        sides = np.repeat([-1.0, 1.0], look.fringe // 2)
        base, outward = boat.on_edge(shares, sides)
        tip = base + (outward + (random.random_sample(outward.shape) - 0.5) * 0.7) * 9
        sheet.path(line_path(np.stack([base, tip], axis=1)), stroke=INK, width=8, opacity=0.85, transform=TENTHS)
