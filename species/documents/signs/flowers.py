"""Small drawings of what one flower shows: petals, colours, anthers, and the stalk that carries it."""

from species.documents.signs.sketch import BOLD, FINE, LINE, PALE, PURPLE, STALK, WHITE, YELLOW, Sketch, polar

COLOURS = {
    "white": WHITE,
    "cream": "#f3e8c4",
    "yellow": "#ecc93c",
    "yellow_green": "#cdd35a",
    "green": "#8fae5b",
    "reddish": "#b26a5e",
    "red_orange": "#dd6a33",
    "blue_violet": "#6f72b8",
    "pink_purple": "#c07aa6",
    "brown_purple": "#6d4450",
}


def star(sketch: Sketch, x: float, y: float, r: float, petals: int = 5, fill: str = WHITE) -> None:
    """A small open flower."""
    for k in range(petals):
        sketch.disc(*polar(x, y, r * 0.6, k * 360 / petals), r * 0.45, fill=fill, width=FINE)
    sketch.disc(x, y, r * 0.3, fill=YELLOW)


def bell(sketch: Sketch, x: float, y: float, size: float, fill: str = WHITE, turn: int = 1) -> None:
    """A hanging bell; `turn` -1 or 1 leans it to a side."""
    edge = [
        (x, y),
        (x + size * 0.5, y + size * 0.4),
        (x + size * 0.6 + turn, y + size),
        (x - size * 0.6 + turn, y + size),
        (x - size * 0.5, y + size * 0.4),
    ]
    sketch.soft(*edge, fill=fill, closed=True, width=LINE)


def colour(sketch: Sketch, state: str) -> None:
    for k in range(5):
        sketch.disc(*polar(32, 32, 15, k * 72), 11.5, fill=COLOURS[state], width=LINE)
    sketch.disc(32, 32, 5, fill=PALE, width=FINE)


def petals(sketch: Sketch, state: str) -> None:
    if state in ("4", "5", "6", "8_12"):
        count = 10 if state == "8_12" else int(state)
        for k in range(count):
            sketch.disc(*polar(32, 32, 17, k * 360 / count), 30 / count + 3.5, fill=WHITE, width=LINE)
        sketch.disc(32, 32, 6, fill=YELLOW, width=FINE)
    elif state == "5_split":
        for k in range(10):
            tip = polar(32, 32, 26, k * 36 + (7 if k % 2 else -7) + 9)
            sketch.soft(
                (32, 32), polar(*tip, 4, k * 36 - 60), tip, polar(*tip, 4, k * 36 + 60), fill=WHITE, closed=True
            )
    elif state == "bell":
        sketch.line((32, 2), (32, 12), width=BOLD)
        sketch.soft(
            (27, 12),
            (18, 24),
            (17, 44),
            (10, 54),
            (21, 52),
            (26, 60),
            (32, 53),
            (38, 60),
            (43, 52),
            (54, 54),
            (47, 44),
            (46, 24),
            (37, 12),
            fill=WHITE,
            closed=True,
        )
    elif state == "tube":
        sketch.soft((32, 6), (46, 22), (38, 52), (42, 58), (22, 58), (26, 52), (18, 22), fill="#e6c3c3", closed=True)
    elif state == "trumpet":
        for k in range(6):
            sketch.disc(*polar(32, 26, 18, k * 60), 9, fill="#f3e8a4", width=LINE)
        sketch.disc(32, 26, 11, fill=YELLOW, width=BOLD)
    elif state == "two_lipped":
        sketch.soft(
            (14, 56),
            (24, 30),
            (22, 12),
            (44, 8),
            (50, 22),
            (38, 30),
            (54, 40),
            (40, 48),
            (28, 42),
            fill=WHITE,
            closed=True,
        )
    elif state == "hooded":
        sketch.soft((16, 56), (12, 22), (32, 4), (52, 22), (48, 56), (32, 44), fill="#6f72b8", closed=True)
    elif state == "strap":
        for k in range(12):
            sketch.line((32, 32), polar(32, 32, 27, k * 30), width=5, ink="#ecc93c")
    else:
        for k in range(6):
            sketch.disc(*polar(32, 32, 12, k * 60), 2.5, fill="#8fae5b", width=0.6)


def stalk(sketch: Sketch, state: str) -> None:
    """The stalk that carries a yellow head."""
    if state == "single_hollow":
        sketch.line((27, 62), (27, 22), (37, 22), (37, 62), fill=STALK)
        sketch.disc(32, 61, 5, fill=WHITE, width=LINE, ry=2.2)
        heads = [(32, 14)]
    elif state == "wiry_branched":
        sketch.line((30, 62), (30, 36), (18, 16))
        sketch.line((30, 36), (46, 16))
        heads = [(17, 13), (47, 13)]
    else:
        sketch.line((32, 62), (32, 20))
        heads = [(32, 14)]
    for x, y in heads:
        for k in range(12):
            sketch.line((x, y), polar(x, y, 10, k * 30), width=3, ink="#ecc93c")


def scales(sketch: Sketch, state: str) -> None:
    sketch.line((32, 62), (32, 2), width=3)
    for y, side in ((14, 1), (28, -1), (42, 1), (54, -1)) if state == "scales" else ():
        sketch.line((32, y + 5), (32 + side * 8, y - 6), (32, y), fill=STALK, closed=True)
        sketch.disc(32 + side * 7, y - 5, 1.8)


def pollen(sketch: Sketch, state: str) -> None:
    for k in (-2, -1, 0, 1, 2):
        tip = polar(32, 60, 44, k * 15)
        sketch.line((32, 60), tip, width=FINE)
        sketch.disc(*tip, 5, fill=PURPLE if state == "purple" else "#f0dd8a", width=LINE, ry=3.5)


DRAWN = {
    "flower_colour": (colour, tuple(COLOURS)),
    "petals": (
        petals,
        ("4", "5", "5_split", "6", "bell", "trumpet", "8_12", "tube", "two_lipped", "hooded", "strap", "tiny"),
    ),
    "flower_stalk": (stalk, ("single_hollow", "wiry_branched", "wiry_unbranched")),
    "stalk_scales": (scales, ("scales", "none")),
    "anthers": (pollen, ("yellow_cream", "purple")),
}
