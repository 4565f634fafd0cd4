"""What hangs from the axils of deadly nightshade: a bell, later a berry on its star."""

from dataclasses import dataclass

from species.documents.plates.flower import berry
from species.documents.plates.individual import INK, Individual
from species.documents.plates.nightshade_parts import BERRY_COLOUR, draw_bell, draw_star
from species.documents.plates.svg import Point, Sheet, bow


@dataclass
class Habit:
    """What is settled once for the whole plant, and the places that the insets enlarge."""

    unit: float
    stem: str
    hair: str
    pale: bool
    anchor: Point = (0.0, 0.0)
    mark: Point = (0.0, 0.0)


def _stalk(sheet: Sheet, habit: Habit, place: Point, side: int, drop: float) -> Point:
    end = (place[0] + side * 1.1 * habit.unit, place[1] + drop * habit.unit)
    line = bow(place, end, side * 0.7 * habit.unit, 8)
    sheet.line(line, INK, 6.4)
    sheet.line(line, habit.stem, 4.0)
    return end


def draw_hanging_bell(sheet: Sheet, individual: Individual, habit: Habit, place: Point, side: int) -> None:
    end = _stalk(sheet, habit, place, side, individual.between(0.8, 1.4))
    draw_bell(sheet, individual, habit.pale, end, 3.6 * habit.unit, 90 - side * individual.between(4, 20))
    habit.mark = (end[0], end[1] + 1.4 * habit.unit)


def draw_hanging_berry(sheet: Sheet, individual: Individual, habit: Habit, place: Point, side: int) -> None:
    end = _stalk(sheet, habit, place, side, individual.between(0.5, 1.3))
    radius = individual.between(1.12, 1.34) * habit.unit
    centre = (end[0] + side * radius * 0.5, end[1] + radius * 0.55)
    draw_star(sheet, individual, centre, 1.95 * radius, individual.between(0, 72), 0.82, side * 30 + 90)
    berry(sheet, centre[0] + side * radius * 0.12, centre[1] + radius * 0.12, radius, BERRY_COLOUR, 0.9, ink=1.8)
    habit.mark = centre


def enlarged_flower(inset: Sheet, individual: Individual, habit: Habit) -> None:
    side = 1 if individual.chance(0.5) else -1
    stalk = bow((-side * 40.0, -112.0), (0.0, -60.0), side * 14, 8)
    inset.line(stalk, INK, 12)
    inset.line(stalk, habit.stem, 8.5)
    draw_bell(inset, individual, habit.pale, (0.0, -62.0), 142.0, 90 - side * 6, 2.6)
