"""What the owners of a site allow on a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.permissions import SOON, PermissionFacts, State, standing_on

DAY = date(2026, 5, 4)


def until(days: int | None, **fields) -> PermissionFacts:
    return PermissionFacts(DAY - timedelta(days=90), None if days is None else DAY + timedelta(days=days), **fields)


@pytest.mark.parametrize(
    ("permissions", "state"),
    [
        ([], State.NONE),
        ([until(None)], State.GIVEN),
        ([until(61)], State.GIVEN),
        ([until(59)], State.SOON),
        ([until(0)], State.SOON),
        ([until(-1)], State.ENDED),
        ([until(None, ended_on=DAY)], State.ENDED),
        ([until(None, ended_on=DAY + timedelta(days=1))], State.GIVEN),
        ([until(-1), until(100)], State.GIVEN),
        ([until(None, uses=frozenset({"picking"}))], State.ENDED),
    ],
)
def test_how_they_stand(permissions, state) -> None:
    assert standing_on(permissions, DAY).state is state


def test_one_that_begins_later_does_not_hold_yet() -> None:
    assert not PermissionFacts(DAY + timedelta(days=1)).holds_on(DAY)
    assert PermissionFacts(DAY).holds_on(DAY)


def test_uses_of_all_that_hold_are_put_together() -> None:
    both = [until(None), until(10, uses=frozenset({"picking"})), until(-1, uses=frozenset({"digging"}))]
    assert standing_on(both, DAY).uses == {"walking", "picking"}


@given(days=st.lists(st.integers(-100, 200), max_size=5))
def test_it_is_given_exactly_when_one_lasts_longer_than_soon(days) -> None:
    found = standing_on([until(each) for each in days], DAY)
    assert (found.state is State.GIVEN) == any(timedelta(days=each) >= SOON for each in days)
    assert (found.state in (State.GIVEN, State.SOON)) == any(each >= 0 for each in days)
