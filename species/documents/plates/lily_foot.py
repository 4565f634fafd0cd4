"""The foot of a shoot of lily-of-the-valley: one stalk a tube round the next, in brown-purple scales."""

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Sheet, bow, smooth

SCALE_COLOUR = "#9A6E66"


def draw_scales(sheet: Sheet, individual: Individual, x: float, side: int) -> None:
    """Brown-purple papery scales round the foot of the shoot."""
    colour = individual.coloured(SCALE_COLOUR)
    for flip, tall in ((side, individual.between(78, 108)), (-side, individual.between(46, 66))):
        points = [
            (x - flip * 15, 8.0),
            (x - flip * 15, -tall * 0.45),
            (x + flip * 3, -tall),
            (x + flip * 14, -tall * 0.5),
            (x + flip * 16, 8.0),
        ]
        wash = sheet.gradient((x, -tall), (x, 8), [(0, mix(colour, "#E7D6C0", 0.35), 1), (1, colour, 1)])
        sheet.path(smooth(points) + "Z", fill=wash, stroke=INK, width=1.5)
        sheet.path(
            "".join(
                smooth([(x + flip * d, 4.0), (x + flip * (d * 0.8 + 1), -tall * 0.4), (x + flip * 3, -tall * 0.86)])
                for d in (-8, 0, 8)
            ),
            stroke=mix(colour, INK, 0.5),
            width=0.8,
        )
        sheet.reach(points)


def enlarged_foot(inset: Sheet, individual: Individual, blades: int) -> None:
    """The tube with the second stalk coming out of it, and the scales round its foot."""
    colour = individual.green_stem
    side = 1 if individual.chance(0.5) else -1
    if blades > 1:
        inner = tint(colour, 0, 0.04)
        draw_stem(inset, bow((side * 2.0, 30.0), (-side * 20.0, -112.0), side * 4.0, 8), taper(27, 25), inner)
        outer = [
            (-side * 27, 70.0),
            (-side * 27, 20.0),
            (-side * 25, -8.0),
            (-side * 4, -22.0),
            (side * 22, -52.0),
            (side * 46, -112.0),
            (side * 84, -112.0),
            (side * 46, -44.0),
            (side * 28, 14.0),
            (side * 26, 70.0),
        ]
        wash = inset.gradient((-30, 0), (30, 0), [(0, tint(colour, 0, 0.05), 1), (1, tint(colour, 0, -0.09), 1)])
        inset.path(smooth(outer) + "Z", fill=wash)
        inset.path(smooth(outer[:6]), stroke=INK, width=2.8)
        inset.path(smooth(outer[6:]), stroke=INK, width=2.4)
        lap = [(-side * 13, 66.0), (-side * 12, 20.0), (-side * 4, -20.0)]
        inset.path(smooth(lap), stroke=INK, width=1.4, opacity=0.8)
    else:
        draw_stem(inset, bow((0.0, 68.0), (side * 10.0, -116.0), 0.0, 8), taper(40, 28), colour)
    _enlarged_scales(inset, individual, side)


def _enlarged_scales(inset: Sheet, individual: Individual, side: int) -> None:
    """Two short brown-purple scales in front of the foot."""
    scale = individual.coloured(SCALE_COLOUR)
    for flip, tip in ((-side, 8.0), (side, 28.0)):
        points = [(-flip * 34, 70.0), (-flip * 33, 58.0), (flip * 14, tip), (flip * 31, 50.0), (flip * 35, 70.0)]
        inset.path(smooth(points) + "Z", fill=mix(scale, "#E7D6C0", 0.2), stroke=INK, width=2.2)
        inset.path(
            "".join(
                smooth([(flip * d, 68.0), (flip * (d * 0.8 + 2), 52.0), (flip * 12, tip + 8)]) for d in (-18, 0, 18)
            ),
            stroke=mix(scale, INK, 0.5),
            width=1.2,
        )
