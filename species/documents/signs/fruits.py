"""Small drawings of what fruits and roots show: shape, calyx, place, colour, stones; taproots, tubers, bulbs."""

from species.documents.signs.leaves import leaf
from species.documents.signs.sketch import BOLD, EARTH, FINE, LEAF, LINE, STALK, WHITE, YELLOW, Sketch, polar

COLOURS = {
    "black": "#2b2730",
    "blue_black_bloom": "#5d6a8c",
    "red": "#b3203c",
    "orange": "#d98a2b",
    "green_brown": "#97924f",
}
DRY = "#b7a877"


def dry_fruit(sketch: Sketch, state: str) -> None:
    """A fruit of the carrot family from the side."""
    half, high = {
        "round_wavy_ridges": (17, 17), "long_smooth_beaked": (6, 24), "long_sharp_ridged": (6, 28), "spiny": (10, 18),
        "flat_winged": (17, 23), "cylinder_styles": (9, 19), "round_black": (17, 18), "egg_ridged": (15, 18),
        "oval_slender": (9, 17),
    }[state]  # fmt: skip
    middle = 36 if state in ("cylinder_styles", "long_smooth_beaked") else 33
    fill = "#35302f" if state == "round_black" else DRY
    sketch.disc(32, middle, half, fill=fill, width=LINE, ry=high)
    if state in ("round_wavy_ridges", "egg_ridged", "long_sharp_ridged", "flat_winged"):
        for share in (-0.55, 0, 0.55):
            bend = 1.6 if state == "round_wavy_ridges" else 0
            line = [
                (32 + half * share * (1 - abs(k) / 7) + (bend if k % 2 else -bend), middle + high * k / 4.6)
                for k in range(-4, 5)
            ]
            sketch.soft(*line, width=BOLD if state == "egg_ridged" else LINE)
    if state == "flat_winged":
        sketch.disc(32, middle, half + 5, fill="", width=FINE, ry=high + 4)
    if state == "long_smooth_beaked":
        sketch.line((30, 13), (32, 3), (34, 13), fill=DRY)
    if state == "cylinder_styles":
        sketch.soft((29, 17), (26, 8), (20, 2), width=BOLD)
        sketch.soft((35, 17), (38, 8), (44, 2), width=BOLD)
    for k in range(14 if state == "spiny" else 0):
        turn = k * 360 / 14
        foot = (32 + polar(0, 0, half, turn)[0], middle + polar(0, 0, high, turn)[1])
        sketch.line(foot, polar(*foot, 9, turn), width=LINE)


def calyx(sketch: Sketch, state: str) -> None:
    """A berry and what stands round it."""
    if state == "star_below":
        sketch.line((32, 2), (32, 14), width=BOLD)
        points = [polar(32, 24, 27 if k % 2 == 0 else 11, k * 36) for k in range(10)]
        sketch.line(*points, fill=LEAF, closed=True)
        sketch.disc(32, 34, 17, fill=COLOURS["black"], width=LINE)
        return
    sketch.line((32, 2), (32, 14), width=BOLD)
    sketch.disc(32, 34, 20, fill=COLOURS["blue_black_bloom"], width=LINE)
    if state == "crown_tip":
        sketch.disc(32, 48, 10, fill="#3c4660", width=BOLD, ry=4)


def place(sketch: Sketch, state: str) -> None:
    berry = COLOURS["red"]
    if state == "among_leaves":
        sketch.line((4, 58), (60, 58), width=FINE)
        for turn in (-30, 30):
            leaf(sketch, (32, 58), 50, 6, turn)
        sketch.disc(32, 46, 8, fill="#97a85a", width=LINE, ry=12)
    elif state in ("hanging_cluster", "upright_cluster"):
        down = state == "hanging_cluster"
        foot, side = ((32, 8), 1) if down else ((32, 56), -1)
        sketch.line((32, 0 if down else 64), foot, width=BOLD)
        for x, far in ((14, 34), (23, 40), (32, 43), (41, 40), (50, 34)):
            sketch.line(foot, (x, foot[1] + side * (far - 5)), width=FINE)
            sketch.disc(x, foot[1] + side * far, 5.5, fill=berry, width=LINE)
    elif state == "single":
        sketch.soft((12, 4), (30, 10), (34, 26), width=LINE)
        leaf(sketch, (16, 5), 26, 8, 130)
        sketch.disc(35, 37, 11, fill=COLOURS["black"], width=LINE)
    elif state == "string_on_vine":
        sketch.soft((12, 62), (30, 46), (20, 30), (44, 20), (40, 2), width=LINE)
        for x, y in ((22, 50), (30, 44), (22, 34), (28, 25), (42, 20), (44, 10)):
            sketch.disc(x + 3, y + 3, 5, fill=berry, width=LINE)
    else:
        sketch.line((32, 62), (32, 6), width=BOLD)
        for y in range(8, 36, 7):
            for x in (27, 37):
                sketch.disc(x, y, 5, fill=berry, width=LINE)


def colour(sketch: Sketch, state: str) -> None:
    sketch.line((32, 2), (32, 12), width=BOLD)
    sketch.disc(32, 34, 22, fill=COLOURS[state], width=LINE)
    if state == "blue_black_bloom":
        sketch.soft((20, 26), (26, 20), (36, 19), width=4, ink="#b9c2d8")
    elif state == "black":
        sketch.soft((22, 26), (26, 22), (32, 20), width=3, ink=WHITE)


