"""How broad undivided leaves stand: size, curve and swing, with one distribution for all plants of the spring wood.

Ramsons and the plants mistaken for it share these numbers, since outline, size and number of veins tell nothing.
"""

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from species.documents.plates.individual import INK, Individual
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.outline import Outline, profile
from species.documents.plates.svg import Point, Sheet, strokes
from species.documents.plates.veins import parallel


@dataclass(frozen=True)
class Posture:
    """Length and width in units, exponents of the outline, and how the blade is laid."""

    length: float
    width: float
    a: float
    b: float
    bend: float
    turn: float
    twist: float
    late: float
    wave: float
    veins: int

    def outline(self, individual: Individual, foot: float = 11.0) -> Outline:
        return profile(self.length, self.width, self.a, self.b, individual.lopsided, wave=self.wave, foot=foot)

    def pose(self, origin: Point, heading: float) -> Pose:
        return Pose(origin, heading, self.length, self.bend, self.turn, self.twist, late=self.late)


def spring_leaf(individual: Individual, heading: float, unit: float) -> Posture:
    """A leaf of this heading (degrees from upright); outer leaves arch more."""
    young = 0.62 if individual.form == "young" else 1.0
    long = individual.between(11.5, 18.5) * individual.size * young * unit
    outward = 1 if heading > individual.between(-5, 5) else -1
    return Posture(
        length=long,
        width=long / individual.between(2.3, 4.0) * (0.72 if individual.form == "young" else 1.0),
        a=individual.between(0.98, 1.35),
        b=individual.between(0.9, 1.2),
        bend=outward * individual.between(6, 30 + abs(heading) * 1.2),
        turn=individual.between(-0.55, 0.55),
        twist=individual.between(-0.7, 0.7),
        late=individual.between(1.5, 2.4),
        wave=individual.between(0.0, 0.03),
        veins=individual.count(13, 21),
    )


def fan(individual: Individual, leaves: int, spread: float) -> list[float]:
    """Headings of so many leaves between -spread and +spread, in the order in which they are drawn."""
    headings = [
        (2 * k / (leaves - 1) - 1) * spread + individual.between(-5, 5) if leaves > 1 else individual.between(-12, 12)
        for k in range(leaves)
    ]
    individual.rng.shuffle(headings)
    return headings


def lay_parallel(
    sheet: Sheet, individual: Individual, posture: Posture, origin: Point, heading: float, foot: float = 11.0
) -> Point:
    """Draw a blade with parallel veins; gives a place near its edge for the lens."""
    outline, pose = posture.outline(individual, foot), posture.pose(origin, heading)
    draw_blade(sheet, outline, pose, look_of(individual), parallel(outline, posture.veins))
    return near_edge(outline, pose)


def near_edge(outline: Outline, pose: Pose, share: float = 0.55) -> Point:
    """A place between midrib and edge on the side that faces us."""
    x = outline.length * share
    return pose.place(x, outline.reach(pose.near, x) * 0.72, pose.near)


def crumbs(sheet: Sheet, xs: list[float], rng: Random, spread: float = 16.0) -> None:
    """A little earth in front of the foot of each stalk."""
    pieces = []
    for x in xs:
        for _ in range(5):
            px, py = x + rng.gauss(0, spread), rng.uniform(3, 11)
            pieces.append([(px, py), (px + rng.uniform(3, 9), py + rng.uniform(-1.5, 1.5))])
    sheet.path(strokes(pieces), stroke="#5A4932", width=2.4, opacity=0.8)


def earth_inset(sheet: Sheet, draw: Callable[[Sheet], None], rng: Random, line: float = 62.0) -> None:
    """An inset that shows the foot of a plant: `draw` puts it there, with the ground at y = `line`."""
    wash = sheet.gradient((0, line - 4), (0, line + 34), [(0, "#A48B62", 0.65), (1, "#A48B62", 0.12)])
    sheet.path(f"M-110 {line}Q-40 {line - 6} 0 {line}T110 {line}V110H-110Z", fill=wash)
    draw(sheet)
    pieces = []
    for _ in range(26):
        px, py = rng.uniform(-90, 90), line + abs(rng.gauss(0, 9)) + 3
        pieces.append([(px, py), (px + rng.uniform(2, 8), py + rng.uniform(-1.5, 1.5))])
    sheet.path(strokes(pieces), stroke=INK, width=1.5, opacity=0.45)
