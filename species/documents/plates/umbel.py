"""Compound umbels on the plant: rays by golden angle on a cap, umbellets, bracts, bracteoles, flowers or fruits."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from species.documents.plates.compound import TENTHS, Numbers, line_path, outline_path
from species.documents.plates.individual import INK, mix
from species.documents.plates.svg import Sheet

GOLDEN = np.radians(137.508)


@dataclass(frozen=True)
class UmbelLook:
    """What one plant's umbels are made of; `bracts`, `bracteoles` and `fruit` are state ids.

    `rays`, `flowers`: counts of the main umbel and of each small umbel. `cap`: half angle of the dome in degrees.
    `outer`: how much larger the outward petals are. `closing`: 0 open to 1 drawn together like a nest.
    """

    rays: int
    flowers: int
    bracts: str
    bracteoles: str
    fruit: str
    petal: str
    heart: str
    stalk: str
    outer: float = 1.0
    cap: float = 50.0
    closing: float = 0.0
    bract_count: int = 0
    bracteole_count: int = 0
    dark_middle: bool = False
    fruit_colour: str = "#7F8C4E"
    flower_size: float = 1.0
    fringed: bool = False


def _cap(count: int, half_angle: float, random: np.random.RandomState, loose: float) -> Numbers:
    """Directions spread evenly on a cap about the upward axis: columns right, towards us, up."""
    i = np.arange(count) + 0.5
    lean = np.radians(half_angle) * np.sqrt(i / count)
    around = GOLDEN * np.arange(count) + random.random_sample() * 6.28
    lean = lean * (1 + loose * (random.random_sample(count) - 0.5))
    return np.stack([np.sin(lean) * np.cos(around), np.sin(lean) * np.sin(around), np.cos(lean)], axis=-1)


@dataclass(frozen=True)
class View:
    """How a small solid stands on the sheet: joint, heading of its axis (degrees, -90 is up), tilt towards us."""

    x: float
    y: float
    heading: float
    tilt: float = 0.32

    def flat(self, solid: Numbers) -> Numbers:
        """Solid coordinates (right, towards us, up) to sheet coordinates."""
        angle = np.radians(self.heading + 90)
        right = solid[..., 0]
        up = solid[..., 2] - self.tilt * solid[..., 1]
        return np.stack([self.x + right * np.cos(angle) + up * np.sin(angle),
                         self.y + right * np.sin(angle) - up * np.cos(angle)], axis=-1)


FLOWER_TURN = np.arange(15) * (2 * np.pi / 15)
FLOWER_EDGE = np.tile(np.array([0.42, 1.0, 0.98]), 5)


def _flowers(centres: Numbers, outward: Numbers, size: float, outer: float) -> Numbers:
    """Five-petalled outlines at the centres; petals that look along `outward` are `outer` times larger."""
    turn = FLOWER_TURN[None, :]
    swell = 1 + (outer - 1) * np.clip(np.cos(turn - outward[:, None]), 0, 1)
    edge = FLOWER_EDGE[None, :] * size * swell
    return np.stack([centres[:, None, 0] + edge * np.cos(turn), centres[:, None, 1] + 0.78 * edge * np.sin(turn)],
                    axis=-1)


def draw_umbel(sheet: Sheet, look: UmbelLook, view: View, radius: float, random: np.random.RandomState,
               head: "Head") -> None:
    """One umbel; `head` draws what stands at the end of the rays."""
    solid = _cap(look.rays, look.cap, random, 0.25) * (radius * (0.88 + 0.24 * random.random_sample(look.rays)))[:, None]
    if look.closing:
        pull = 1 - 0.75 * look.closing
        solid = solid * np.array([pull, pull, 1.1])
    solid = solid[np.argsort(solid[:, 1])]
    tips = view.flat(solid)
    joint = np.array([view.x, view.y])
    sheet.reach([tuple(tips.min(axis=0).tolist()), tuple(tips.max(axis=0).tolist())])
    rays = _ray_lines(joint, view, solid, look.closing)
    backs = solid[:, 1] < 0
    if look.bracts != "none":
        _bracts(sheet, look, view, radius, random, front=False)
    for chosen in (backs, ~backs):
        _draw_rays(sheet, rays[chosen], look)
        for tip, direction in zip(tips[chosen], solid[chosen], strict=True):
            head(sheet, look, tip, direction / radius, view, radius, random)
    if look.bracts != "none":
        _bracts(sheet, look, view, radius, random, front=True)
    if look.dark_middle:
        x, y = view.flat(np.array([0.0, 0.0, radius * 1.1])).tolist()
        sheet.disc(x, y, radius * 0.045, "#5A1A2E", INK, 0.8)


def _ray_lines(joint: Numbers, view: View, solid: Numbers, closing: float) -> Numbers:
    """Rays as bent lines, shape (rays, 7, 2); in a closing umbel they bow outwards before they meet."""
    share = np.linspace(0, 1, 7)[None, :, None]
    bow = np.array([1.0, 1.0, 0.0]) * np.sin(np.pi * share) * (0.12 + 0.75 * closing)
    return view.flat(solid[:, None, :] * (share + bow))


def _draw_rays(sheet: Sheet, rays: Numbers, look: UmbelLook) -> None:
    if not len(rays):
        return
    d = line_path(rays)
    sheet.path(d, stroke=INK, width=34, transform=TENTHS)
    sheet.path(d, stroke=look.stalk, width=19, transform=TENTHS)


Head = Callable[[Sheet, UmbelLook, Numbers, Numbers, View, float, np.random.RandomState], None]


def flower_head(sheet: Sheet, look: UmbelLook, tip: Numbers, direction: Numbers, view: View, radius: float,
                random: np.random.RandomState) -> None:
    """A small umbel in flower at the end of a ray."""
    small = radius * (0.36 if look.rays < 14 else 0.30)
    inner, outward = _small_umbel(look, tip, direction, view, small, random)
    x, y = tip.tolist()
    middle = inner.mean(axis=0)
    sheet.oval(float(middle[0]), float(middle[1]) + small * 0.1, small * 0.95, small * 0.7, view.heading + 90,
               mix(look.petal, "#7E9170", 0.42), opacity=0.6)
    lines = np.stack([np.repeat(tip[None], len(inner), axis=0), inner], axis=1)
    sheet.path(line_path(lines), stroke=mix(look.stalk, INK, 0.5), width=9, transform=TENTHS)
    _small_bracteoles(sheet, look, tip, direction, small, random)
    size = radius * 0.072 * look.flower_size
    d = outline_path(_flowers(inner, outward, size, look.outer))
    sheet.path(d, look.petal, INK, 7, stroke_opacity="0.85", transform=TENTHS)
    dots = np.stack([inner - (size * 0.16, 0), inner + (size * 0.16, 0)], axis=1)
    sheet.path(line_path(dots), stroke=look.heart, width=10 * size * 0.42, transform=TENTHS)
    sheet.reach([(x - small, y - small), (x + small, y + small)])


def _small_umbel(look: UmbelLook, tip: Numbers, direction: Numbers, view: View, small: float,
                 random: np.random.RandomState) -> tuple[Numbers, Numbers]:
    """Ends of the flower stalks on the sheet and the angle that looks away from the umbel's middle."""
    axis = direction / (np.linalg.norm(direction) or 1.0)
    own = _cap(look.flowers, 66, random, 0.3)
    right = np.array([axis[2], 0.0, -axis[0]])
    right = right / (np.linalg.norm(right) or 1.0)
    front = np.cross(axis, right)
    solid = own[:, :1] * right + own[:, 1:2] * front + own[:, 2:] * axis
    solid = solid[np.argsort(solid[:, 1] - 0.4 * solid[:, 2])]
    ends = View(float(tip[0]), float(tip[1]), view.heading, view.tilt).flat(solid * small)
    middle = np.array([view.x, view.y])
    away = ends - middle
    return ends, np.arctan2(away[:, 1], away[:, 0])


