"""Where on a finished plate the characters lie: plain boxes, for questions that ask to point and for crops.

All numbers are fractions of the page, x and width of its width, y and height of its height, from the upper left.
"""

from dataclasses import dataclass

from species.documents.plates.paper import HEIGHT, WIDTH
from species.documents.plates.svg import Point

# Characters that an inset can show; a module names one of these with each of its insets.
LEAF_AGAINST_LIGHT = ("venation", "leaf_margin", "leaf_hairs")
LEAF_FEET = ("leaf_emergence", "leaf_base", "leaf_stalk", "petiole_sheath")
STEM_AND_STALK = ("stem_hairs", "leaf_hairs", "stem_marks", "petiole_marks")
STEM = ("stem_hairs", "stem_section", "growth_form")
JOINT = ("leaf_arrangement", "stipules", "stem_hairs", "leaf_stalk")
HEAD_STALK = ("flower_stalk", "stalk_scales", "sap")
CUT_ACROSS = ("stem_section", "stem_hollow", "petiole_section")
HEAD = ("inflorescence", "flower_colour", "petals", "bracteoles", "umbel_fruit", "fruit_type", "fruit_colour")
FRUIT = ("fruit_calyx", "fruit_type", "fruit_colour", "fruit_position")
# Characters that are read at the root, and at the upper end of the plant.
BELOW = frozenset({"root_type", "root_cut"})
ABOVE = frozenset(
    {"inflorescence", "flower_colour", "petals", "bracts", "umbel_rays", "umbel_position", "fruit_type", "fruit_colour"}
)
SPOT = 60.0
HEAD_SPOT = 150.0


@dataclass(frozen=True)
class Region:
    """A box on the plate, in fractions of its size."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class Enlarged:
    """An inset as it lies on the page: middle, radius, the place on the plant it enlarges, what it shows."""

    centre: Point
    radius: float
    anchor: Point | None
    shows: tuple[str, ...]


@dataclass(frozen=True)
class Extent:
    """The plant as it lies on the page, in units; `soil` is the height of the ground, or of the crown of a dug one."""

    left: float
    top: float
    right: float
    bottom: float
    soil: float


def regions_of(names: tuple[str, ...], plant: Extent, insets: tuple[Enlarged, ...]) -> dict[str, tuple[Region, ...]]:
    """The boxes of each named character, the enlarged one first, and always at least one."""
    return {name: _boxes(name, plant, insets) for name in names}


def _boxes(name: str, plant: Extent, insets: tuple[Enlarged, ...]) -> tuple[Region, ...]:
    found: list[Region] = []
    for inset in insets:
        if name in inset.shows:
            found.append(_about(inset.centre, inset.radius))
            if inset.anchor is not None:
                found.append(_about(inset.anchor, SPOT))
    if name in BELOW:
        found.append(box(plant.left, max(plant.top, plant.soil), plant.right, plant.bottom))
    elif name in ABOVE and len(insets) > 2 and insets[2].anchor is not None:
        found.append(_about(insets[2].anchor, HEAD_SPOT))
    elif not found:
        found.append(box(plant.left, plant.top, plant.right, min(plant.bottom, plant.soil)))
    return tuple(found)


def _about(middle: Point, reach: float) -> Region:
    x, y = middle
    return box(x - reach, y - reach, x + reach, y + reach)


def box(left: float, top: float, right: float, bottom: float) -> Region:
    """A box in units of the page made a region, cut at the edges of the page and never empty."""
    x0, x1 = (min(0.99, max(0.0, value / WIDTH)) for value in (left, right))
    y0, y1 = (min(0.99, max(0.0, value / HEIGHT)) for value in (top, bottom))
    return Region(round(x0, 4), round(y0, 4), round(max(0.01, x1 - x0), 4), round(max(0.01, y1 - y0), 4))
