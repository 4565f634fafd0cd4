"""Flowers and fruits of dog's mercury: tassels of the male plants, few flowers and hairy capsules of the female."""

from math import cos, radians, sin

from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.stem import hairs
from species.documents.plates.svg import Point, Sheet, along, bow, ovals


def draw_tassels(sheet: Sheet, individual: Individual, female: bool, place: Point, unit: float) -> Point:
    """From the axils: standing spikes of small green clusters, or one to three flowers on a shorter stalk."""
    colour = individual.coloured("#B7C67C")
    place_of = place
    for side in (1, -1):
        long = individual.between(2.4, 3.4) * unit if female else individual.between(4.2, 6.0) * unit
        tip = (place[0] + side * long * individual.between(0.28, 0.5), place[1] - long * 0.92)
        line = bow(place, tip, side * long * 0.1, 10)
        sheet.line(line, INK, 3.2)
        sheet.line(line, mix(colour, "#8DAA5C", 0.5), 1.7)
        dots: list[tuple[float, float, float, float, float]] = []
        if female:
            for f in (0.86, 1.0):
                x, y = along(line, f)[0]
                size = 11.5 if individual.stage == "fruit" else 7.5
                dots += [(x + way * size * 0.75, y, size, size * 0.94, 0) for way in (-1, 1)]
        else:
            for j in range(9):
                x, y = along(line, 0.3 + 0.7 * j / 8)[0]
                dots += [
                    (
                        x + individual.between(-7, 7),
                        y + individual.between(-5, 5),
                        individual.between(4, 5.6),
                        individual.between(3.4, 4.6),
                        individual.between(0, 180),
                    )
                    for _ in range(4)
                ]
        sheet.path(ovals(dots), fill=colour, stroke=INK, width=1.0)
        place_of = along(line, 0.75)[0]
    return place_of


def enlarged_flowers(inset: Sheet, individual: Individual, female: bool) -> None:
    colour = individual.coloured("#B7C67C")
    stalk = bow((-30.0, 112.0), (14.0, -104.0), 8.0, 10)
    inset.line(stalk, INK, 9)
    inset.line(stalk, mix(colour, "#8DAA5C", 0.5), 6)
    shares = (0.45, 0.92) if female else (0.22, 0.5, 0.76, 0.97)
    for f in shares:
        x, y = along(stalk, f)[0]
        for side in (1, -1):
            if female:
                size = 27.0 if individual.stage == "fruit" else 20.0
                inset.oval(x + side * size * 0.85, y, size, size * 0.95, 0, colour, INK, 1.8)
                middle = x + side * size * 0.85
                rim = [(middle + cos(radians(t)) * size, y + sin(radians(t)) * size * 0.95) for t in range(0, 361, 30)]
                hairs(inset, rim, 1, 22, 8.0, individual.rng, width=1.1)
                continue
            for turn in (90, 210, 330):
                a = radians(turn + side * 20)
                c = (x + side * 20, y - 4)
                sepal = [
                    c,
                    (c[0] + cos(a - 0.6) * 11, c[1] + sin(a - 0.6) * 11),
                    (c[0] + cos(a) * 20, c[1] + sin(a) * 20),
                    (c[0] + cos(a + 0.6) * 11, c[1] + sin(a + 0.6) * 11),
                ]
                inset.shape(sepal, colour, INK, 1.5)
            inset.path(
                ovals(
                    [
                        (x + side * 20 + individual.between(-9, 9), y - 4 + individual.between(-9, 9), 3.2, 3.2, 0)
                        for _ in range(7)
                    ]
                ),
                fill="#EFE6A6",
                stroke=INK,
                width=0.9,
            )
