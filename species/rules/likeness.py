"""Likeness of pictures: a fingerprint of 64 bits that survives resizing, recompression and a change of
light.

The fingerprint holds, for the 64 lowest waves of the picture (cosine transform, without the mean), whether
each is above or below their median. The number of bits in which two fingerprints differ is their distance:
0 for copies, about 32 for two pictures that have nothing to do with each other.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.fft import dctn

SIDE = 32
"""Width and height, in pixels, of the grey picture that a fingerprint is taken from."""

NEAR = 8
"""At most so many differing bits count as the same subject (a choice, kept honest by the tests)."""

_WAVES = sorted(
    ((row, column) for row in range(SIDE) for column in range(SIDE) if row + column),
    key=lambda wave: (wave[0] + wave[1], wave[0]),
)[:64]
_ROWS = np.array([row for row, _ in _WAVES])
_COLUMNS = np.array([column for _, column in _WAVES])


def fingerprint(grey: NDArray[np.integer] | NDArray[np.floating]) -> int:
    """The fingerprint of a grey picture of SIDE by SIDE pixels, as a whole number of 64 bits.

    Raises ValueError for any other shape. A picture of one even colour has the fingerprint 0.
    """
    pixels = np.asarray(grey, dtype=np.float64)
    if pixels.shape != (SIDE, SIDE):
        raise ValueError(f"a fingerprint is taken from {SIDE} by {SIDE} pixels, not {pixels.shape}")
    waves = dctn(pixels - pixels.mean(), norm="ortho")[_ROWS, _COLUMNS]
    if np.abs(waves).max() < 1e-6:
        return 0
    bits = waves > np.median(waves)
    return int("".join("1" if bit else "0" for bit in bits), 2)


def as_text(value: int) -> str:
    """A fingerprint as 16 hexadecimal digits, the form in which it is stored."""
    return f"{value:016x}"


def from_text(text: str) -> int:
    """A stored fingerprint as a number. Raises ValueError for a text that is none."""
    return int(text, 16)


def distance(first: int, second: int) -> int:
    """The number of bits, 0 to 64, in which two fingerprints differ."""
    return (first ^ second).bit_count()


def near_duplicates(fingerprints: Sequence[int], within: int = NEAR) -> tuple[tuple[int, ...], ...]:
    """Groups of pictures that look alike, as positions in the sequence; pictures alone are left out.

    Linked by chains: two pictures are in one group when each step between them is at most `within` bits.
    Groups and their members stand in the order of the sequence.
    """
    values = np.array(fingerprints, dtype=np.uint64)
    group = list(range(len(values)))
    for place, value in enumerate(values):
        differing = np.bitwise_count(values[place + 1 :] ^ value)
        for other in np.flatnonzero(differing <= within) + place + 1:
            _join(group, place, int(other))
    found: dict[int, list[int]] = {}
    for place in range(len(group)):
        found.setdefault(_head(group, place), []).append(place)
    return tuple(tuple(members) for members in found.values() if len(members) > 1)


def _head(group: list[int], place: int) -> int:
    while group[place] != place:
        group[place] = group[group[place]]
        place = group[place]
    return place


def _join(group: list[int], first: int, second: int) -> None:
    heads = sorted((_head(group, first), _head(group, second)))
    group[heads[1]] = heads[0]
