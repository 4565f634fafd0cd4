"""Grouping of photographs into specimens, by time, place and likeness."""

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.grouping import Grouping, Shot, Spot, grouped, metres_between

START = datetime(2026, 4, 12, 10, 0, 0)
HERE = Spot(51.47790, -2.58330)
UNLIKE = [0x0, 0xFFFF_FFFF_0000_0000, 0x0F0F_0F0F_0F0F_0F0F, 0xFFFF_0000_FFFF_0000]


def shot(
    key: str, seconds: float | None = 0, *, camera: str = "one", spot: Spot | None = None, like: int | None = None
):
    moment = None if seconds is None else START + timedelta(seconds=seconds)
    return Shot(key, moment, camera, spot, like)


def north(metres: float) -> Spot:
    return Spot(HERE.latitude + metres / 111_195, HERE.longitude)


def test_a_burst_is_one_plant():
    assert grouped([shot("b", 1), shot("a", 0), shot("c", 2)]).groups == (("a", "b", "c"),)


def test_pictures_minutes_apart_at_no_known_place_are_two_plants():
    assert grouped([shot("a", 0), shot("b", 91)]).groups == (("a",), ("b",))


def test_at_one_spot_minutes_may_pass_between_two_pictures():
    assert grouped([shot("a", 0, spot=HERE), shot("b", 500, spot=north(5))]).groups == (("a", "b"),)


def test_plants_thirty_steps_apart_are_two_even_seconds_after_each_other():
    assert grouped([shot("a", 0, spot=HERE), shot("b", 40, spot=north(25))]).groups == (("a",), ("b",))


def test_without_time_place_and_likeness_each_stands_alone():
    assert grouped([shot("a", None), shot("b", None)]).groups == (("a",), ("b",))


def test_without_time_likeness_alone_joins():
    shots = [shot("a", None, like=0), shot("b", None, like=0b1111), shot("c", None, like=UNLIKE[1])]
    assert grouped(shots).groups == (("a", "b"), ("c",))


def test_two_cameras_whose_clocks_differ_by_an_hour_are_joined_by_likeness_alone():
    unlike = [shot("a", 0, camera="one", like=UNLIKE[1]), shot("b", 3600, camera="two", like=UNLIKE[2])]
    alike = [shot("a", 0, camera="one", like=0), shot("b", 3600, camera="two", like=1)]
    assert grouped(unlike).groups == (("a",), ("b",))
    assert grouped(alike).groups == (("a", "b"),)


def test_the_clock_of_another_camera_joins_nothing_even_at_the_same_second():
    assert grouped([shot("a", 0, camera="one"), shot("b", 0, camera="two")]).groups == (("a",), ("b",))


def test_the_same_plant_weeks_later_is_another_specimen_met_again():
    later = 21 * 86_400
    shots = [shot("a", 0, spot=HERE, like=0), shot("b", later, spot=north(6), like=0)]
    assert grouped(shots) == Grouping((("a",), ("b",)), ((0, 1),))


def test_another_plant_on_the_same_path_weeks_later_is_not_met_again():
    assert grouped([shot("a", 0, spot=HERE), shot("b", 21 * 86_400, spot=north(60))]).met_again == ()


def test_a_slow_walk_with_many_pictures_is_not_one_plant():
    groups = grouped([shot(f"{n:02}", 80 * n) for n in range(30)]).groups
    assert len(groups) > 1
    assert max(len(group) for group in groups) <= 12


def test_a_chain_of_spots_along_a_hedge_is_not_one_plant():
    groups = grouped([shot(f"{n:02}", 10 * n, spot=north(12 * n)) for n in range(6)]).groups
    assert all(len(group) <= 3 for group in groups)


def test_midnight_parts_two_days():
    late = Shot("a", datetime(2026, 4, 12, 23, 59, 50), "one")
    assert grouped([late, Shot("b", datetime(2026, 4, 13, 0, 0, 5), "one")]).groups == (("a",), ("b",))


def test_nothing_gives_no_groups():
    assert grouped([]) == Grouping(())


@pytest.mark.parametrize(("other", "metres"), [(HERE, 0), (north(100), 100), (Spot(51.4779, 177.4167), 8_566_000)])
def test_distances_over_ground(other, metres):
    assert metres_between(HERE, other) == pytest.approx(metres, rel=0.001, abs=0.01)


SHOTS = st.lists(
    st.tuples(
        st.none() | st.integers(0, 4_000),
        st.sampled_from(["", "one", "two"]),
        st.none() | st.integers(0, 80),
        st.none() | st.sampled_from(UNLIKE),
    ),
    max_size=9,
)


@given(SHOTS, st.randoms())
def test_every_shot_is_in_one_group_and_the_order_of_arrival_changes_nothing(rows, chance):
    shots = [
        shot(str(n), seconds, camera=camera, spot=None if metres is None else north(metres), like=like)
        for n, (seconds, camera, metres, like) in enumerate(rows)
    ]
    found = grouped(shots)
    assert sorted(key for group in found.groups for key in group) == sorted(each.key for each in shots)
    chance.shuffle(shots)
    assert grouped(shots) == found
