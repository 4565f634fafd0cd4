"""Small fruits that are drawn many times on one plant."""

from math import cos, radians, sin

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Point, Sheet


def three_lobed(
    sheet: Sheet, individual: Individual, centre: Point, radius: float, squash: float = 1.0, ink: float = 1.3
) -> None:
    """A green capsule of three rounded lobes with the dry style between them."""
    green = individual.coloured("#8FAE62")
    start = individual.between(0, 120)
    places = sorted(
        (
            (
                centre[0] + cos(radians(start + 120 * k)) * radius * 0.62,
                centre[1] + sin(radians(start + 120 * k)) * radius * 0.62 * max(0.6, squash),
            )
            for k in range(3)
        ),
        key=lambda place: place[1],
    )
    for k, (x, y) in enumerate(places):
        sheet.disc(x, y, radius * 0.68, tint(green, 0, 0.04 * k - 0.03), INK, ink)
        sheet.oval(x - radius * 0.2, y - radius * 0.22, radius * 0.2, radius * 0.13, -30, "#E7EEC4", opacity=0.8)
    tip = (centre[0] + radius * 0.1, centre[1] - radius * 0.95)
    sheet.line([centre, tip], mix(INK, "#8A7048", 0.4), ink * 1.2)
