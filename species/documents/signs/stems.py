"""Small drawings of what stems and stalks show: hairs under the lens, marks, sections, thorns, growth, sap."""

from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import BOLD, FINE, LEAF, LINE, PURPLE, STALK, WHITE, YELLOW, Point, Sketch, polar

FLUSHED = "#b98fae"


def _rod(sketch: Sketch, fill: str = STALK) -> None:
    sketch.line((24, 62), (24, 2), (40, 2), (40, 62), fill=fill)


def hairs(sketch: Sketch, state: str) -> None:
    """A piece of stalk as a lens shows it."""
    if state == "cottony_below":
        leaf(sketch, (32, 60), 56, 19)
        for k in range(22):
            x, y = 32 + (k * 11) % 25 - 12, 14 + k * 1.9
            sketch.soft((x - 4, y), (x, y - 2), (x + 4, y + 1), width=FINE, ink=WHITE)
        return
    _rod(sketch)
    count, long, width = {
        "hairless": (0, 0.0, FINE),
        "none": (0, 0.0, FINE),
        "sparse": (3, 7.0, FINE),
        "one_line": (9, 6.0, FINE),
        "soft_downy": (17, 5.0, 0.7),
        "downy": (17, 5.0, 0.7),
        "bristly_rough": (8, 12.0, LINE),
        "bristly": (8, 12.0, LINE),
        "stinging": (5, 12.0, LINE),
    }[state]
    for k in range(count):
        y = 6 + (k + 0.5) * 54 / count
        for side in (1,) if state == "one_line" else (-1, 1):
            x = 32 + side * 8
            lift = 4 if long > 8 else 1.5
            sketch.line((x, y), (x + side * long, y - lift), width=width)
            if state == "stinging":
                sketch.disc(x + side * 2, y - 1, 2.2, fill=WHITE, width=FINE)
    for k in range(count if state in ("soft_downy", "downy", "bristly_rough", "bristly") else 0):
        x, y = 28 + (k * 5) % 9, 5 + (k + 0.8) * 54 / count
        sketch.line((x, y), (x + 1.5, y - 3), width=width)


def marks(sketch: Sketch, state: str) -> None:
    _rod(sketch, FLUSHED if state == "flushed" else STALK)
    if state == "blotched":
        for x, y, r in ((28, 10, 3), (35, 20, 4), (29, 31, 2.6), (36, 40, 3.4), (28, 48, 4), (35, 57, 2.6)):
            sketch.disc(x, y, r, fill=PURPLE, ry=r * 1.2)


def cut(sketch: Sketch, state: str) -> None:
    """A stalk or stem cut across."""
    if state in ("round", "round_smooth", "solid", "hollow", "pithy"):
        sketch.disc(32, 32, 22, fill=STALK, width=LINE)
        if state == "hollow":
            sketch.disc(32, 32, 14, fill=WHITE, width=LINE)
        if state == "pithy":
            for k in range(9):
                sketch.disc(*polar(32, 32, 5 + (k % 3) * 4, k * 40), 2, fill=WHITE, width=0.6)
        return
    corners: dict[str, list[Point]] = {
        "square": [(12, 12), (52, 12), (52, 52), (12, 52)],
        "three_angled": [(32, 8), (56, 50), (8, 50)],
        "triangular": [(10, 14), (54, 14), (32, 54)],
        "two_angled": [(4, 32), (32, 22), (60, 32), (32, 42)],
    }
    if state in corners:
        sketch.line(*corners[state], fill=STALK, closed=True, width=BOLD)
    elif state == "grooved":
        edge = [(20, 14), (10, 30), (18, 48), (32, 54), (46, 48), (54, 30), (44, 14), (38, 20), (32, 32), (26, 20)]
        sketch.soft(*edge, fill=STALK, closed=True, width=BOLD)
    elif state == "ridged":
        rim = [polar(32, 32, 24 if k % 2 else 19, k * 15) for k in range(24)]
        sketch.line(*rim, fill=STALK, closed=True)
    else:
        sketch.disc(32, 32, 12, fill=STALK, width=LINE)
        for turn in (0, 90, 180, 270):
            sketch.line(polar(32, 32, 12, turn), polar(32, 32, 27, turn), width=3)


def thorns(sketch: Sketch, state: str) -> None:
    _rod(sketch, "#b79c77")
    for y, side in ((16, 1), (30, -1), (46, 1)) if state == "thorns" else ():
        x = 32 + side * 8
        sketch.line((x, y - 3), (x + side * 17, y - 6), (x, y + 3), fill="#b79c77")


def growth(sketch: Sketch, state: str) -> None:
    sketch.line((4, 58), (60, 58), width=FINE)
    if state == "herb":
        sketch.soft((32, 58), (31, 34), (33, 8), width=BOLD)
        for y, side in ((46, 1), (36, -1), (26, 1), (16, -1)):
            leaf(sketch, (32, y), 18, 5, side * 55)
    elif state == "low_shrub":
        for turn in (-55, -30, -6, 20, 48):
            tip = polar(32, 58, 30, turn)
            sketch.line((32, 58), tip, width=BOLD)
            for share in (0.5, 0.75, 1):
                at = polar(32, 58, 30 * share, turn)
                leaf(sketch, at, 9, 3, turn - 45)
                leaf(sketch, at, 9, 3, turn + 45)
    elif state == "shrub_or_tree":
        sketch.line((29, 58), (30, 36), (34, 36), (35, 58), fill="#b79c77", closed=True)
        crown = [(32, 4), (48, 8), (58, 22), (50, 36), (32, 40), (14, 36), (6, 22), (16, 8)]
        sketch.soft(*crown, fill=LEAF, closed=True)
    else:
        sketch.line((32, 58), (32, 2), width=3, ink="#b79c77")
        sketch.soft((24, 58), (38, 48), (26, 38), (38, 28), (26, 18), (36, 8), width=LINE)
        for y, side in ((46, 1), (34, -1), (24, 1)):
            leaf(sketch, (32 + side * 4, y), 16, 6, side * 75)


def sap(sketch: Sketch, state: str) -> None:
    sketch.line((26, 62), (26, 30), (38, 26), (38, 62), fill=STALK)
    drop = [(46, 14), (52, 28), (46, 36), (40, 28)]
    fill = {"clear": "#e8eef0", "white_milky": WHITE, "yellow_staining": YELLOW, "yellow_stain": YELLOW}[state]
    sketch.soft(*drop, fill=fill, closed=True)


HAIRS_OF_LEAF = ("hairless", "sparse", "soft_downy", "bristly_rough", "stinging", "cottony_below")
DRAWN = {
    "leaf_hairs": (hairs, HAIRS_OF_LEAF),
    "stem_hairs": (hairs, ("hairless", "one_line", "sparse", "downy", "bristly", "stinging")),
    "stem_marks": (marks, ("plain", "flushed", "blotched")),
    "petiole_marks": (marks, ("plain", "flushed", "blotched")),
    "petiole_section": (cut, ("round", "grooved", "triangular")),
    "stem_section": (cut, ("round_smooth", "ridged", "square", "three_angled", "two_angled", "winged")),
    "stem_hollow": (cut, ("hollow", "solid", "pithy")),
    "spines": (thorns, ("thorns", "none")),
    "growth_form": (growth, ("herb", "low_shrub", "shrub_or_tree", "climber")),
    "sap": (sap, ("clear", "white_milky", "yellow_staining")),
}
