"""The shortest way to leading, against trying every choice of walks."""

from datetime import date, timedelta
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.certification import State
from courses.rules.readiness import readiness
from courses.rules.requirements import Asked, Held, LeaderFacts, Proof, Requirement
from courses.rules.way import Ahead, Move, Way, walks_lacking, way

DAY = date(2031, 6, 1)
CERTIFICATE, FIRST_AID = Asked(Requirement.CERTIFICATE), Asked(Requirement.FIRST_AID)
ASSISTED, OBSERVED = Asked(Requirement.ASSISTED_WALKS, 3, 730), Asked(Requirement.OBSERVED_WALK)


def on(*days: int) -> tuple[date, ...]:
    return tuple(DAY + timedelta(days=each) for each in days)


def way_of(facts: LeaderFacts, *asked: Asked, **ahead: object) -> Way:
    return way(readiness(facts, DAY, asked), facts, asked, Ahead(**ahead), DAY)  # type: ignore[arg-type]


def test_who_is_ready_has_nothing_before_them() -> None:
    facts = LeaderFacts(first_aid=(Proof(DAY, None),))
    assert way_of(facts, FIRST_AID) == Way((), DAY)


def test_a_ticket_can_be_shown_on_any_day() -> None:
    found = way_of(LeaderFacts(), FIRST_AID)
    assert [move.move for move in found.moves] == [Move.SHOW]
    assert found.ready_from == DAY


def test_the_next_walks_are_named_and_the_observed_one_comes_after_them() -> None:
    facts = LeaderFacts(assisted_on=on(-9))
    found = way_of(facts, OBSERVED, ASSISTED, walks=on(3, 8, 9, 20))
    assert [(move.requirement, move.lacking, move.days) for move in found.moves] == [
        (Requirement.ASSISTED_WALKS, 2, on(3, 8)),
        (Requirement.OBSERVED_WALK, 1, on(9)),
    ]
    assert found.ready_from == on(10)[0]


def test_where_too_few_walks_are_planned_no_day_is_promised() -> None:
    found = way_of(LeaderFacts(), ASSISTED, walks=on(3))
    assert (found.moves[0].lacking, found.moves[0].days, found.ready_from) == (3, on(3), None)


def test_what_was_walked_long_ago_stops_counting_while_one_waits() -> None:
    lacking, days = walks_lacking(on(-729, -10), ASSISTED, on(5, 6), DAY)
    assert (lacking, days) == (2, on(5, 6))


@pytest.mark.parametrize(
    ("ahead", "move"),
    [
        ({"pairs_left": 3, "pairs": 14}, Move.PASS_PAIRS),
        ({"pairs_left": 3, "pairs": 14, "applied": True}, Move.PASS_PAIRS),
        ({"pairs_left": 0, "pairs": 14}, Move.APPLY),
        ({"pairs_left": 0, "pairs": 14, "applied": True}, Move.AWAIT_DECISION),
        ({}, Move.PASS_PAIRS),
    ],
)
def test_towards_a_certificate_comes_first_and_has_no_day(ahead, move) -> None:
    found = way_of(LeaderFacts(), FIRST_AID, CERTIFICATE, **ahead)
    assert [each.move for each in found.moves] == [move, Move.SHOW]
    assert found.ready_from is None


def test_a_suspension_is_settled_not_passed_again() -> None:
    held = Held(State.SUSPENDED, DAY + timedelta(days=90))
    assert way_of(LeaderFacts((held,)), CERTIFICATE, pairs_left=0).moves[0].move is Move.SETTLE_DOUBT


@given(
    walked=st.sets(st.integers(-40, -1), max_size=5),
    coming=st.sets(st.integers(0, 40), max_size=6),
    number=st.integers(1, 4),
    within=st.sampled_from([None, 10, 30]),
)
def test_no_choice_of_walks_gets_there_sooner(walked, coming, number, within) -> None:
    asked = Asked(Requirement.ASSISTED_WALKS, number, within)
    before, ahead = on(*sorted(walked)), on(*sorted(coming))

    def is_met(taken: tuple[date, ...], day: date) -> bool:
        return readiness(LeaderFacts(assisted_on=(*before, *taken)), day, [asked]).ready

    lacking, days = walks_lacking(before, asked, ahead, DAY)
    soonest = [
        (taken[-1] if taken else DAY - timedelta(days=1), len(taken))
        for size in range(len(ahead) + 1)
        for taken in combinations(ahead, size)
        if is_met(taken, taken[-1] + timedelta(days=1) if taken else DAY)
    ]
    if len(days) == lacking:
        assert min(soonest)[0] == (days[-1] if days else DAY - timedelta(days=1))
    else:
        assert soonest == []
        assert days == ahead
