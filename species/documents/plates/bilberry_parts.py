"""Flower and berry of bilberry."""

from math import atan2, cos, degrees, radians, sin

from species.documents.plates.flower import berry
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Point, Sheet


def draw_berry(sheet: Sheet, centre: Point, radius: float, bloom: float, scar: Point, ink: float = 1.7) -> None:
    """A blue-black berry; `scar` is where its tip lies, from the centre, in radii: a flat disc in a low ring."""
    x, y = centre
    berry(sheet, x, y, radius, "#2B2F4E", 0.35, mix("#2B2F4E", "#9AA2CC", 0.2 + 0.6 * bloom), ink)
    sx, sy = x + scar[0] * radius, y + scar[1] * radius
    far = (scar[0] ** 2 + scar[1] ** 2) ** 0.5
    turn = degrees(atan2(scar[1], scar[0]))
    flat = max(0.35, (1 - far**2) ** 0.5)
    sheet.oval(sx, sy, radius * 0.42 * flat, radius * 0.42, turn, mix("#2B2F4E", "#B9BEDB", 0.35), INK, ink)
    sheet.oval(sx, sy, radius * 0.29 * flat, radius * 0.29, turn, "#20233C", INK, ink * 0.8)
    sheet.oval(sx, sy, radius * 0.06, radius * 0.06, 0, "#8C93B8")


def draw_urn(
    sheet: Sheet, top: Point, long: float, angle: float, colour: str, individual: Individual, ink: float = 1.6
) -> None:
    """A round urn with a narrow mouth and tiny turned-out teeth."""
    a = radians(angle)

    def at(u: float, v: float) -> Point:
        return top[0] + cos(a) * u * long - sin(a) * v * long, top[1] + sin(a) * u * long + cos(a) * v * long

    body = [
        (0.0, 0.16),
        (0.14, 0.4),
        (0.42, 0.52),
        (0.7, 0.43),
        (0.86, 0.24),
        (0.93, 0.3),
        (0.98, 0.26),
        (0.95, 0.0),
        (0.98, -0.26),
        (0.93, -0.3),
        (0.86, -0.24),
        (0.7, -0.43),
        (0.42, -0.52),
        (0.14, -0.4),
        (0.0, -0.16),
    ]
    wash = sheet.gradient(
        at(0.4, 0.5),
        at(0.4, -0.5),
        [(0, tint(colour, 0, 0.1), 1), (0.5, colour, 1), (1, mix(colour, "#7A3F48", 0.4), 1)],
    )
    sheet.shape([at(u, v) for u, v in body], wash, INK, ink)
    sheet.oval(*at(0.93, 0.0), long * 0.2, long * 0.07, angle + 90, mix(colour, INK, 0.6), INK, ink * 0.6)
    rim = [(-0.02, -0.2), (0.08, -0.3), (0.1, 0.0), (0.08, 0.3), (-0.02, 0.2)]
    sheet.shape([at(u, v) for u, v in rim], individual.green_stem, INK, ink * 0.8)
