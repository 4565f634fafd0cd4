"""A few letters drawn with the pen, so that a plate needs no font and looks the same everywhere.

Each letter is (width, strokes) on a grid where 0 is the line, -10 the height of a small letter.
"""

from species.documents.plates.svg import Point, arch

Stroke = list[Point]

_BOWL: Stroke = [(6.4, -8), (4, -10), (1, -8.2), (0.2, -4.6), (1.6, -0.6), (4, -0.3), (6.4, -3)]
LETTERS: dict[str, tuple[float, list[Stroke]]] = {
    "a": (8.4, [_BOWL, [(6.6, -9.8), (6.4, -3), (7, -0.4), (8.4, -1)]]),
    "c": (7, [[(6.2, -8), (4, -10), (1, -8.2), (0.2, -4.6), (1.8, -0.5), (4.2, -0.2), (6.6, -2)]]),
    "d": (8.4, [_BOWL, [(6.8, -17), (6.5, -9), (6.4, -3), (7, -0.4), (8.4, -1)]]),
    "g": (8.2, [_BOWL, [(6.6, -9.8), (6.5, -1), (5.6, 4.4), (2.6, 5.6), (0.2, 3.8)]]),
    "i": (3.6, [[(1, -9.6), (1, -3), (1.6, -0.4), (3.2, -1)], [(1, -14), (1.4, -13.6)]]),
    "m": (
        13.4,
        [
            [(0.8, -9.8), (0.8, 0)],
            [(0.8, -6.4), (3.6, -10), (5.8, -8), (5.8, 0)],
            [(5.8, -6.4), (8.8, -10), (11, -8), (11, -2), (11.6, -0.3), (13, -1)],
        ],
    ),
    "n": (8.6, [[(0.8, -9.8), (0.8, 0)], [(0.8, -6.2), (3.8, -10), (6.2, -8), (6.2, -2), (6.8, -0.3), (8.4, -1)]]),
    "r": (6, [[(0.8, -9.8), (0.8, 0)], [(0.8, -6), (2.8, -9.4), (5.4, -9.6)]]),
    "w": (
        11.6,
        [[(0.2, -9.8), (2.6, -0.2), (3.2, -0.2), (5.6, -8.6)], [(5.6, -8.6), (8, -0.2), (8.6, -0.2), (11, -9.8)]],
    ),
    "0": (8, [[(4, -14), (1, -11), (0.6, -5), (3, -0.2), (6, -2), (7, -8), (5.8, -13), (3.8, -14)]]),
    "1": (5, [[(0.8, -11.4), (3.2, -14), (3.2, 0)]]),
    "2": (8, [[(0.8, -11), (3, -14), (6.2, -12.6), (5.6, -8.6), (0.6, -0.2), (7, -0.4)]]),
    "5": (8, [[(6.2, -14), (1.8, -13.8), (1.4, -8.2), (4.6, -8.8), (6.8, -5.4), (5, -0.8), (0.8, -0.8)]]),
    " ": (5, []),
}


def handwriting(words: str, x: float, y: float, height: float) -> tuple[str, float]:
    """Path data of the words from (x, y) on, small letters `height` units tall, and the width used.

    Raises KeyError for a letter that was never drawn.
    """
    scale = height / 10
    at, parts = x, []
    for letter in words:
        width, pen = LETTERS[letter]
        moved = [[(at + (px - py * 0.12) * scale, y + py * scale) for px, py in stroke] for stroke in pen]
        parts.append(arch(moved))
        at += (width + 1.6) * scale
    return "".join(parts), at - x