def _small_bracteoles(sheet: Sheet, look: UmbelLook, tip: Numbers, direction: Numbers, small: float,
                      random: np.random.RandomState) -> None:
    """Bracteoles at the joint of a small umbel, as far as they show from the side."""
    if look.bracteoles == "none":
        return
    long = small * 0.48
    outer = np.sign(direction[0]) or 1.0
    turns = np.linspace(0.1, np.pi - 0.1, 5) if look.bracteoles == "all_round" else \
        (np.pi / 2 - outer * np.array([0.95, 0.5, 0.1]))
    turns = turns + 0.15 * (random.random_sample(len(turns)) - 0.5)
    sheet.path(outline_path(_darts(tip, turns, long, 0.2)), mix(look.stalk, "#3E6B34", 0.4), INK, 7,
               transform=TENTHS)


def _darts(at: Numbers, turns: Numbers, long: float, slim: float) -> Numbers:
    """Narrow pointed outlines that start at one place."""
    shape = np.array([(0.0, 0.3), (0.4, 1.0), (1.0, 0.0), (0.4, -1.0), (0.0, -0.3)])
    u, v = shape[:, 0] * long, shape[:, 1] * long * slim / 2
    cos, sin = np.cos(turns)[:, None], np.sin(turns)[:, None]
    return np.stack([at[0] + u * cos - v * sin, at[1] + u * sin + v * cos], axis=-1)


