"""The square that is cut out of a picture to show one region."""

import pytest

from species.rules.cropping import square_around
from species.rules.regions import Frame


def test_a_region_stands_in_the_middle_with_room_round_it():
    assert square_around(Frame(0.4, 0.4, width=0.2, height=0.2), 1000, 1000) == (380, 380, 240)


def test_a_circle_is_measured_by_the_width():
    assert square_around(Frame(0.5, 0.5, radius=0.1), 1000, 2000) == (380, 880, 240)


@pytest.mark.parametrize("frame", [Frame(0, 0, width=0.3, height=0.1), Frame(0.95, 0.95, radius=0.2)])
def test_the_square_never_leaves_the_picture(frame):
    left, top, side = square_around(frame, 400, 560)
    assert min(left, top) >= 0
    assert left + side <= 400
    assert top + side <= 560


def test_a_region_as_large_as_the_picture_gives_a_square_as_broad_as_it():
    assert square_around(Frame(0, 0, width=1, height=1), 400, 560) == (0, 80, 400)
