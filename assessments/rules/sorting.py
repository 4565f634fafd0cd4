"""Sorting long columns of whole numbers by several keys, stably and quickly.

``numpy.lexsort`` sorts once for every key, each time by looking rows up. Here the keys are laid side by side, as many
bits at a time as fit into one whole number together with the row's place, and plain numbers are sorted.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]

BITS = 63
"""Bits of a signed whole number of 64 bits that a key and a place may fill."""


def stable_order(keys: Sequence[NDArray[np.integer]]) -> Whole:
    """The rows in order of these keys, the first key first; rows that agree in all keep their order.

    ``keys`` are columns of one length, of whole numbers that lie less than 2^63 apart. The same as
    ``numpy.lexsort(keys[::-1])``.
    """
    rows = len(keys[0])
    places = np.arange(rows)
    if rows < 2:
        return places
    place_bits = (rows - 1).bit_length()
    order = places
    for digit in _digits(keys, BITS - place_bits):
        packed = digit if order is places else digit[order]
        packed <<= place_bits
        packed |= places
        packed.sort()  # every number is another one, so the quickest sort is stable
        packed &= (1 << place_bits) - 1
        order = packed if order is places else order[packed]
    return order


def _digits(keys: Sequence[NDArray[np.integer]], room: int) -> Iterator[Whole]:
    """The keys, laid side by side, cut into digits of at most so many bits, the least significant first."""
    digit, used = np.zeros(len(keys[0]), dtype=np.int64), 0
    for key in reversed(keys):
        rest = key.astype(np.int64)
        rest -= int(rest.min())
        bits = int(rest.max()).bit_length()
        while bits:
            taken = min(bits, room - used)
            part = rest if taken == bits else rest & ((1 << taken) - 1)
            if taken < bits:
                rest >>= taken
            part <<= used
            digit |= part
            bits, used = bits - taken, used + taken
            if used == room:
                yield digit
                digit, used = np.zeros(len(key), dtype=np.int64), 0
    if used:
        yield digit


def starts_of_runs(keys: NDArray[np.integer]) -> Flags:
    """True where a value differs from the one before it; the first row always."""
    starts = np.ones(len(keys), dtype=bool)
    np.not_equal(keys[1:], keys[:-1], out=starts[1:])
    return starts
