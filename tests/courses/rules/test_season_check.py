"""What of a plan can be met on its day. The calendars are those of the invented test, not facts of plants."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.season_check import Outing, check_plan, days_of_weekday
from species.rules.vocabulary import Stage

FIRST, LAST = date(2026, 4, 6), date(2026, 6, 29)  # Mondays
SPRING = {Stage.ROSETTE: frozenset({3, 4})}
SUMMER = {Stage.FLOWER: frozenset({6}), Stage.DORMANT: frozenset(range(1, 13))}
CALENDARS = {"spring": SPRING, "summer": SUMMER}


def check(*outings: Outing, known=None):
    return check_plan(outings, CALENDARS, known or {}, FIRST, LAST)


def test_what_shows_and_what_does_not() -> None:
    (found,) = check(Outing("a", date(2026, 4, 13), ("spring", "summer")))
    assert found.showing == ("spring",)
    assert [each.species for each in found.missing] == ["summer"]
    assert not found.is_fine


def test_dormant_is_nothing_to_see() -> None:
    assert not check(Outing("a", date(2026, 5, 4), ("summer",)))[0].showing


def test_the_nearest_better_week_is_named_and_other_meetings_at_which_it_shows() -> None:
    found = check(Outing("a", date(2026, 5, 18), ("summer",)), Outing("b", date(2026, 6, 8), ()))
    (missing,) = found[0].missing
    assert missing.next_week == date(2026, 6, 1)
    assert missing.shows_at == ("b",)


def test_a_late_place_moves_the_season() -> None:
    day = date(2026, 5, 4)
    assert not check(Outing("a", day, ("spring",)))[0].showing
    assert check(Outing("a", day, ("spring",), days_late=10))[0].showing == ("spring",)


def test_what_else_is_on_record_there_and_showing_is_offered() -> None:
    found = check(Outing("a", date(2026, 4, 13), ("summer",)), known={"a": ["spring", "summer", "unheard of"]})
    assert found[0].instead == ("spring",)


def test_a_plant_of_which_nothing_is_known_is_never_missed() -> None:
    assert check(Outing("a", FIRST, ("unheard of",)))[0].is_fine


def test_no_week_of_the_course_is_said_too() -> None:
    calendars = {"winter": {Stage.LEAFY if hasattr(Stage, "LEAFY") else Stage.ROSETTE: frozenset({12})}}
    (found,) = check_plan([Outing("a", FIRST, ("winter",))], calendars, {}, FIRST, LAST)
    assert found.missing[0].next_week is None


def test_skipped_days_are_made_up_for_at_the_end() -> None:
    days = days_of_weekday(FIRST, LAST, 0, 3, skipped=[FIRST + timedelta(days=7)])
    assert days == [FIRST, FIRST + timedelta(days=14), FIRST + timedelta(days=21)]


@given(weekday=st.integers(0, 6), weeks=st.integers(0, 20), skip=st.sets(st.dates(FIRST, LAST), max_size=5))
def test_every_day_is_that_weekday_within_the_course_and_not_skipped(weekday, weeks, skip) -> None:
    days = days_of_weekday(FIRST, LAST, weekday, weeks, skip)
    assert all(day.weekday() == weekday and FIRST <= day <= LAST and day not in skip for day in days)
    assert len(days) <= weeks
    assert days == sorted(set(days))


def test_a_weekday_that_there_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="weekday"):
        days_of_weekday(FIRST, LAST, 7, 1)
