"""Small drawings of umbels: their rays, the bracts at the foot of the whole and of a part, and where they stand."""

from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import (
    BOLD,
    DARK_LEAF,
    FINE,
    LINE,
    WHITE,
    Point,
    Sketch,
    polar,
)


def umbel(
    sketch: Sketch, rays: int, *, foot: Point = (32, 48), reach: float = 34, spread: float = 65, dot: float = 3
) -> None:
    """Rays from one point, a small head of flowers at each end."""
    for k in range(rays):
        turn = spread * (2 * k / (rays - 1) - 1)
        tip = polar(*foot, reach * (1 - 0.12 * (turn / 65) ** 2), turn)
        sketch.line(foot, tip, width=FINE)
        sketch.disc(*tip, dot, fill=WHITE, width=FINE)


def rays(sketch: Sketch, state: str) -> None:
    sketch.line((32, 62), (32, 52), width=BOLD)
    umbel(
        sketch,
        {"up_to_12": 7, "12_40": 17, "over_50": 31}[state],
        foot=(32, 50),
        reach=29,
        dot={"up_to_12": 4.0, "12_40": 2.4, "over_50": 1.6}[state],
    )


def main_bracts(sketch: Sketch, state: str) -> None:
    """The foot of the whole umbel."""
    sketch.line((32, 62), (32, 40), width=BOLD)
    umbel(sketch, 7, foot=(32, 40), reach=36)
    for turn in {"none": (), "few_simple": (115, -120), "many_simple": (100, 125, 150, -100, -125, -150)}.get(
        state, ()
    ):
        sketch.line((32, 40), polar(32, 40, 12, turn), width=BOLD, ink=DARK_LEAF)
    for side in (-1, 1) if state == "large_divided" else ():
        tip = polar(32, 40, 24, side * 105)
        sketch.line((32, 40), tip, width=LINE, ink=DARK_LEAF)
        for part in (0.3, 0.55, 0.8, 1):
            at = (32 + (tip[0] - 32) * part, 40 + (tip[1] - 40) * part)
            sketch.line(at, polar(*at, 9, side * 60), width=LINE, ink=DARK_LEAF)
            sketch.line(at, polar(*at, 9, side * 150), width=LINE, ink=DARK_LEAF)


def small_bracts(sketch: Sketch, state: str) -> None:
    """The foot of one small umbel, its outer side to the right."""
    sketch.line((14, 62), (30, 36), width=BOLD)
    umbel(sketch, 7, foot=(30, 36), reach=26, dot=4.5)
    turns, long = {
        "none": ((), 0),
        "all_round": ((95, 130, 170, -95, -130), 11),
        "outer_short": ((80, 105, 130), 9),
        "outer_long_hanging": ((125, 145, 165), 27),
    }[state]
    for turn in turns:
        sketch.line((30, 36), polar(30, 36, long, turn), width=BOLD, ink=DARK_LEAF)


def umbel_place(sketch: Sketch, state: str) -> None:
    sketch.line((32, 62), (32, 20), width=BOLD)
    umbel(sketch, 5, foot=(32, 22), reach=16)
    if state == "leaf_opposed":
        for y, side in ((50, 1), (36, -1)):
            leaf(sketch, (32, y), 24, 5, side * 65)
            sketch.line((32, y), (32 - side * 12, y - 4))
            umbel(sketch, 5, foot=(32 - side * 12, y - 4), reach=8, dot=2)
    else:
        leaf(sketch, (32, 48), 26, 6, 60)
        leaf(sketch, (32, 56), 26, 6, -60)


DRAWN = {
    "umbel_rays": (rays, ("up_to_12", "12_40", "over_50")),
    "bracts": (main_bracts, ("none", "few_simple", "many_simple", "large_divided")),
    "bracteoles": (small_bracts, ("none", "all_round", "outer_short", "outer_long_hanging")),
    "umbel_position": (umbel_place, ("terminal_only", "leaf_opposed")),
}
