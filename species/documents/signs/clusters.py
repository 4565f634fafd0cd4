"""Small drawings of how flowers stand together."""

from species.documents.signs.flowers import bell, star
from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import (
    BOLD,
    FINE,
    LEAF,
    LINE,
    PALE,
    PURPLE,
    WHITE,
    YELLOW,
    Sketch,
    polar,
)
from species.documents.signs.umbels import umbel


def _stalk(sketch: Sketch, top: float = 8) -> None:
    sketch.line((32, 62), (32, top), width=LINE)


def _compound(sketch: Sketch) -> None:
    _stalk(sketch, 50)
    for turn in (-62, -31, 0, 31, 62):
        tip = polar(32, 50, 28, turn)
        sketch.line((32, 50), tip)
        umbel(sketch, 5, foot=tip, reach=11, spread=60, dot=2.2)


def _simple(sketch: Sketch) -> None:
    _stalk(sketch, 40)
    for turn in (-75, -45, -15, 15, 45, 75):
        tip = polar(32, 40, 24, turn)
        sketch.line((32, 40), tip, width=FINE)
        star(sketch, *tip, 7, 6)


def _one_sided(sketch: Sketch) -> None:
    sketch.soft((24, 62), (26, 30), (34, 6), width=LINE)
    for k in range(5):
        sketch.soft((28 + k * 0.8, 14 + k * 9), (38, 12 + k * 9), (42, 16 + k * 9), width=FINE)
        bell(sketch, 42, 15 + k * 9, 7)


def _raceme(sketch: Sketch) -> None:
    _stalk(sketch)
    for k in range(6):
        for side in (-1, 1):
            star(sketch, 32 + side * (4 + k * 1.4), 10 + k * 7, 5, 4)


def _panicle(sketch: Sketch) -> None:
    _stalk(sketch)
    for k in range(4):
        for side in (-1, 1):
            tip = (32 + side * (7 + k * 4), 8 + k * 11)
            sketch.line((32, 16 + k * 12), tip, width=FINE)
            for part in (0.35, 0.65, 1.0):
                sketch.disc(32 + (tip[0] - 32) * part, 16 + k * 12 + (tip[1] - 16 - k * 12) * part, 2.2, "#b26a5e", 0.6)


def _head(sketch: Sketch) -> None:
    _stalk(sketch, 26)
    for k in range(14):
        sketch.line((32, 20), polar(32, 20, 17, k * 360 / 14), width=3.4, ink="#ecc93c")
    sketch.disc(32, 20, 7, fill="#d9a92a", width=FINE)


def _corymb(sketch: Sketch) -> None:
    _stalk(sketch, 44)
    for x in (8, 18, 28, 38, 48, 56):
        sketch.line((32, 44), (x, 20), width=FINE)
        star(sketch, x, 17, 6)


def _burs(sketch: Sketch) -> None:
    _stalk(sketch, 34)
    sketch.disc(32, 24, 13, fill=LEAF, width=LINE)
    for k in range(16):
        tip = polar(32, 24, 20, k * 22.5)
        sketch.line(polar(32, 24, 12, k * 22.5), tip, polar(*tip, 3, k * 22.5 + 120), width=FINE)


def _flat(sketch: Sketch) -> None:
    _stalk(sketch, 50)
    for x in (6, 16, 27, 37, 48, 58):
        sketch.line((32, 50), (x, 22), width=FINE)
        star(sketch, x, 18, 5)
    for x in (11, 22, 32, 42, 53):
        star(sketch, x, 12, 5)


def _coil(sketch: Sketch) -> None:
    coil = [(40, 62), (40, 30), (34, 12), (18, 12), (14, 24), (24, 28)]
    sketch.soft(*coil, width=BOLD)
    for x, y in ((40, 34), (38, 22), (30, 12), (19, 14)):
        bell(sketch, x + 2, y, 11, "#c9a3c0")


def _loose(sketch: Sketch) -> None:
    _stalk(sketch, 40)
    for side in (-1, 1):
        fork = (32 + side * 14, 26)
        sketch.line((32, 40), fork, (32 + side * 22, 12), width=LINE)
        sketch.line(fork, (32 + side * 6, 12), width=LINE)
        star(sketch, 32 + side * 22, 10, 6)
        star(sketch, 32 + side * 6, 10, 6)


def _spadix(sketch: Sketch) -> None:
    sketch.soft((30, 62), (24, 40), (18, 26), (26, 12), (38, 2), (44, 22), (38, 42), (34, 62), fill=PALE, closed=True)
    sketch.soft((24, 30), (28, 42), (40, 32), width=FINE)
    sketch.line((32, 42), (31, 18), width=6, ink=PURPLE)


def _single_axil(sketch: Sketch) -> None:
    _stalk(sketch, 4)
    for y, side in ((48, 1), (30, -1), (14, 1)):
        leaf(sketch, (32, y), 20, 5, side * 60)
        star(sketch, 32 + side * 7, y - 6, 5)


def _whorls(sketch: Sketch) -> None:
    _stalk(sketch, 4)
    for y in (46, 30, 14):
        for side in (-1, 1):
            leaf(sketch, (32, y), 22, 5, side * 80)
            for shift in (4, 10):
                sketch.soft(
                    (32 + side * shift, y - 1),
                    (32 + side * (shift + 3), y - 8),
                    (32 + side * (shift + 6), y - 3),
                    fill=WHITE,
                    closed=True,
                    width=FINE,
                )


def _tassels(sketch: Sketch) -> None:
    _stalk(sketch, 6)
    for side in (-1, 1):
        leaf(sketch, (32, 26), 22, 6, side * 70)
        sketch.line((32, 26), (32 + side * 12, 6), width=FINE)
        for k in range(4):
            sketch.disc(32 + side * (4 + k * 2.8), 19 - k * 4.5, 2, fill="#8fae5b", width=0.6)


def _cups(sketch: Sketch) -> None:
    _stalk(sketch, 34)
    sketch.soft((22, 16), (24, 30), (32, 36), (40, 30), (42, 16), fill="#8fae5b", width=LINE)
    for x in (22, 32, 42):
        sketch.soft((x - 4, 10), (x - 2, 15), (x + 2, 15), (x + 4, 10), fill=YELLOW, width=FINE)


def _ground(sketch: Sketch) -> None:
    sketch.line((4, 58), (60, 58), width=FINE)
    sketch.line((32, 58), (32, 34), width=3, ink="#e7d9e4")
    for turn in (-28, -9, 9, 28):
        leaf_like = [(32, 36), polar(32, 36, 16, turn - 12), polar(32, 36, 30, turn), polar(32, 36, 16, turn + 12)]
        sketch.soft(*leaf_like, fill="#c9a3c8", closed=True)


def _single_stalk(sketch: Sketch) -> None:
    _stalk(sketch, 24)
    star(sketch, 32, 18, 14)


TOGETHER = {
    "compound_umbel": _compound, "simple_umbel": _simple, "one_sided_raceme": _one_sided, "raceme": _raceme,
    "panicle": _panicle, "single_head": _head, "corymb_heads": _corymb, "bur_heads": _burs, "flat_cyme": _flat,
    "coiled_cyme": _coil, "loose_cyme": _loose, "spadix": _spadix, "axillary_single": _single_axil,
    "axillary_whorl": _whorls, "tassels": _tassels, "cups": _cups, "from_ground": _ground,
    "single_on_stalk": _single_stalk,
}  # fmt: skip


def together(sketch: Sketch, state: str) -> None:
    (TOGETHER[state])(sketch)


DRAWN = {
    "inflorescence": (together, tuple(TOGETHER)),
}