def inside(sketch: Sketch, state: str) -> None:
    sketch.disc(32, 32, 25, fill="#e5c4c0", width=LINE)
    if state.startswith("one"):
        sketch.disc(32, 32, 12, fill=DRY, width=BOLD, ry=7 if state == "one_flat_stone" else 12)
        return
    count, size = {"several_pips": (5, 5.0), "several_seeds": (4, 6.5), "many_seeds": (13, 2.0)}[state]
    for k in range(count):
        far = 10 if count < 8 else 5 + (k % 3) * 6
        sketch.disc(*polar(32, 32, far, k * 360 / count * (1 if count < 8 else 2.4)), size, fill=DRY, width=FINE)


def kind(sketch: Sketch, state: str) -> None:
    if state == "pod":
        sketch.soft((18, 60), (24, 30), (44, 4), width=5, ink="#8a9a55")
        sketch.soft((18, 60), (24, 30), (44, 4), width=FINE)
    else:
        for side in (-1, 1):
            sketch.disc(32 + side * 9, 34, 8, fill=DRY, width=LINE, ry=18)
        sketch.line((32, 62), (32, 16), width=LINE)


def root(sketch: Sketch, state: str) -> None:
    sketch.line((4, 10), (60, 10), width=FINE)
    sketch.line((32, 10), (32, 2), width=BOLD)
    if state == "taproot":
        sketch.soft((24, 10), (27, 34), (32, 62), (37, 34), (40, 10), fill=EARTH)
    elif state in ("tuber_cluster", "small_clubs"):
        long = 33 if state == "tuber_cluster" else 22
        for turn in (112, 140, 168, 196, 224, 250):
            near, far = polar(32, 12, long * 0.3, turn), polar(32, 12, long, turn)
            wide = 4.6 if state == "tuber_cluster" else 3.0
            sketch.soft(
                (32, 12),
                polar(*near, wide, turn + 90),
                polar(*far, wide, turn + 90),
                polar(*far, wide, turn),
                polar(*far, wide, turn - 90),
                polar(*near, wide, turn - 90),
                fill=EARTH,
                closed=True,
            )
    elif state == "single_round_tuber":
        sketch.soft((32, 10), (28, 24), (34, 36), width=FINE)
        sketch.disc(34, 47, 12, fill=EARTH, width=LINE)
    elif state == "turnip_tuber":
        sketch.soft((20, 12), (16, 26), (32, 56), (48, 26), (44, 12), fill="#7a6247")
        for y in (26, 36, 44):
            sketch.line((32, y), (54, y + 10), width=FINE)
            sketch.line((32, y), (10, y + 10), width=FINE)
    elif state == "round_tuber":
        sketch.disc(32, 34, 20, fill=EARTH, width=LINE, ry=13)
    elif state in ("bulb", "corm"):
        sketch.soft(
            (30, 10),
            (20, 34),
            (24, 48),
            (32, 52),
            (40, 48),
            (44, 34),
            (34, 10),
            fill=WHITE if state == "bulb" else "#8a6a4a",
        )
        for x in (26, 32, 38):
            sketch.line((x, 51), (x + (x - 32) * 0.6, 61), width=FINE)
    elif state == "creeping_rhizome":
        sketch.soft((4, 34), (24, 30), (44, 34), (62, 30), width=5, ink="#a58a60")
        sketch.line((32, 10), (32, 30), width=LINE)
        for x in (12, 24, 42, 54):
            sketch.line((x, 34), (x - 2, 46), width=FINE)
    elif state == "rooting_runner":
        sketch.line((4, 12), (60, 12), width=3, ink="#8a9a55")
        for x in (14, 32, 50):
            leaf(sketch, (x, 12), 9, 3, 0)
            for turn in (160, 180, 200):
                sketch.line((x, 12), polar(x, 12, 22, turn), width=FINE)
    else:
        for turn in (120, 140, 160, 180, 200, 220, 240):
            sketch.soft((32, 10), polar(32, 10, 20, turn + 6), polar(32, 10, 40, turn), width=FINE)


def cut_root(sketch: Sketch, state: str) -> None:
    sketch.disc(32, 32, 24, fill="#f4ecd9", width=LINE)
    for turn in (20, 100, 160, 230, 300) if state == "yellow_stain" else ():
        sketch.disc(*polar(32, 32, 14, turn), 4, fill=YELLOW, width=FINE)
    sketch.disc(32, 32, 3, fill=STALK, width=FINE)


DRAWN = {
    "umbel_fruit": (
        dry_fruit,
        (
            "round_wavy_ridges", "long_smooth_beaked", "long_sharp_ridged", "spiny", "flat_winged", "cylinder_styles",
            "round_black", "egg_ridged", "oval_slender",
        ),
    ),
    "fruit_calyx": (calyx, ("star_below", "crown_tip", "none")),
    "fruit_position": (
        place,
        ("single", "hanging_cluster", "upright_cluster", "string_on_vine", "spike", "among_leaves"),
    ),
    "fruit_colour": (colour, tuple(COLOURS)),
    "fruit_inside": (inside, ("one_stone", "one_flat_stone", "several_pips", "several_seeds", "many_seeds")),
    "fruit_type": (kind, ("pod", "split_pair")),
    "root_type": (
        root,
        (
            "taproot", "tuber_cluster", "small_clubs", "single_round_tuber", "turnip_tuber", "round_tuber", "bulb",
            "corm", "creeping_rhizome", "rooting_runner", "fibrous",
        ),
    ),
    "root_cut": (cut_root, ("white_stays", "yellow_stain")),
}  # fmt: skip
