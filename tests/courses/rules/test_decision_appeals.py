"""Who may decide an appeal against a decision, until when one can be made, and what follows."""

from datetime import date
from itertools import product

import pytest

from courses.rules.certification import DeciderFacts, State
from courses.rules.decision_appeals import (
    NEVER_EXCUSED,
    Bar,
    Decision,
    Follows,
    Refusal,
    appeal_refusal,
    bars_of,
    eligibilities,
    what_follows,
)

NO_BARS: frozenset[Bar] = frozenset()
TIED, DECIDED = frozenset({Bar.TIED}), frozenset({Bar.DECIDED_IT})
BOTH, OWN = TIED | DECIDED, frozenset({Bar.APPEALED})


def may(*bars: frozenset[Bar]) -> list[bool]:
    found = eligibilities(dict(enumerate(bars)))
    return [found[number].may_decide for number in range(len(bars))]


@pytest.mark.parametrize(
    ("bars", "expected"),
    [
        ((NO_BARS, TIED, DECIDED, BOTH), [True, False, False, False]),
        ((TIED, DECIDED, BOTH), [True, False, False]),  # nobody is free: being tied weighs less than having decided
        ((DECIDED, BOTH), [True, True]),
        ((BOTH,), [True]),  # a school of one
        ((OWN, DECIDED), [False, True]),  # one's own appeal never, so the other has to
        ((OWN,), [False]),
        ((), []),
    ],
)
def test_the_least_involved_decide(bars, expected) -> None:
    assert may(*bars) == expected


def test_what_is_set_aside_is_said_and_nothing_else() -> None:
    found = eligibilities({1: TIED, 2: BOTH})
    assert found[1].exception == (Bar.TIED,)
    assert found[2].bars == (Bar.DECIDED_IT, Bar.TIED)
    assert eligibilities({1: NO_BARS, 2: TIED})[1].exception == ()


def test_somebody_decides_whenever_anybody_can_and_never_who_has_worse_than_they() -> None:
    """Every school of up to three deciders, against the order of the kinds of involvement."""
    kinds = [NO_BARS, TIED, DECIDED, BOTH, OWN, frozenset({Bar.MAY_NOT_DECIDE})]
    rank = {NO_BARS: 0, TIED: 1, DECIDED: 2, BOTH: 2}
    for size in (1, 2, 3):
        for school in product(kinds, repeat=size):
            ranks = [rank.get(bars, 9) for bars in school]
            best = min(ranks)
            assert may(*school) == [each == best and each < 9 for each in ranks], school


def test_nobody_decides_about_themselves_or_without_the_role() -> None:
    for bar in NEVER_EXCUSED:
        assert may(frozenset({bar})) == [False]


@pytest.mark.parametrize(
    ("facts", "decided_it", "bars"),
    [
        ({}, False, NO_BARS),
        ({"taught": True}, False, TIED),
        ({"assessed": True}, False, TIED),
        ({"has_conflict": True}, True, BOTH),
        ({"is_holder": True}, False, OWN),
        ({"may_decide": False}, False, frozenset({Bar.MAY_NOT_DECIDE})),
        ({"taught": True, "is_only_one": True}, False, TIED),
    ],
)
def test_what_bars_a_decider(facts, decided_it, bars) -> None:
    free = {"is_holder": False, "may_decide": True, "taught": False, "assessed": False}
    assert bars_of(DeciderFacts(**{**free, **facts}), decided_it=decided_it) == bars


@pytest.mark.parametrize(
    ("today", "appealed", "refusal"),
    [
        (date(2026, 3, 1), False, None),
        (date(2026, 3, 29), False, None),
        (date(2026, 3, 30), False, Refusal.TOO_LATE),
        (date(2026, 3, 2), True, Refusal.ALREADY),
    ],
)
def test_the_last_day_still_counts_and_there_is_one_appeal(today, appealed, refusal) -> None:
    assert appeal_refusal(date(2026, 3, 1), 28, today, appealed=appealed) is refusal


@pytest.mark.parametrize(
    ("decision", "state", "follows"),
    [
        (Decision.DECLINED, None, Follows.APPLICATION),
        (Decision.SUSPENDED, State.SUSPENDED, Follows.LIFTED),
        (Decision.SUSPENDED, State.CURRENT, Follows.NOTHING),
        (Decision.SUSPENDED, State.EXPIRED, Follows.NOTHING),
        (Decision.NARROWED, State.CURRENT, Follows.APPLICATION),
        (Decision.WITHDRAWN, State.WITHDRAWN, Follows.APPLICATION),
    ],
)
def test_what_upholding_does(decision, state, follows) -> None:
    assert what_follows(decision, state) is follows
