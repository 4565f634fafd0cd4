"""Small sprawling plants with opposite leaves: the posture that chickweed and scarlet pimpernel share.

Number, length and bend of the stems, size and number of leaves tell nothing, so both plants take them from here. A
species says what stem, leaf and what hangs from the axils are like.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import cos, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.outline import Outline, profile
from species.documents.plates.posture import crumbs
from species.documents.plates.regions import STEM
from species.documents.plates.stem import draw_stem, hairs, sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, bow
from species.documents.plates.veins import pinnate

# (sheet, individual, joint, side, heading of the stem in degrees from upright, height 0 to 1) -> place on the flower
AxilDrawer = Callable[[Sheet, Individual, Point, int, float, float], Point]


@dataclass(frozen=True)
class Sprawl:
    """The parts of one individual: leaf stalks (share of the blade, low and high on the stem), stem, axils, insets."""

    stalks: tuple[float, float]
    axil: AxilDrawer | None
    line_of_hairs: bool
    stem_lens: Callable[[Sheet], None]
    leaf_lens: Callable[[Sheet], None]
    whorled: bool = False


@dataclass
class _Marks:
    stem: Point = (0.0, -60.0)
    leaf: Point = (0.0, -120.0)
    hanging: list[tuple[Point, int, float, float]] = field(default_factory=list)


def sprawling_plate(
    individual: Individual, sprawl: Sprawl, characters: dict[str, str], features: tuple[str, ...]
) -> Drawing:
    """Two or three stems that lie and rise from one place, each forking once."""
    sheet, marks = Sheet(), _Marks()
    stems = individual.count(2, 3)
    order = sorted(range(stems), key=lambda k: -abs(k - (stems - 1) / 2))
    for k in order:
        lean = (k - (stems - 1) / 2) * individual.between(26, 36) + individual.between(-7, 7)
        long = individual.between(640, 760) * (1 + 0.2 * individual.shade) * (0.8 if individual.form == "young" else 1)
        _stem(sheet, individual, sprawl, (lean * 0.3, 4.0), lean, long, 5, marks)
    for joint, side, heading, height in marks.hanging:
        if sprawl.axil is not None:
            sprawl.axil(sheet, individual, joint, side, heading, height)
    crumbs(sheet, [-12.0, 12.0], individual.rng)
    lens, second = sheet.layer(), sheet.layer()
    sprawl.stem_lens(lens)
    sprawl.leaf_lens(second)
    return Drawing(
        sheet,
        characters,
        (Inset(lens, marks.stem, STEM), Inset(second, marks.leaf, ("leaf_dots", "leaf_hairs"))),
        features=features,
    )


def _stem(
    sheet: Sheet,
    individual: Individual,
    sprawl: Sprawl,
    foot: Point,
    lean: float,
    long: float,
    joints: int,
    marks: _Marks,
    fork: bool = True,
) -> None:
    """One stem with its pairs of leaves; the line of hairs moves a quarter turn at each joint."""
    a = radians(lean * 1.15)
    end = (foot[0] + sin(a) * long, foot[1] - cos(a) * long * 0.95)
    line = bow(foot, end, -lean / 40 * long * 0.1, 20)
    wide = taper(14, 9)
    turned = 0 if individual.chance(0.5) else 1
    shares = [0.16 + 0.8 * k / (joints - 1) for k in range(joints)]
    if fork:
        place, _ = along(line, shares[1])
        way = -1 if lean > 0 else 1
        off = lean + way * individual.between(26, 40)
        _stem(sheet, individual, sprawl, place, off, long * individual.between(0.42, 0.5), 3, marks, fork=False)
    if sprawl.line_of_hairs:
        _one_line(sheet, individual, line, shares, turned)
    draw_stem(sheet, line, wide, mix(individual.green_stem, individual.green, 0.2), ink=1.5)
    for k, share in enumerate(shares):
        place, _ = along(line, share)
        heading = lean if share < 0.9 else lean * 0.6
        small = (0.85, 1.0, 0.95, 0.8, 0.6)[min(4, k + (0 if fork else 1))]
        _pair(sheet, individual, sprawl, place, heading, small, share, (k + turned) % 2 == 0, marks)
        if k > fork and individual.chance(0.85):
            marks.hanging.append((place, 1 if (k + turned) % 2 else -1, heading, share))
    if fork:
        marks.stem = along(line, (shares[2] + shares[3]) / 2)[0]


def _one_line(sheet: Sheet, individual: Individual, line: Points, shares: list[float], turned: int) -> None:
    """Hairs along one side of each internode: left, right, then out of sight on the face."""
    edges = sides(line, taper(14, 9))
    last = len(line) - 1
    for k, (low, high) in enumerate(zip([0.0, *shares], [*shares, 1.0], strict=True)):
        side = (k + turned) % 2
        part = edges[side][round(low * last) : round(high * last) + 1]
        if len(part) > 1:
            hairs(sheet, part, -1 if side else 1, 16, 12.0, individual.rng, width=1.2, soft=True)


def _pair(
    sheet: Sheet,
    individual: Individual,
    sprawl: Sprawl,
    place: Point,
    heading: float,
    small: float,
    height: float,
    sideways: bool,
    marks: _Marks,
) -> None:
    """Two leaves at one height (or three), to left and right, or seen from the edge."""
    leaves = [(1, 1.0), (-1, 1.0)] + ([(0, 0.8)] if sprawl.whorled else [])
    for side, part in leaves:
        turn = heading + side * individual.between(50, 72) if side else heading + individual.between(-14, 14)
        long = individual.between(150, 185) * small * part
        stalk = long * (sprawl.stalks[0] + (sprawl.stalks[1] - sprawl.stalks[0]) * height)
        a = radians(turn)
        start = (place[0] + sin(a) * (stalk + 3), place[1] - cos(a) * (stalk + 3))
        if stalk > 6:
            draw_stem(sheet, [place, start], taper(6, 5), individual.green_stem, ink=1.2)
        outline, pose = leaf_shape(individual, long, start, turn, 1.0 if sideways or not side else 0.74)
        look = look_of(individual, midrib=2.2, small=True)
        draw_blade(sheet, outline, pose, look, pinnate(outline, 3, 44, 0.85, width=0.9, start=0.05))
        if side > 0 and height < 0.7:
            marks.leaf = pose.place(outline.length * 0.5, 0.0)


def leaf_shape(
    individual: Individual, long: float, start: Point, heading: float, narrow: float = 1.0
) -> tuple[Outline, Pose]:
    """An egg-shaped pointed leaf, the same for both plants."""
    outline = profile(
        long,
        long / individual.between(1.45, 1.7),
        individual.between(0.62, 0.72),
        individual.between(1.1, 1.25),
        individual.lopsided,
        foot=5,
        steps=11,
    )
    bend = individual.between(-6, 22) * (1 if heading > 0 else -1)
    return outline, Pose(start, heading, long, bend, individual.between(-0.4, 0.4), narrow=narrow)
