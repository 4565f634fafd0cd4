"""What stands in the way of a certificate, what it is worth on a day, and how long it lasts."""

from datetime import date
from types import SimpleNamespace

import pytest

from courses.rules.certification import (
    DeciderFacts,
    Obstacle,
    State,
    certification,
    last_valid_day,
    state_of,
)

PASSED = SimpleNamespace(passed=True, gaps=())
FAILED = SimpleNamespace(passed=False, gaps=("something",))
FREE = {"is_holder": False, "may_decide": True, "taught": False, "assessed": False}


def decided(standing=PASSED, decider=FREE, **facts):
    who = DeciderFacts(**decider) if decider is not None else None
    return certification(standing, **{"applied": True, "has_current": False, **facts}, decider=who)


def test_a_pass_an_application_and_an_impartial_decider_are_enough() -> None:
    assert decided().may_be_issued
    assert decided().exception == ()


@pytest.mark.parametrize(
    ("changed", "obstacle"),
    [
        ({"standing": FAILED}, Obstacle.EVIDENCE_MISSING),
        ({"applied": False}, Obstacle.NOT_APPLIED),
        ({"has_current": True}, Obstacle.HAS_A_CURRENT_ONE),
        ({"pass_ran_out": True}, Obstacle.PASS_RAN_OUT),
        ({"printable": False}, Obstacle.NAME_CANNOT_BE_PRINTED),
        ({"decider": None}, Obstacle.NO_DECIDER),
        ({"decider": FREE | {"is_holder": True}}, Obstacle.DECIDER_IS_THE_HOLDER),
        ({"decider": FREE | {"may_decide": False}}, Obstacle.DECIDER_MAY_NOT_DECIDE),
        ({"decider": FREE | {"taught": True}}, Obstacle.DECIDER_TAUGHT),
        ({"decider": FREE | {"assessed": True}}, Obstacle.DECIDER_ASSESSED),
    ],
)
def test_each_obstacle_alone_prevents_the_certificate(changed, obstacle) -> None:
    found = decided(**changed)
    assert found.obstacles == (obstacle,)
    assert not found.may_be_issued


def test_missing_evidence_comes_first_and_nothing_hides_anything() -> None:
    found = decided(FAILED, FREE | {"taught": True, "assessed": True}, applied=False, has_current=True)
    assert found.obstacles == (
        Obstacle.EVIDENCE_MISSING,
        Obstacle.HAS_A_CURRENT_ONE,
        Obstacle.NOT_APPLIED,
        Obstacle.DECIDER_TAUGHT,
        Obstacle.DECIDER_ASSESSED,
    )
    assert found.gaps == FAILED.gaps


def test_the_only_one_who_can_decide_may_and_the_exception_is_kept() -> None:
    found = decided(decider=FREE | {"taught": True, "assessed": True, "is_only_one": True})
    assert found.may_be_issued
    assert found.exception == (Obstacle.DECIDER_TAUGHT, Obstacle.DECIDER_ASSESSED)


@pytest.mark.parametrize("fact", ["is_holder", "may_decide"])
def test_being_the_only_one_excuses_nothing_else(fact) -> None:
    changed = {fact: not FREE[fact], "is_only_one": True}
    assert not decided(decider=FREE | changed).may_be_issued


FIRST, LAST = date(2026, 5, 2), date(2028, 5, 2)


@pytest.mark.parametrize(
    ("events", "today", "state"),
    [
        ((), date(2026, 5, 1), State.EXPIRED),
        ((), FIRST, State.CURRENT),
        ((), LAST, State.CURRENT),
        ((), date(2028, 5, 3), State.EXPIRED),
        (("suspended",), FIRST, State.SUSPENDED),
        (("suspended",), date(2028, 5, 3), State.EXPIRED),
        (("suspended", "lifted"), FIRST, State.CURRENT),
        (("suspended", "lifted", "suspended"), FIRST, State.SUSPENDED),
        (("withdrawn",), FIRST, State.WITHDRAWN),
        (("suspended", "withdrawn"), FIRST, State.WITHDRAWN),
        (("withdrawn",), date(2030, 1, 1), State.WITHDRAWN),
    ],
)
def test_the_state_on_a_day(events, today, state) -> None:
    assert state_of(FIRST, LAST, events, today) is state


@pytest.mark.parametrize(
    ("passed_on", "months", "last"),
    [
        (date(2026, 5, 2), 24, date(2028, 5, 2)),
        (date(2026, 5, 2), 12, date(2027, 5, 2)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2024, 2, 29), 48, date(2028, 2, 29)),
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2026, 11, 30), 1, date(2026, 12, 30)),
        (date(2026, 12, 31), 1, date(2027, 1, 31)),
    ],
)
def test_the_last_day_is_the_same_day_of_a_later_month_or_its_last(passed_on, months, last) -> None:
    assert last_valid_day(passed_on, months) == last
