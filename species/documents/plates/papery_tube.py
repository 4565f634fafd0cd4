"""The fringed papery tube that the dock family wears round its joints."""

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.stem import sides, taper
from species.documents.plates.svg import Point, Points, Sheet, along, smooth, straight

PAPERY = "#D9C7A8"


def papery_tube(sheet: Sheet, individual: Individual, line: Points, width: float, teeth: int, ink: float = 1.5) -> None:
    """A brownish papery sleeve along the line, its rim cut into a fringe at the far end."""
    one, two = sides(line, taper(width, width * 1.08))
    dx, dy = along(line, 1.0)[1]
    rim: list[Point] = []
    for k in range(teeth + 1):
        share = k / teeth
        x = one[-1][0] + (two[-1][0] - one[-1][0]) * share
        y = one[-1][1] + (two[-1][1] - one[-1][1]) * share
        rim.append((x, y))
        if k < teeth:
            tall = width * individual.between(0.28, 0.46)
            mid = share + 0.5 / teeth
            rim.append(
                (
                    one[-1][0] + (two[-1][0] - one[-1][0]) * mid + dx * tall + individual.between(-2, 2),
                    one[-1][1] + (two[-1][1] - one[-1][1]) * mid + dy * tall,
                )
            )
    around = [*one, *rim, *reversed(two)]
    sheet.reach(around)
    wash = sheet.gradient(
        one[0], two[0], [(0, tint(PAPERY, 0, 0.06), 1), (0.6, PAPERY, 1), (1, mix(PAPERY, "#7A5B43", 0.45), 1)]
    )
    sheet.path(straight(around, True), fill=wash, opacity=0.97)
    nerves = [
        smooth([(a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f) for a, b in zip(one, two, strict=True)])
        for f in (0.25, 0.5, 0.75)
    ]
    sheet.path("".join(nerves), stroke="#8A5E4A", width=ink * 0.6, opacity=0.7)
    sheet.path(smooth(one) + smooth(two), stroke=INK, width=ink)
    sheet.path(straight(rim), stroke=INK, width=ink * 0.55, stroke_linejoin="round")
