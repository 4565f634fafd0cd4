"""Places as others may see them: the middle of a cell of a grid, never the plant.

The grid is fixed, so that the same plant always lies in the same cell: averaging many answers brings nobody
nearer, and blurring what is blurred changes nothing.
"""

from dataclasses import dataclass
from math import ceil, cos, floor, hypot, radians

METRES_PER_DEGREE = 111_320
"""Of latitude, on a sphere of the earth's mean girth."""
_KM_PER_DEGREE = METRES_PER_DEGREE / 1000


@dataclass(frozen=True)
class Place:
    """A position in degrees (EPSG:4326), and within how many metres of it the true one lies; 0: not said."""

    latitude: float
    longitude: float
    within_m: int = 0


def blurred(latitude: float, longitude: float, km: int) -> Place:
    """The middle of the cell of this size, and the distance to its corner. ValueError for less than 1 km."""
    if km < 1:
        raise ValueError(f"A cell is at least 1 km wide, not {km}.")
    high = km / _KM_PER_DEGREE
    middle = max(-90.0, min(90.0, (floor(latitude / high) + 0.5) * high))
    wide = high / max(0.01, cos(radians(middle)))
    across = (floor(longitude / wide) + 0.5) * wide
    reach = hypot(high / 2 * METRES_PER_DEGREE, wide / 2 * METRES_PER_DEGREE * cos(radians(middle)))
    return Place(round(middle, 4), round(max(-180.0, min(180.0, across)), 4), ceil(reach))


def in_degrees(value: float, places: int) -> str:
    """Degrees as text, without zeros at the end."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
