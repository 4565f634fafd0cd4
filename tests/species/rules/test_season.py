"""What shows when, at a place that may run late or early."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.season import (
    Showing,
    Spell,
    month_strip,
    next_showing,
    season_month,
    spells,
    stages_showing,
)
from species.rules.vocabulary import Stage

RAMSONS = {
    Stage.DORMANT: frozenset({7, 8, 9, 10, 11, 12, 1}),
    Stage.ROSETTE: frozenset({2, 3, 4, 5, 6}),
    Stage.FLOWER: frozenset({4, 5, 6}),
}
months = st.frozensets(st.integers(1, 12))
days = st.dates(date(2020, 1, 1), date(2031, 12, 31))
shifts = st.integers(-45, 45)


def test_stages_of_a_day_come_in_the_order_of_a_life() -> None:
    assert stages_showing(RAMSONS, date(2026, 4, 10)) == (Stage.ROSETTE, Stage.FLOWER)
    assert stages_showing(RAMSONS, date(2026, 12, 31)) == (Stage.DORMANT,)


@pytest.mark.parametrize(("days_late", "expected"), [(0, 4), (10, 3), (-27, 4), (-28, 5)])
def test_a_late_place_is_still_in_the_month_before(days_late: int, expected: int) -> None:
    assert season_month(date(2026, 4, 3), days_late) == expected


def test_a_late_place_has_no_flower_when_the_region_begins() -> None:
    assert Stage.FLOWER not in stages_showing(RAMSONS, date(2026, 4, 3), days_late=10)


def test_a_strip_has_twelve_answers_for_each_stage_that_shows() -> None:
    strips = month_strip({**RAMSONS, Stage.FRUIT: frozenset()})
    assert [strip.stage for strip in strips] == [Stage.ROSETTE, Stage.FLOWER, Stage.DORMANT]
    assert strips[1].months == (False,) * 3 + (True,) * 3 + (False,) * 6


@pytest.mark.parametrize(
    ("given_months", "expected"),
    [
        ({4}, [Spell(4, 4)]),
        ({10, 11, 12, 1, 2}, [Spell(10, 2)]),
        ({2, 3, 9, 10, 11}, [Spell(2, 3), Spell(9, 11)]),
        (range(1, 13), [Spell(1, 12)]),
        ((), []),
    ],
)
def test_months_become_runs_that_may_pass_the_new_year(given_months, expected) -> None:
    assert list(spells(given_months)) == expected


def test_what_shows_today_shows_from_today() -> None:
    assert next_showing({4, 5, 6}, date(2026, 5, 20)) == Showing(date(2026, 5, 20), date(2026, 6, 30))


def test_what_is_over_comes_again_next_year() -> None:
    assert next_showing({4, 5, 6}, date(2026, 7, 1)) == Showing(date(2027, 4, 1), date(2027, 6, 30))


def test_a_run_over_the_new_year_is_one() -> None:
    assert next_showing({12, 1, 2}, date(2027, 11, 3)) == Showing(date(2027, 12, 1), date(2028, 2, 29))


def test_a_late_place_is_late_at_both_ends() -> None:
    assert next_showing({4}, date(2026, 3, 1), days_late=7) == Showing(date(2026, 4, 8), date(2026, 5, 7))


def test_what_never_shows_is_never_next() -> None:
    assert next_showing((), date(2026, 3, 1)) is None


@given(months)
def test_runs_hold_exactly_the_months(given_months) -> None:
    found = [month for spell in spells(given_months) for month in spell.months]
    assert sorted(found) == sorted(given_months)


@given(months.filter(bool), days, shifts)
def test_the_next_showing_begins_when_it_first_shows(given_months, day: date, shift: int) -> None:
    found = next_showing(given_months, day, shift)
    assert found is not None
    assert found.first >= day
    calendar = {Stage.LEAFY: given_months}
    for step in range((found.first - day).days):
        assert not stages_showing(calendar, day + timedelta(days=step), shift)
    assert stages_showing(calendar, found.first, shift) == stages_showing(calendar, found.last, shift)
    assert found.contains(found.last)


@given(months.filter(lambda chosen: 0 < len(chosen) < 12), days, shifts)
def test_the_day_after_a_showing_shows_nothing(given_months, day: date, shift: int) -> None:
    found = next_showing(given_months, day, shift)
    assert found is not None
    assert not stages_showing({Stage.LEAFY: given_months}, found.last + timedelta(days=1), shift)
