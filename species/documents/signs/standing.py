"""Small drawings of where leaves stand: out of the ground, along the stem, and what stands at their foot."""

from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import (
    BOLD,
    FINE,
    LINE,
    STALK,
    WHITE,
    Sketch,
    polar,
)


def emergence(sketch: Sketch, state: str) -> None:
    sketch.line((4, 58), (60, 58), width=FINE)
    if state == "single_stalked":
        for foot, lean in ((14, -6), (32, 2), (50, 7)):
            sketch.line((foot, 58), (foot + lean * 0.4, 38))
            leaf(sketch, (foot + lean * 0.4, 38), 32, 7, lean)
    elif state == "pair_sheathing":
        sketch.soft((29, 58), (30, 44), (24, 36), width=LINE)
        leaf(sketch, (30, 44), 40, 9, -18)
        leaf(sketch, (32, 44), 40, 9, 16)
        sketch.soft((29, 58), (28, 48), (32, 40), (36, 48), (35, 58), fill=STALK)
        sketch.line((29, 46), (35, 51), width=FINE)
    elif state == "tuft_stalkless":
        for lean, foot in ((-24, 29), (22, 35), (-8, 31), (8, 33)):
            leaf(sketch, (foot, 58), 52 - abs(lean) / 2, 5.5, lean)
    elif state == "crown":
        for turn in (-68, -38, -12, 15, 42, 68):
            tip = polar(32, 58, 13, turn)
            sketch.line((32, 58), tip)
            leaf(sketch, tip, 18, 5.5, turn)
    else:
        sketch.line((32, 58), (32, 6), width=BOLD)
        for y, side in ((48, 1), (38, -1), (28, 1), (18, -1)):
            leaf(sketch, (32, y), 21, 6, side * 58)


def arrangement(sketch: Sketch, state: str) -> None:
    if state == "basal":
        emergence(sketch, "crown")
        return
    sketch.line((32, 62), (32, 6), width=BOLD)
    for step, y in enumerate((52, 38, 24)):
        sides = {"alternate": [(-1) ** step], "opposite": [-1, 1], "whorled": [-1, 1]}[state]
        for side in sides:
            leaf(sketch, (32, y), 24, 6.5, side * 62)
            if state == "whorled":
                leaf(sketch, (32, y), 20, 4.5, side * 98)


def sheath(sketch: Sketch, state: str) -> None:
    sketch.line((28, 62), (28, 2))
    sketch.line((36, 62), (36, 2))
    if state == "papery_tube":
        sketch.line((26, 20), (26, 42), (38, 42), (38, 20), fill=WHITE)
        sketch.line(*[(26 + k * 2, 20 - (k % 2) * 4) for k in range(7)])
    elif state in ("inflated", "sheath"):
        wide = 17 if state == "inflated" else 8
        sketch.soft(
            (36, 52), (36 + wide, 40), (38 + wide * 0.6, 26), (46, 18), (40, 28), (36, 32), fill=STALK, closed=True
        )
        sketch.soft((38 + wide * 0.5, 28), (50, 16), (58, 8), width=BOLD)
    if state in ("papery_tube", "none"):
        sketch.soft((36, 42), (46, 30), (58, 10), width=BOLD)


def leaf_stipules(sketch: Sketch, state: str) -> None:
    sketch.line((32, 62), (32, 2), width=BOLD)
    sketch.soft((32, 40), (44, 34), (60, 30), width=BOLD)
    sketch.soft((32, 40), (20, 34), (4, 30), width=BOLD)
    if state == "leaf_like":
        for turn in (125, 55, -125, -55):
            leaf(sketch, (32, 40), 20, 5.5, turn)
    elif state == "small":
        for turn in (140, -140):
            leaf(sketch, (32, 41), 9, 2.5, turn)


DRAWN = {
    "leaf_emergence": (emergence, ("single_stalked", "pair_sheathing", "tuft_stalkless", "crown", "on_stem")),
    "leaf_arrangement": (arrangement, ("basal", "alternate", "opposite", "whorled")),
    "petiole_sheath": (sheath, ("papery_tube", "inflated", "sheath", "none")),
    "stipules": (leaf_stipules, ("leaf_like", "small", "none_or_minute")),
}
