"""Which pairs can be met on a walk, and what a leader lacks. The calendars are invented for the test."""

from datetime import date

import pytest

from courses.rules.walk_check import Lack, PairFacts, lacking, leaders_needed, pairs_there
from species.rules.vocabulary import Stage

PAIR = PairFacts("a/b", "a", "b")
CALENDARS = {
    "a": {Stage.ROSETTE: frozenset({3, 4, 5})},
    "b": {Stage.ROSETTE: frozenset({4}), Stage.FLOWER: frozenset({5, 6}), Stage.DORMANT: frozenset(range(1, 13))},
}


def there(day: date, known=("b",), **more):
    return pairs_there([PAIR], CALENDARS, known, day, **more)


def test_a_pair_is_met_where_its_dangerous_plant_is_known_and_shows() -> None:
    (found,) = there(date(2026, 5, 4))
    assert (found.key, found.stages) == ("a/b", ("flower",))


def test_it_is_not_met_where_it_is_not_known_or_shows_nothing() -> None:
    assert there(date(2026, 5, 4), known=("a",)) == ()
    assert there(date(2026, 1, 4)) == ()


def test_nobody_takes_it_for_what_nobody_gathers_then() -> None:
    assert there(date(2026, 6, 15)) == ()


def test_what_was_seen_lately_counts_beside_the_calendar() -> None:
    (found,) = there(date(2026, 3, 4), seen_lately={"b": ["rosette"]})
    assert found.stages == ("rosette",)


def test_a_place_that_runs_late_is_a_month_behind() -> None:
    (found,) = there(date(2026, 5, 4), days_late=10)
    assert found.stages == ("rosette",)


def test_what_a_leader_lacks() -> None:
    pairs = there(date(2026, 5, 4))
    assert lacking(pairs, {}) == (Lack("a/b", ("flower",), True),)
    assert lacking(pairs, {"a/b": ["rosette"]}) == (Lack("a/b", ("flower",), False),)
    assert lacking(pairs, {"a/b": ["flower", "rosette"]}) == ()


@pytest.mark.parametrize(("people", "size", "needed"), [(0, 12, 1), (12, 12, 1), (13, 12, 2), (25, 12, 3), (6, 6, 1)])
def test_one_leader_to_each_begun_group(people, size, needed) -> None:
    assert leaders_needed(people, size) == needed


def test_a_group_of_nobody_is_refused() -> None:
    with pytest.raises(ValueError, match="group"):
        leaders_needed(3, 0)
