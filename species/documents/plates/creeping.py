"""A stem that lies along the wet ground, roots at its joints and then rises: how fool's-water-cress stands."""

from dataclasses import dataclass

import numpy as np

from species.documents.plates.fruits import fruit_heads
from species.documents.plates.habit import Build, Marks, draw_leaf
from species.documents.plates.individual import Individual
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import Tube, draw_tube
from species.documents.plates.umbel import draw_umbel, flower_heads
from species.documents.plates.umbel_look import View
from species.documents.plates.underground import threads
from species.documents.plates.unreliable import stream

THICK = 21.0


@dataclass(frozen=True)
class Way:
    """The run of the stem and the shares of its length at which joints sit: lying ones and rising ones."""

    stem: Tube
    lying: tuple[float, ...]
    rising: tuple[float, ...]


def way_of(individual: Individual, tall: float, side: float) -> Way:
    """A stem that creeps for a while and then rises to `tall` units; side 1 creeps from left to right."""
    creep = individual.between(215, 270)
    key = np.array(
        [
            (-creep, -8.0),
            (-creep * 0.66, -15),
            (-creep * 0.33, -9),
            (-18, -14),
            (38, -tall * 0.16),
            (62, -tall * 0.45),
            (70 + individual.between(-26, 26), -tall * 0.75),
            (92 + individual.between(-30, 30), -tall),
        ]
    )
    index = np.linspace(0, len(key) - 1, 44)
    line = np.stack([np.interp(index, range(len(key)), key[:, i]) for i in (0, 1)], axis=-1)
    for _ in range(4):
        line[1:-1] = (line[:-2] + 2 * line[1:-1] + line[2:]) / 4
    line[:, 0] *= side
    width = THICK * np.linspace(1.0, 0.55, len(line))
    joints = individual.count(3, 4)
    lying = tuple(0.03 + 0.36 * i / (joints - 1) for i in range(joints))
    return Way(Tube(line, width), lying, (0.52, 0.64, 0.76, 0.88))


def draw_creeping(sheet: Sheet, individual: Individual, build: Build) -> Marks:
    """Stem, rooting joints, leaves; in flower and fruit an umbel opposite each upper leaf, almost without a stalk."""
    stage = individual.stage
    tall = {"rosette": 170.0, "leafy": 720.0, "flower": 760.0, "fruit": 760.0}[stage]
    way = way_of(individual, tall, 1.0 if individual.chance(0.5) else -1.0)
    random = stream(individual)
    for share in way.lying:
        (x, y), _ = way.stem.place(share)
        threads(sheet, (x, y + 5), individual.count(5, 7), individual.between(60, 84), random)
    _lying_leaves(sheet, individual, build, way, 400.0 if stage == "rosette" else 250.0)
    draw_tube(sheet, way.stem, build.stem, random, 0.0, 1.0)
    _joints(sheet, way)
    if stage == "rosette":
        return _young_top(sheet, individual, build, way)
    marks = Marks(lens=way.stem.place(0.47)[0], section=way.stem.place(0.57)[0])
    side = 1 if individual.chance(0.5) else -1
    for i, share in enumerate(way.rising):
        _rising_joint(sheet, individual, build, way, share, side * (-1) ** i, i, marks)
    (x, y), heading = way.stem.place(1.0)
    for off in (-20.0, 18.0):
        draw_leaf(sheet, individual, build, (x, y), heading + off, tall * 0.14, 4, narrow=0.7, droop=0.5)
    return marks


def _joints(sheet: Sheet, way: Way) -> None:
    for share in (*way.lying, *way.rising):
        (x, y), heading = way.stem.place(share)
        half = way.stem.wide_at(share) / 2
        sheet.oval(x, y, half * 0.35, half * 1.12, heading, "none", "#2B2A26", 1.2)


def _lying_leaves(sheet: Sheet, individual: Individual, build: Build, way: Way, length: float) -> None:
    """Leaves that stand up from the lying joints, the older ones smaller."""
    count = len(way.lying)
    lean = -12.0 if way.stem.centre[0, 0] < 0 else 20.0
    for i, share in enumerate(way.lying):
        if individual.stage != "rosette" and (i == 0 or i == count - 1):
            continue
        (x, y), _ = way.stem.place(share)
        reach = length * (0.62 + 0.38 * i / (count - 1)) * individual.near(1.0, 0.12)
        draw_leaf(
            sheet,
            individual,
            build,
            (x, y),
            -90 + lean * (1 - i / count) + individual.between(-8, 8),
            reach,
            0,
            narrow=individual.between(0.8, 1.0),
            droop=0.5,
        )


def _young_top(sheet: Sheet, individual: Individual, build: Build, way: Way) -> Marks:
    (x, y), _ = way.stem.place(0.62)
    marks = Marks()
    for off in (-13.0, 17.0, 2.0):
        stalk = draw_leaf(
            sheet,
            individual,
            build,
            (x, y),
            -90 + off + individual.between(-6, 6),
            520 * individual.near(1.0, 0.1) * (1.0 if off == 2.0 else 0.8),
            0,
            narrow=individual.between(0.75, 0.92),
            droop=0.3,
        )
        marks.lens, marks.section = stalk.place(0.45)[0], stalk.place(0.8)[0]
    return marks


def _rising_joint(
    sheet: Sheet, individual: Individual, build: Build, way: Way, share: float, side: int, i: int, marks: Marks
) -> None:
    (x, y), heading = way.stem.place(share)
    if individual.stage in ("flower", "fruit") and i > 0:
        turn = np.radians(heading - side * individual.between(46, 60))
        reach = individual.between(10, 32)
        ux, uy = x + float(np.cos(turn)) * reach, y + float(np.sin(turn)) * reach
        stalk = Tube(np.linspace((x, y), (ux, uy), 4), np.full(4, 9.0))
        draw_tube(sheet, stalk, build.stem, stream(individual), 0.6, 0.7)
        view = View(ux, uy, float(np.degrees(turn)) * 0.8 - 90 * 0.2, 0.34)
        heads = fruit_heads if individual.stage == "fruit" else flower_heads
        draw_umbel(sheet, build.umbel, view, individual.near(84, 0.12), stream(individual), heads)
        marks.head = (ux + float(np.cos(turn)) * 50, uy + float(np.sin(turn)) * 50)
    draw_leaf(
        sheet,
        individual,
        build,
        (x, y),
        heading + side * individual.between(42, 56),
        (270 - 32 * i) * individual.near(1.0, 0.1),
        min(3, i + 1),
        narrow=individual.between(0.8, 1.0),
    )