def _bracts(sheet: Sheet, look: UmbelLook, view: View, radius: float, random: np.random.RandomState,
            front: bool) -> None:
    """Bracts at the main joint: the far ones before the rays are drawn, the near ones after."""
    count = look.bract_count
    around = np.arange(count) * 2 * np.pi / count + 0.35
    around = around[(np.sin(around) >= -0.05) == front]
    if look.bracts == "large_divided":
        _feathered(sheet, look, view, radius * 0.62, around, random)
        return
    drop = np.array([-0.55 - 0.25 * random.random_sample(len(around))])
    long = radius * 0.27 * (0.85 + 0.3 * random.random_sample(len(around)))
    solid = np.stack([np.cos(around), np.sin(around), np.broadcast_to(drop, around.shape).ravel()], axis=-1)
    ends = view.flat(solid * long[:, None])
    joint = np.array([view.x, view.y])
    away = ends - joint
    turns = np.arctan2(away[:, 1], away[:, 0])
    for turn, reach in zip(turns, np.hypot(away[:, 0], away[:, 1]), strict=True):
        sheet.path(outline_path(_darts(joint, np.array([turn]), float(reach), 0.34)),
                   mix(look.stalk, "#3E6B34", 0.35), INK, 9, transform=TENTHS)


def _feathered(sheet: Sheet, look: UmbelLook, view: View, long: float, around: Numbers,
               random: np.random.RandomState) -> None:
    """Large bracts cut into three to seven threads."""
    lines = []
    for turn in around.tolist():
        reach = long * (0.85 + 0.3 * random.random_sample())
        base = np.array([np.cos(turn), np.sin(turn), 0.0])
        cup = 0.55 * look.closing + 0.05

        def at(share: float, base: Numbers = base, reach: float = reach, cup: float = cup) -> Numbers:
            rise = np.array([0.0, 0.0, 1.0]) * (cup * share - 0.35 * (share - share * share))
            return (base * share + rise) * reach

        lines.append([at(s) for s in np.linspace(0, 1, 6)])
        side = np.array([-np.sin(turn), np.cos(turn), 0.15])
        for start in (0.3, 0.5, 0.68)[: 1 + int(random.random_sample() * 3)]:
            for hand in (1.0, -1.0):
                tip = at(min(1.0, start + 0.36)) + side * hand * reach * 0.17
                lines.append(np.linspace(at(start), tip, 6).tolist())
    d = line_path(view.flat(np.array(lines)))
    sheet.path(d, stroke=INK, width=30, transform=TENTHS)
    sheet.path(d, stroke=mix(look.stalk, "#3E6B34", 0.3), width=17, transform=TENTHS)

