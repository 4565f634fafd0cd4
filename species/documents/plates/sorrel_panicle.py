"""The flower spike of common sorrel."""

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Points, Sheet, along, bow, ovals, smooth


def draw_panicle(sheet: Sheet, individual: Individual, line: Points, unit: float, stalk: str, male: bool) -> None:
    """Upright branches set with whorls of tiny flowers."""
    colour = individual.coloured("#C98B6A" if male else "#B4564A")
    dots: list[tuple[float, float, float, float, float]] = []
    stalks = []
    for k in range(9):
        share = 0.62 + 0.36 * k / 8
        place, _ = along(line, share)
        side = 1 if k % 2 else -1
        long = (4.6 - 3.4 * k / 8) * unit * individual.between(0.85, 1.15)
        end = (place[0] + side * long * 0.42, place[1] - long)
        branch = bow(place, end, side * long * 0.1, 8)
        stalks.append(smooth(branch))
        dots += _whorls(individual, branch, max(4, int(9 - k * 0.6)))
        sheet.reach([end])
    dots += _whorls(individual, [along(line, 0.6 + 0.08 * i)[0] for i in range(6)], 10)
    if individual.stage == "fruit":
        dots = [(x, y, rx * 1.55, ry * 1.9, turn) for x, y, rx, ry, turn in dots[::2]]
        colour = mix(colour, "#8A4A30", 0.35)
    sheet.path("".join(stalks), stroke=INK, width=3.4)
    sheet.path("".join(stalks), stroke=stalk, width=2.0)
    sheet.path(ovals(dots[::2]), fill=mix(colour, "#7A3630", 0.4), stroke=INK, width=0.9)
    sheet.path(ovals(dots[1::2]), fill=tint(colour, 2, 0.06), stroke=INK, width=0.9)


def _whorls(individual: Individual, branch: Points, count: int) -> list[tuple[float, float, float, float, float]]:
    out = []
    for j in range(count):
        (x, y), _ = along(branch, 0.16 + 0.84 * j / count)
        for _ in range(5):
            out.append(
                (
                    x + individual.between(-11, 11),
                    y + individual.between(-5, 7),
                    individual.between(4.2, 5.6),
                    individual.between(3.0, 4.2),
                    individual.between(50, 130),
                )
            )
    return out
