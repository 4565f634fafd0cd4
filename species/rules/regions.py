"""Regions on a picture as fractions of its size: what is one, what lies in it, and how it is drawn.

A rectangle has its upper left corner at (x, y); width is a fraction of the picture's width, height of its height.
A circle has its centre at (x, y) and a radius that is a fraction of the picture's width.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import hypot

SMALLEST = 0.01
"""A region narrower than this cannot be seen or tapped (a choice)."""
_SLACK = 1e-9


class Shape(StrEnum):
    """What a region is drawn as."""

    RECTANGLE = "rectangle"
    CIRCLE = "circle"


class Slip(StrEnum):
    """What is wrong with a region."""

    OFF_THE_PICTURE = "it reaches over the edge"
    TOO_SMALL = "it is too small to be seen"


@dataclass(frozen=True)
class Frame:
    """The place of a region. A circle has a radius above 0; then width and height say nothing."""

    x: float
    y: float
    width: float = 0.0
    height: float = 0.0
    radius: float = 0.0

    @property
    def shape(self) -> Shape:
        return Shape.CIRCLE if self.radius > 0 else Shape.RECTANGLE


@dataclass(frozen=True)
class Pixels:
    """A region on a picture of a known size, in px: a rectangle by its corner, or a circle by its centre."""

    x: int
    y: int
    width: int
    height: int
    radius: int


def slip_of(frame: Frame) -> Slip | None:
    """What is wrong with a region; None when it can be drawn. A circle may be cut by the edge, its centre not."""
    if not (0 <= frame.x <= 1 and 0 <= frame.y <= 1):
        return Slip.OFF_THE_PICTURE
    if frame.shape is Shape.CIRCLE:
        return Slip.TOO_SMALL if frame.radius < SMALLEST / 2 else Slip.OFF_THE_PICTURE if frame.radius > 1 else None
    if frame.width < SMALLEST or frame.height < SMALLEST:
        return Slip.TOO_SMALL
    over = frame.x + frame.width > 1 + _SLACK or frame.y + frame.height > 1 + _SLACK
    return Slip.OFF_THE_PICTURE if over else None


def in_pixels(frame: Frame, width: int, height: int) -> Pixels:
    """The region on a picture of this size."""
    return Pixels(
        round(frame.x * width),
        round(frame.y * height),
        round(frame.width * width),
        round(frame.height * height),
        round(frame.radius * width),
    )


def holds(frame: Frame, x: float, y: float, aspect: float, slack: float = 0.0) -> bool:
    """Whether the point (x, y), in fractions, lies in the region.

    aspect: width of the picture divided by its height, since a circle is measured by the width alone.
    slack: how far outside still counts, as a fraction of the width; a finger is broader than a pointer.
    """
    if frame.shape is Shape.CIRCLE:
        return hypot(x - frame.x, (y - frame.y) / aspect) <= frame.radius + slack + _SLACK
    left, top = frame.x - slack, frame.y - slack * aspect
    right, bottom = frame.x + frame.width + slack, frame.y + frame.height + slack * aspect
    return left - _SLACK <= x <= right + _SLACK and top - _SLACK <= y <= bottom + _SLACK
