"""Small drawings of what an undivided leaf shows: its edge, base, veins, outline and surface."""

from math import sin

from species.documents.signs.sketch import (
    BOLD,
    FINE,
    LEAF,
    LINE,
    PALE,
    PURPLE,
    WHITE,
    Point,
    Sketch,
    blade,
    polar,
)


def leaf(
    sketch: Sketch,
    foot: Point,
    long: float,
    half: float,
    turn: float = 0,
    teeth: str = "",
    widest: float = 1.0,
    count: int = 9,
) -> None:
    """A filled leaf with its midrib."""
    outline = blade(foot, long, half, turn, teeth, widest, count)
    draw = sketch.line if teeth == "saw" else sketch.soft
    draw(*outline, fill=LEAF, closed=True)
    sketch.line(foot, polar(*foot, long * 0.9, turn), width=FINE)


def margin(sketch: Sketch, state: str) -> None:
    teeth = {"entire": "", "wavy": "wave", "crenate": "round", "serrate": "saw"}[state]
    leaf(sketch, (32, 60), 56, 18, teeth=teeth, count=8 if state == "wavy" else 10)


def base(sketch: Sketch, state: str) -> None:
    if state == "sheathing":
        for lean, foot in ((-13, 30), (0, 32), (13, 34)):
            sketch.soft(
                (foot - 4, 60),
                (foot - 7 + lean, 26),
                (foot + lean * 1.5, 4),
                (foot + 5 + lean, 26),
                (foot + 4, 60),
                fill=LEAF,
            )
        return
    sketch.line((32, 62), (32, 12))
    edges = {
        "tapering": [(33, 46), (38, 40), (46, 31), (48, 20), (40, 6)],
        "winged": [(37, 62), (38, 52), (41, 42), (48, 28), (48, 18), (40, 6)],
        "rounded": [(32, 46), (43, 43), (49, 34), (48, 20), (40, 6)],
        "heart": [(32, 42), (38, 50), (48, 48), (52, 36), (49, 20), (40, 6)],
        "arrow_sharp_back": [(33, 36), (37, 44), (46, 61), (46, 42), (44, 24), (35, 5)],
        "arrow_blunt_out": [(32, 40), (38, 44), (50, 53), (57, 50), (49, 40), (46, 24), (38, 6)],
    }[state]
    draw = sketch.line if state == "arrow_sharp_back" else sketch.soft
    draw(*edges, *[(64 - x, y) for x, y in reversed(edges)], fill=LEAF)
    sketch.line((32, 62), (32, 8), width=LINE)


def veins(sketch: Sketch, state: str) -> None:
    sketch.soft(*blade((32, 62), 58, 20), fill=PALE, closed=True)
    if state == "parallel":
        for bow in (-13, -8, -3, 3, 8, 13):
            sketch.soft((32 + bow * 0.2, 58), (32 + bow * 1.1, 33), (32 + bow * 0.15, 8), width=FINE)
        return
    sketch.line((32, 62), (32, 6))
    for y in (52, 43, 34, 25, 16):
        wide = 20 * sin(3.1416 * (62 - y + 4) / 58)
        reach = wide * (0.72 if state == "netted_rim_vein" else 0.98)
        for side in (-1, 1):
            sketch.soft((32, y), (32 + side * reach * 0.5, y - 3), (32 + side * reach, y - 7), width=FINE)
    if state == "netted_rim_vein":
        sketch.soft(*blade((32, 56), 48, 14.5), width=BOLD, closed=True)


def shape(sketch: Sketch, state: str) -> None:
    if state in ("heart_kidney", "arrow"):
        base(sketch, "heart" if state == "heart_kidney" else "arrow_sharp_back")
        return
    sketch.line((32, 63), (32, 54))
    long, half, widest = {
        "linear": (54, 4, 1.0),
        "lanceolate": (54, 9, 1.3),
        "elliptic": (52, 15, 1.0),
        "ovate": (50, 18, 1.6),
        "spoon": (54, 15, 0.55),
    }[state]
    leaf(sketch, (32, 58), long, half, widest=widest)


def spots(sketch: Sketch, state: str) -> None:
    leaf(sketch, (32, 60), 56, 19)
    for x, y, r in ((26, 40, 3), (38, 32, 3.5), (27, 24, 2.4), (37, 46, 2.6)):
        if state != "none":
            sketch.disc(x, y, r, fill=PURPLE if state == "dark_blotches" else WHITE, width=0.6)


def dots(sketch: Sketch, state: str) -> None:
    leaf(sketch, (32, 60), 56, 19)
    for k in range(14 if state == "black_dots" else 0):
        sketch.disc(32 + ((k * 7) % 23 - 11), 16 + k * 2.7, 1.2)


def shine(sketch: Sketch, state: str) -> None:
    leaf(sketch, (32, 60), 56, 19)
    if state == "glossy":
        sketch.soft((40, 44), (43, 32), (38, 20), width=4, ink=WHITE)


def section(sketch: Sketch, state: str) -> None:
    if state == "keeled":
        sketch.line((6, 22), (32, 46), (58, 22), (56, 18), (32, 38), (8, 18), fill=LEAF, closed=True)
    else:
        sketch.soft(
            (5, 28), (20, 36), (32, 38), (44, 36), (59, 28), (44, 30), (32, 32), (20, 30), fill=LEAF, closed=True
        )


DRAWN = {
    "leaf_margin": (margin, ("entire", "wavy", "crenate", "serrate")),
    "leaf_base": (
        base,
        ("tapering", "winged", "rounded", "heart", "arrow_sharp_back", "arrow_blunt_out", "sheathing"),
    ),
    "venation": (veins, ("parallel", "netted_to_edge", "netted_rim_vein")),
    "blade_shape": (shape, ("linear", "lanceolate", "elliptic", "ovate", "spoon", "heart_kidney", "arrow")),
    "leaf_spots": (spots, ("none", "dark_blotches", "pale_marks")),
    "leaf_dots": (dots, ("none", "black_dots")),
    "leaf_shine": (shine, ("glossy", "dull")),
    "leaf_section": (section, ("keeled", "flat_channelled")),
}
