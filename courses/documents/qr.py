"""QR codes as shapes: for paper and for pages."""

from dataclasses import dataclass

import segno

QUIET_ZONE = 4  # modules of white around the code: ISO/IEC 18004


@dataclass(frozen=True)
class QrShape:
    """A code as one path of an SVG picture: `size` modules to a side with the quiet zone, `path` its dark modules."""

    size: int
    path: str


def qr_rows(text: str) -> list[list[bool]]:
    """The modules of a code row by row, dark ones true, without the quiet zone.

    Level M of ISO/IEC 18004: about 15 % of the code may be unreadable.
    """
    return [[bool(module) for module in row] for row in segno.make(text, error="m", micro=False).matrix]


def qr_shape(text: str) -> QrShape:
    """The same as a path, with the quiet zone around it."""
    rows = qr_rows(text)
    squares = [
        f"M{column + QUIET_ZONE} {number + QUIET_ZONE}h1v1h-1z"
        for number, row in enumerate(rows)
        for column, is_dark in enumerate(row)
        if is_dark
    ]
    return QrShape(len(rows) + 2 * QUIET_ZONE, "".join(squares))
