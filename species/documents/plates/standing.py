"""A plant with a stem: in leaf, in flower, in fruit. The same posture for every species of a pair."""

from dataclasses import dataclass, replace
from math import cos, radians, sin

from species.documents.plates.fruits import fruit_heads
from species.documents.plates.habit import Build, Marks, draw_leaf
from species.documents.plates.individual import Individual
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import Tube, draw_tube, tube
from species.documents.plates.umbel import draw_umbel, flower_heads
from species.documents.plates.umbel_look import View
from species.documents.plates.unreliable import stream


@dataclass(frozen=True)
class Node:
    """A joint of the stem: share of the height, side, and whether a branch springs from it."""

    share: float
    side: int
    branch: bool


def nodes_of(individual: Individual, build: Build, flowering: bool) -> list[Node]:
    count = individual.count(3, 4)
    first = 1 if individual.chance(0.5) else -1
    low, high = (0.2, 0.8) if flowering else (0.22, 0.86)
    branches = min(count, build.branches + individual.count(-1, 1)) if flowering else 0
    return [
        Node(
            low + (high - low) * (i + individual.between(-0.12, 0.12)) / (count - 1),
            first * (-1) ** i,
            i >= count - branches,
        )
        for i in range(count)
    ]


def draw_leafy(sheet: Sheet, individual: Individual, build: Build, tall: float = 880.0) -> Marks:
    """A stem in leaf, its top still closed, with two or three leaves from the ground."""
    stem, marks = _main_stem(individual, build, tall)
    _ground_leaves(sheet, individual, build, individual.count(2, 3), tall * 0.27 * build.ground_scale)
    draw_tube(sheet, stem, build.stem, stream(individual), 0.0, 1.0)
    nodes = nodes_of(individual, build, False)
    for i, node in enumerate(nodes):
        length = tall * build.upper_blade * (0.29 - 0.14 * i / len(nodes))
        _stem_leaf(sheet, individual, build, stem, node, length, i + 1)
    (x, y), heading = stem.place(1.0)
    for off in (-16.0, 15.0, -2.0):
        draw_leaf(
            sheet,
            individual,
            build,
            (x, y),
            heading + off + individual.between(-5, 5),
            tall * individual.between(0.13, 0.17),
            4,
            narrow=0.6,
            droop=0.5,
        )
    return marks


def _main_stem(individual: Individual, build: Build, tall: float) -> tuple[Tube, Marks]:
    lean = individual.between(-55, 55)
    thick = 25.0 * build.slender * individual.near(1.0, 0.12)
    stem = tube((0.0, 6.0), (lean, -tall), individual.between(-24, 24), thick, thick * 0.5, 20)
    marks = Marks(lens=stem.place(individual.between(0.1, 0.14))[0], section=stem.place(0.3)[0])
    return stem, marks


def _ground_leaves(sheet: Sheet, individual: Individual, build: Build, count: int, length: float) -> None:
    first = 1 if individual.chance(0.5) else -1
    for i in range(count):
        heading = -90 + first * (-1) ** i * individual.between(26, 44) * (1.0 if i < 2 else 0.4)
        draw_leaf(
            sheet,
            individual,
            build,
            (6.0 * first * (-1) ** i, 2.0),
            heading,
            length * individual.near(1.0, 0.12),
            0,
            depth=0.45 if i == 2 else 0.0,
            narrow=individual.between(0.75, 0.95),
        )


def _stem_leaf(
    sheet: Sheet, individual: Individual, build: Build, stem: Tube, node: Node, length: float, rank: int
) -> None:
    (x, y), heading = stem.place(node.share)
    turn = heading + node.side * individual.between(34, 50)
    draw_leaf(sheet, individual, build, (x, y), turn, length, min(4, rank), narrow=individual.between(0.72, 0.95))


def draw_heads(sheet: Sheet, individual: Individual, build: Build, fruiting: bool, tall: float = 720.0) -> Marks:
    """A plant in flower or in fruit: leaves below, a main umbel and side umbels above."""
    stem, marks = _main_stem(individual, build, tall)
    _ground_leaves(
        sheet, individual, build, 1 if fruiting else individual.count(1, 2), tall * 0.29 * build.ground_scale
    )
    nodes = nodes_of(individual, build, True)
    branches = [_branch(individual, build, stem, node, tall) for node in nodes if node.branch]
    for branch in branches:
        draw_tube(sheet, branch, build.stem, stream(individual), 0.5, 1.0)
    draw_tube(sheet, stem, build.stem, stream(individual), 0.0, 1.0)
    for i, node in enumerate(nodes):
        length = tall * build.upper_blade * (0.3 - 0.17 * i / len(nodes)) * (0.8 if fruiting else 1.0)
        _stem_leaf(sheet, individual, build, stem, node, length, i + 1)
    for branch in branches:
        _head(sheet, individual, build, branch, individual.near(84, 0.14) * build.head_scale, fruiting, 0.8)
    marks.head = _head(sheet, individual, build, stem, individual.near(116, 0.1) * build.head_scale, fruiting, 1.0)
    return marks


def _branch(individual: Individual, build: Build, stem: Tube, node: Node, tall: float) -> Tube:
    (x, y), heading = stem.place(node.share)
    turn = radians(heading + node.side * individual.between(26, 38))
    reach = tall * individual.between(0.3, 0.36) * (1.25 - 0.5 * node.share)
    end = (x + cos(turn) * reach, y + sin(turn) * reach)
    thick = stem.wide_at(node.share)
    return tube((x, y), end, -node.side * reach * 0.1, thick * 0.72, thick * 0.45)


def _head(
    sheet: Sheet, individual: Individual, build: Build, stem: Tube, radius: float, fruiting: bool, share: float
) -> Point:
    if build.crown is not None:
        return build.crown(sheet, individual, stem, radius, fruiting, share)
    (x, y), heading = stem.place(1.0)
    view = View(x, y, heading * 0.55 - 90 * 0.45, individual.between(0.24, 0.42))
    look = build.umbel
    if share < 1.0:
        look = replace(look, rays=max(5, round(look.rays * share)), flowers=max(6, round(look.flowers * share)))
    draw_umbel(sheet, look, view, radius, stream(individual), fruit_heads if fruiting else flower_heads)
    return (x + radius * 0.55, y - radius * 0.55)
