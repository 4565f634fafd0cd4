"""The square that is cut out of a picture to show one region of it."""

from species.rules.regions import Frame, Shape

MARGIN = 0.1
"""How much of the region's longer side is left free on each side of it (a choice)."""


def square_around(frame: Frame, width: int, height: int) -> tuple[int, int, int]:
    """Left, top and side, in px, of a square round a region on a picture of this size; it stays on the picture.

    A region that is longer than the picture is broad gives a square as broad as the picture.
    """
    if frame.shape is Shape.CIRCLE:
        middle_x, middle_y, longest = frame.x * width, frame.y * height, 2 * frame.radius * width
    else:
        middle_x, middle_y = (frame.x + frame.width / 2) * width, (frame.y + frame.height / 2) * height
        longest = max(frame.width * width, frame.height * height)
    side = max(1, round(min(longest * (1 + 2 * MARGIN), width, height)))
    left = round(min(max(middle_x - side / 2, 0), width - side))
    top = round(min(max(middle_y - side / 2, 0), height - side))
    return left, top, side
