"""Outlines of the last segments of divided leaves, in a unit frame.

Every outline runs from (0, 0) along +x to about (1, 0); widths are shares of the length. Shapes are arrays of
(points, 2). Several variants of one shape keep a leaf from looking stamped.
"""

from functools import cache

import numpy as np
from numpy.typing import NDArray

Outline = NDArray[np.float64]


def _mirrored(upper: list[tuple[float, float]], jog: float) -> Outline:
    """The upper edge from base to tip, and the same below, pushed `jog` along so that sides do not match."""
    lower = [(x + jog * np.sin(np.pi * x), -y) for x, y in reversed(upper[:-1])]
    return np.array([*upper, *lower])


def _cut(lobes: int, width: float, depth: float, forward: float, jog: float, peak: float = 0.35) -> Outline:
    """A lance cut into pointed lobes a side: width at the broadest, depth of the cuts, lobes leaning forward."""
    upper: list[tuple[float, float]] = [(0.0, 0.012)]
    for i in range(lobes):
        s = (i + 0.5) / (lobes + 0.6)
        half = width * (s / peak) ** 0.5 if s < peak else width * ((1 - s) / (1 - peak)) ** 0.8
        upper.append((max(0.03, s - 0.28 / lobes), max(0.014, half * (1 - depth))))
        upper.append((min(0.97, s + forward * half), half))
    upper.append((0.93, width * 0.12))
    upper.append((1.0, 0.0))
    return _mirrored(upper, jog)


@cache
def lance_cut() -> tuple[Outline, ...]:
    """Cow parsley: lance segments with two or three deep pointed lobes a side."""
    return tuple(_cut(n, 0.27, 0.5, 0.7, jog) for n, jog in ((3, 0.02), (2, -0.03), (3, -0.02), (2, 0.03)))


@cache
def fine_cut() -> tuple[Outline, ...]:
    """Hemlock: small pointed segments, finely and evenly cut."""
    return tuple(_cut(n, 0.27, 0.5, 0.55, jog) for n, jog in ((3, 0.02), (3, -0.03), (2, 0.02), (3, 0.05)))


@cache
def narrow_cut() -> tuple[Outline, ...]:
    """Wild carrot: narrow segments with deep narrow lobes."""
    return tuple(_cut(n, 0.2, 0.72, 1.1, jog) for n, jog in ((2, 0.02), (3, -0.03), (2, -0.02), (3, 0.04)))


@cache
def lance_plain() -> tuple[Outline, ...]:
    """First leaves of pignut: lance segments with one or two lobes."""
    return tuple(_cut(n, 0.25, 0.45, 0.7, jog, 0.45) for n, jog in ((1, 0.02), (2, -0.02), (2, 0.03)))


def _wedge(teeth: int, half_angle: float, reach: float, lean: float) -> Outline:
    """Straight edges from a point, the top cut into blunt teeth; `lean` tips it to one side."""
    slope = np.tan(half_angle)
    edge = reach * 0.68
    points = [(0.0, 0.01), (edge * 0.5, edge * 0.5 * slope), (edge, edge * slope)]
    spread = edge * slope
    for i in range(teeth):
        s = (i + 0.5) / teeth
        y = spread * (1 - 2 * s)
        top = reach * (1.0 - 0.26 * abs(1 - 2 * s) ** 1.6) + lean * y
        gap = spread / teeth
        points += [(top - 0.035, y + gap * 0.55), (top, y + gap * 0.12), (top - 0.03, y - gap * 0.5)]
        if i < teeth - 1:
            points.append((top - 0.16, y - gap * 0.95))
    points += [(edge, -edge * slope), (edge * 0.5, -edge * 0.5 * slope), (0.0, -0.01)]
    return np.array(points)


@cache
def wedge() -> tuple[Outline, ...]:
    """Hemlock water-dropwort: wedges of 64 to 78 degrees with three to five blunt teeth."""
    return (
        _wedge(3, np.radians(33), 1.0, 0.08),
        _wedge(4, np.radians(36), 0.98, -0.1),
        _wedge(5, np.radians(39), 0.96, 0.05),
        _wedge(3, np.radians(35), 1.02, -0.05),
    )


def _toothed(teeth: int, width: float, depth: float, blunt: bool, a: float, b: float, lobe: float) -> Outline:
    """An ovate leaflet with saw teeth (or blunt ones); `lobe` cuts one deeper notch into the lower side."""
    peak = a / (a + b)
    step = 3 if blunt else 2

    def half(t: float) -> float:
        return width / 2 * (t / peak) ** a * ((1 - t) / (1 - peak)) ** b

    sides = []
    for notch in (0.0, lobe):
        edge = []
        for i in range(teeth * step):
            t = 0.02 + 0.95 * i / (teeth * step)
            bump = (0.0, 1.0, 0.8)[i % 3] if blunt else (0.0, 1.0)[i % 2]
            deep = notch * np.exp(-(((t - 0.3) / 0.05) ** 2))
            lean = 0.35 * depth if not blunt else 0.0
            edge.append((t + lean * bump, half(t) * (1 - deep) + depth * bump))
        sides.append(edge)
    lower = [(x, -y) for x, y in reversed(sides[1])]
    return np.array([(0.0, 0.0), *sides[0], (1.0, 0.0), *lower])


@cache
def broad_toothed() -> tuple[Outline, ...]:
    """Alexanders: broad, rounded, evenly toothed leaflets."""
    return tuple(
        _toothed(n, w, 0.035, True, 0.55, 0.95, lobe)
        for n, w, lobe in ((9, 0.78, 0.0), (10, 0.74, 0.0), (8, 0.82, 0.35))
    )


@cache
def parsnip_toothed() -> tuple[Outline, ...]:
    """Wild parsnip: ovate saw-toothed leaflets, often with a lobe on the lower side."""
    return tuple(
        _toothed(n, w, 0.06, False, 0.42, 0.8, lobe) for n, w, lobe in ((8, 0.6, 0.3), (9, 0.64, 0.55), (8, 0.56, 0.4))
    )


@cache
def elder_toothed() -> tuple[Outline, ...]:
    """Ground elder: ovate pointed saw-toothed leaflets, some with a deep lobe on one side."""
    return tuple(
        _toothed(n, w, 0.032, False, 0.5, 1.0, lobe)
        for n, w, lobe in ((14, 0.54, 0.0), (13, 0.58, 0.6), (15, 0.5, 0.0), (13, 0.56, 0.35))
    )


@cache
def cress_toothed() -> tuple[Outline, ...]:
    """Fool's-water-cress: ovate-lance leaflets with blunt low teeth."""
    return tuple(_toothed(n, w, 0.024, True, 0.6, 1.0, 0.0) for n, w in ((10, 0.5), (11, 0.46), (10, 0.54)))


@cache
def first_leaflet() -> tuple[Outline, ...]:
    """First leaves of water-dropwort: broad leaflets, wedge-shaped at the very base, lobed above."""
    return (_wedge(5, np.radians(42), 0.98, 0.06), _wedge(4, np.radians(40), 1.0, -0.08))


@cache
def thread() -> tuple[Outline, ...]:
    """Stem leaves of pignut and leaves of yarrow: hardly wider than a thread."""
    return (
        np.array([(0.0, 0.045), (0.6, 0.05), (1.0, 0.0), (0.6, -0.05), (0.0, -0.045)]),
        np.array([(0.0, 0.045), (0.5, 0.09), (1.0, 0.06), (0.9, -0.03), (0.0, -0.045)]),
    )
