"""Several values in one cell of a table, separated by " | ".

A bar inside a value is written with a backslash before it, and so is a backslash: this is how lists are
written in the exchange formats of natural history collections too.
"""

import re
from collections.abc import Iterable

SEPARATOR = " | "
_PIECE = re.compile(r"\\(.)|(\|)|([^\\|]+|\\$)", re.DOTALL)


def split_list(cell: str) -> tuple[str, ...]:
    """The values of a cell, without spaces around them; empty values are left out."""
    values = [""]
    for escaped, bar, plain in _PIECE.findall(cell):
        if bar:
            values.append("")
        else:
            values[-1] += escaped or plain
    return tuple(value for value in (each.strip() for each in values) if value)


def joined_list(values: Iterable[str]) -> str:
    """One cell that `split_list` takes apart into these values again."""
    return SEPARATOR.join(value.replace("\\", "\\\\").replace("|", "\\|") for value in values)
