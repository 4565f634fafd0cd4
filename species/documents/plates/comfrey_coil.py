"""The coils of nodding bells of comfrey."""

from math import cos, radians, sin

from species.documents.plates.flower import bell
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.svg import Point, Sheet, along


def _curve(start: Point, way: int, reach: float) -> list[Point]:
    """An arch that rolls in at its tip."""
    points: list[Point] = [start]
    x, y = start
    angle, step = radians(-78), reach / 11
    for i in range(26):
        x += cos(angle) * step * way
        y += sin(angle) * step
        points.append((x, y))
        angle += 0.17 if i < 8 else 0.34
        step *= 0.955 if i < 8 else 0.9
    return points


def draw_coil(sheet: Sheet, individual: Individual, colour: str, start: Point, way: int, reach: float) -> None:
    """A stalk that arches over and rolls in at its tip; open bells hang from it, buds sit on the roll."""
    points = _curve(start, way, reach)
    sheet.line(points, INK, 8.5)
    sheet.line(points, individual.green_stem, 5.6)
    flowers = individual.count(6, 8)
    for k in range(flowers - 1, -1, -1):
        part = k / (flowers - 1)
        x, y = along(points, 0.3 + 0.62 * part)[0]
        grow = 1 - 0.68 * part
        top = (x + way * 7 * grow, y + 14 * grow)
        if individual.stage == "fruit":
            _nutlets(sheet, individual, (x, y), top, 40 * grow + 10, way)
            continue
        _flower(sheet, individual, (x, y), top, 84 * grow + 8, way, colour, open_=k < flowers * 0.7)
    tx, ty = points[-6]
    bud = mix(colour, individual.green, 0.6)
    for turn in range(0, 300, 60):
        sheet.oval(tx + cos(radians(turn)) * 10, ty + sin(radians(turn)) * 10, 7, 5, turn, bud, INK, 1.0)


def _nutlets(sheet: Sheet, individual: Individual, joint: Point, top: Point, long: float, way: int) -> None:
    """A calyx of pointed lobes that has grown round four dark shining nutlets."""
    sheet.line([joint, top], INK, 3.6)
    sheet.line([joint, top], individual.green_stem, 2.0)
    green = mix(individual.green, "#C9B98A", 0.45)
    x, y = top
    for turn in (-52, -24, 24, 52, 0):
        a = radians(90 + turn)
        tip = (x + cos(a) * long * 1.25, y + sin(a) * long * 1.25)
        left, right = ((x + cos(a + s) * long * 0.5, y + sin(a + s) * long * 0.5) for s in (-0.42, 0.42))
        sheet.shape([(x, y), left, tip, right], green, INK, 1.2, soft=False)
    for off in (-0.24, 0.24):
        sheet.oval(x + off * long, y + long * 0.62, long * 0.24, long * 0.3, 0, "#2C2622", INK, 1.0)
        sheet.disc(x + off * long - long * 0.06, y + long * 0.5, long * 0.06, "#B9B2A4")


def _flower(
    sheet: Sheet, individual: Individual, joint: Point, top: Point, long: float, way: int, colour: str, open_: bool
) -> None:
    """A narrow bell with five small teeth, in a bristly calyx of pointed lobes."""
    sheet.line([joint, top], INK, 3.6)
    sheet.line([joint, top], individual.green_stem, 2.0)
    angle = 90 - way * individual.between(2, 14)
    bell(sheet, top, long, long * 0.5, angle, colour, curl=0.12, ink=1.5, closed=not open_)
    a = radians(angle)
    green = mix(individual.green, "#C9D59A", 0.2)
    for off in (-0.3, 0.0, 0.3):
        tip = (top[0] + cos(a) * long * 0.42 - sin(a) * long * off, top[1] + sin(a) * long * 0.42 + cos(a) * long * off)
        left = (top[0] - sin(a) * long * (off * 0.5 - 0.1), top[1] + cos(a) * long * (off * 0.5 - 0.1))
        right = (top[0] - sin(a) * long * (off * 0.5 + 0.1), top[1] + cos(a) * long * (off * 0.5 + 0.1))
        sheet.shape([left, tip, right], green, INK, 1.1, soft=False)
