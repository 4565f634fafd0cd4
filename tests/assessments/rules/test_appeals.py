"""How far an appeal is, who may decide it, what is open, and what a decision changes."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.rules.appeals import (
    Bar,
    NewNames,
    State,
    Step,
    changes,
    eligibility,
    last_day,
    outcomes_open,
    state_of,
)
from assessments.rules.figures import PairFigures, StandingFigures


@pytest.mark.parametrize(
    ("steps", "state"),
    [
        (["received"], State.RECEIVED),
        (["received", "taken_up"], State.LOOKED_AT),
        (["received", "names_asked"], State.LOOKED_AT),
        (["received", "taken_up", "voided"], State.DECIDED),
        (["received", "names_asked", "named_anew"], State.DECIDED),
        (["received", "dismissed"], State.DECIDED),
        (["received", "taken_up", "withdrawn"], State.WITHDRAWN),
    ],
)
def test_how_far_an_appeal_is_follows_from_its_steps(steps: list[str], state: State) -> None:
    assert state_of(steps) is state


@pytest.mark.parametrize("bar", list(Bar))
def test_any_part_in_the_question_bars_from_deciding(bar: Bar) -> None:
    assert not eligibility([bar], is_only_one=False).may_decide
    assert eligibility([bar], is_only_one=False).bars == (bar,)


def test_somebody_with_no_part_in_it_decides_without_exception() -> None:
    found = eligibility([], is_only_one=True)
    assert found.may_decide
    assert found.exception == ()


def test_the_only_one_decides_and_what_would_bar_them_is_named() -> None:
    found = eligibility([Bar.NAMED_THE_PLANT, Bar.SET_THE_TEST], is_only_one=True)
    assert found.may_decide
    assert found.exception == (Bar.SET_THE_TEST, Bar.NAMED_THE_PLANT)


@pytest.mark.parametrize("bar", [Bar.APPEALED, Bar.MAY_NOT_DECIDE])
def test_nobody_decides_their_own_appeal_even_where_they_are_the_only_one(bar: Bar) -> None:
    assert not eligibility([bar, Bar.SET_THE_TEST], is_only_one=True).may_decide


def test_what_is_open_depends_on_the_new_names() -> None:
    assert outcomes_open(None) == (Step.VOIDED, Step.DISMISSED)
    assert outcomes_open(NewNames(1, False, False)) == (Step.VOIDED,)
    assert outcomes_open(NewNames(2, True, True)) == (Step.NAMED_ANEW, Step.VOIDED)
    assert outcomes_open(NewNames(2, True, False)) == (Step.VOIDED, Step.DISMISSED)


def test_the_last_day_is_counted_from_the_day_itself() -> None:
    assert last_day(date(2026, 2, 1), 28) == date(2026, 3, 1)


def test_only_pairs_that_are_no_longer_what_they_were_are_changes() -> None:
    same, moved = PairFigures("a", True, 0, 0, 0, True), PairFigures("b", False, 9, 0, 1, True)
    after = replace(moved, misses=0, dangerous_missing=2)
    found = changes(StandingFigures((), (same, moved), 1), StandingFigures((), (same, after), 1))
    assert [(each.before.misses, each.after.misses) for each in found] == [(1, 0)]
