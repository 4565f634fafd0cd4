"""How many people a meeting has room for."""

import pytest

from courses.rules.room import Bound, Room, room_for


@pytest.mark.parametrize(
    ("most", "size", "named", "room"),
    [
        (None, None, 2, None),
        (9, None, 0, Room(9, Bound.SET)),
        (None, 8, 0, Room(8, Bound.LEADERS)),
        (None, 8, 1, Room(8, Bound.LEADERS)),
        (None, 8, 3, Room(24, Bound.LEADERS)),
        (9, 8, 1, Room(8, Bound.LEADERS)),
        (9, 8, 2, Room(9, Bound.SET)),
        (8, 8, 1, Room(8, Bound.SET)),
        (0, 8, 1, Room(0, Bound.SET)),
    ],
)
def test_the_narrower_bound_counts(most, size, named, room) -> None:
    assert room_for(most, size, named) == room
