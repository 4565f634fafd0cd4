"""Regions as fractions of a picture."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.regions import Frame, Shape, Slip, holds, in_pixels, slip_of


@pytest.mark.parametrize(
    ("frame", "slip"),
    [
        (Frame(0, 0, 1, 1), None),
        (Frame(0.2, 0.3, 0.1, 0.1), None),
        (Frame(0.5, 0.5, radius=0.2), None),
        (Frame(0, 0, radius=0.2), None),  # a circle may be cut by the edge
        (Frame(0.95, 0.2, 0.1, 0.1), Slip.OFF_THE_PICTURE),
        (Frame(0.2, 0.95, 0.1, 0.1), Slip.OFF_THE_PICTURE),
        (Frame(-0.1, 0.2, 0.3, 0.1), Slip.OFF_THE_PICTURE),
        (Frame(1.1, 0.5, radius=0.2), Slip.OFF_THE_PICTURE),
        (Frame(0.5, 0.5, radius=1.1), Slip.OFF_THE_PICTURE),
        (Frame(0.2, 0.2, 0.005, 0.5), Slip.TOO_SMALL),
        (Frame(0.2, 0.2), Slip.TOO_SMALL),
        (Frame(0.2, 0.2, radius=0.004), Slip.TOO_SMALL),
    ],
)
def test_what_can_be_drawn(frame, slip):
    assert slip_of(frame) is slip


def test_a_circle_is_round_on_a_picture_that_is_not_square():
    circle = Frame(0.5, 0.5, radius=0.1)  # 40 px on a picture of 400 x 200
    assert circle.shape is Shape.CIRCLE
    assert holds(circle, 0.5, 0.5 + 39 / 200, aspect=2)
    assert not holds(circle, 0.5, 0.5 + 41 / 200, aspect=2)
    assert not holds(circle, 0.5 + 41 / 400, 0.5, aspect=2)


def test_a_finger_may_be_a_little_beside_it_the_same_way_in_both_directions():
    box = Frame(0.4, 0.4, 0.2, 0.2)
    assert not holds(box, 0.61, 0.5, aspect=2)
    assert holds(box, 0.61, 0.5, aspect=2, slack=0.01)
    assert holds(box, 0.5, 0.62, aspect=2, slack=0.01)
    assert not holds(box, 0.5, 0.63, aspect=2, slack=0.01)


def test_pixels_of_a_picture():
    assert in_pixels(Frame(0.25, 0.5, 0.5, 0.25), 400, 200) == in_pixels(Frame(0.25, 0.5, 0.5, 0.25), 400, 200)
    found = in_pixels(Frame(0.25, 0.5, 0.5, 0.25), 400, 200)
    assert (found.x, found.y, found.width, found.height) == (100, 100, 200, 50)


SHARES = st.floats(0, 1)


@given(SHARES, SHARES, SHARES, SHARES, SHARES, SHARES)
def test_a_region_that_can_be_drawn_holds_its_own_points(x, y, width, height, across, down):
    frame = Frame(x, y, width, height)
    if slip_of(frame) is None:
        assert holds(frame, x + across * width, y + down * height, aspect=1.5)
