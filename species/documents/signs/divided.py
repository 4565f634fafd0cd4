"""Small drawings of divided leaves: how they are divided, their outline, their last parts."""

from math import sin

from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import (
    DARK_LEAF,
    FINE,
    LEAF,
    LINE,
    Point,
    Sketch,
    polar,
)


def division(sketch: Sketch, state: str) -> None:
    sketch.line((32, 62), (32, 30))
    if state == "undivided":
        leaf(sketch, (32, 50), 46, 14)
    elif state == "lobed":
        edge = [(32, 4), (38, 10), (36, 15), (45, 19), (37, 25), (48, 32), (37, 36), (46, 45), (34, 48), (32, 52)]
        sketch.soft(*edge, *[(64 - x, y) for x, y in edge[-2:0:-1]], fill=LEAF, closed=True)
        sketch.line((32, 52), (32, 9), width=FINE)
    elif state == "palmate_cut":
        for turn in (-95, -50, 0, 50, 95):
            leaf(sketch, (32, 40), 30 - abs(turn) / 10, 5, turn)
    elif state == "ternate":
        for foot, turn in (((32, 30), 0), ((32, 40), -60), ((32, 40), 60)):
            tip = polar(*foot, 9, turn)
            sketch.line(foot, tip)
            for side in (-62, 0, 62):
                leaf(sketch, tip, 15, 4.5, turn + side)
    elif state == "pinnate_once":
        leaf(sketch, (32, 20), 17, 5)
        for y in (24, 34, 44):
            leaf(sketch, (32, y), 20, 5.5, 68)
            leaf(sketch, (32, y), 20, 5.5, -68)
    else:
        _feather(sketch, (32, 58), 54, 27, 6)


def _feather(sketch: Sketch, foot: Point, long: float, reach: float, pairs: int, narrow: bool = False) -> None:
    x, y = foot
    sketch.line(foot, (x, y - long))
    for step in range(pairs):
        share = step / pairs
        at = y - long * (0.16 + 0.8 * share)
        size = reach * (sin(0.5 + 2.5 * share) if narrow else 1 - share * 0.85)
        for side in (-1, 1):
            tip = (x + side * size, at - size * 0.42)
            sketch.line((x, at), tip, width=FINE)
            for part in (0.35, 0.6, 0.85):
                joint = (x + side * size * part, at - size * 0.42 * part)
                for turn in (side * 20, side * 108):
                    segment_long = max(2.5, size * 0.32 * (1.2 - part))
                    sketch.line(joint, polar(*joint, segment_long, turn), width=2.2, ink=DARK_LEAF)


def outline(sketch: Sketch, state: str) -> None:
    if state == "triangular":
        _feather(sketch, (32, 60), 56, 29, 6)
    elif state == "narrow_feather":
        _feather(sketch, (32, 62), 60, 9, 13, narrow=True)
    else:
        _feather(sketch, (32, 60), 56, 18, 8, narrow=True)


def segment(sketch: Sketch, state: str) -> None:
    if state == "thread_linear":
        for turn in (-75, -50, -25, 0, 25, 50, 75):
            sketch.soft((32, 56), polar(32, 46, 16, turn * 0.5), polar(32, 50, 33, turn), width=LINE)
        return
    if state == "broad_ovate":
        leaf(sketch, (32, 58), 52, 20, teeth="saw", widest=1.2, count=11)
    elif state == "wedge_lobed":
        edge = [(32, 60), (46, 30), (54, 22), (46, 16), (47, 8), (37, 14), (32, 4)]
        sketch.line(*edge, *[(64 - x, y) for x, y in edge[-2:0:-1]], fill=LEAF, closed=True)
        sketch.line((32, 58), (32, 12), width=FINE)
    elif state == "lance_pointed":
        edge = [(32, 62), (36, 54), (46, 46), (38, 45), (49, 33), (38, 33), (44, 20), (36, 20), (32, 3)]
        sketch.line(*edge, *[(64 - x, y) for x, y in edge[-2:0:-1]], fill=LEAF, closed=True)
        sketch.line((32, 60), (32, 10), width=FINE)
    else:
        edge = [(32, 62), (40, 50), (60, 50), (48, 42), (62, 30), (46, 29), (56, 12), (40, 18), (32, 2)]
        sketch.line(*edge, *[(64 - x, y) for x, y in edge[-2:0:-1]], fill=LEAF, closed=True)
        sketch.line((32, 60), (32, 10), width=FINE)


def leaflets(sketch: Sketch, state: str) -> None:
    pairs = {"5_7": 3, "7_13": 5, "9_15": 6}[state]
    sketch.line((32, 62), (32, 18))
    leaf(sketch, (32, 20), 16, 5)
    for step in range(pairs):
        for side in (-1, 1):
            leaf(sketch, (32, 24 + step * 33 / pairs), 22, 30 / pairs * 0.45 + 1, side * 70)


DRAWN = {
    "leaf_division": (division, ("undivided", "lobed", "ternate", "pinnate_once", "pinnate_2_4", "palmate_cut")),
    "compound_outline": (outline, ("triangular", "oblong", "narrow_feather")),
    "segment_shape": (segment, ("thread_linear", "lance_pointed", "wedge_lobed", "broad_ovate", "jagged_pointed")),
    "leaflet_count": (leaflets, ("5_7", "7_13", "9_15")),
}
