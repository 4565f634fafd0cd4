"""When somebody is reminded: sixty, thirty and seven days before."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.reminders import DAYS_BEFORE, reminder_due

UNTIL = date(2026, 9, 1)


@pytest.mark.parametrize(
    ("left", "mark"), [(61, None), (60, 60), (31, 60), (30, 30), (8, 30), (7, 7), (0, 7), (-1, None)]
)
def test_the_mark_that_is_reached(left, mark) -> None:
    assert reminder_due(UNTIL, UNTIL - timedelta(days=left)) == mark


@given(missed=st.sets(st.integers(0, 70), max_size=60))
def test_however_many_days_are_missed_each_mark_is_met_at_most_once_and_in_order(missed) -> None:
    marks = [reminder_due(UNTIL, UNTIL - timedelta(days=left)) for left in range(70, -1, -1) if left not in missed]
    said = list(dict.fromkeys(mark for mark in marks if mark is not None))
    assert said == sorted(said, reverse=True)
    assert set(said) <= set(DAYS_BEFORE)
