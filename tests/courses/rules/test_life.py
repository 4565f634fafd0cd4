"""The life of a certificate by rule: which steps follow which, and why not."""

from datetime import date, timedelta

import pytest

from courses.rules.certification import State
from courses.rules.family_name import is_family_name
from courses.rules.life import Happened, Life, Step, StepRefusal, life_of, renewal_refusal, step_refusal

FIRST, LAST, TODAY = date(2026, 5, 2), date(2028, 5, 2), date(2027, 1, 1)
NAMED = ("a", "b", "c")


def life(*steps: Happened | str, today: date = TODAY) -> Life:
    past = [each if isinstance(each, Happened) else Happened(each) for each in steps]
    return life_of(FIRST, LAST, NAMED, past, today)


@pytest.mark.parametrize(
    ("past", "possible"),
    [
        ((), {Step.SUSPENDED, Step.NARROWED, Step.RENEWED, Step.WITHDRAWN}),
        (("suspended",), {Step.LIFTED, Step.NARROWED, Step.WITHDRAWN}),
        (("suspended", "lifted"), {Step.SUSPENDED, Step.NARROWED, Step.RENEWED, Step.WITHDRAWN}),
        (("withdrawn",), set()),
    ],
)
def test_every_state_has_its_steps_and_no_others(past, possible) -> None:
    assert {step for step in Step if step_refusal(life(*past), step, ["a"]) is None} == possible


def test_what_has_run_out_is_renewed_or_withdrawn_and_nothing_else() -> None:
    over = life(today=LAST + timedelta(days=1))
    assert over.state is State.EXPIRED
    assert {step for step in Step if step_refusal(over, step, ["a"]) is None} == {Step.RENEWED, Step.WITHDRAWN}


@pytest.mark.parametrize(
    ("keeps", "refusal"),
    [
        ((), StepRefusal.LEAVES_NOTHING),
        (("a", "b"), StepRefusal.TAKES_NOTHING),
        (("a", "c"), StepRefusal.ADDS_PAIRS),
        (("a",), None),
    ],
)
def test_narrowing_takes_pairs_away_and_never_adds_any(keeps, refusal) -> None:
    narrowed = life(Happened("narrowed", frozenset({"a", "b"})))
    assert narrowed.pairs == {"a", "b"}
    assert step_refusal(narrowed, Step.NARROWED, keeps) is refusal


@pytest.mark.parametrize(
    ("past", "today", "same", "refusal"),
    [
        ((), LAST - timedelta(days=91), True, StepRefusal.TOO_EARLY_TO_RENEW),
        ((), LAST - timedelta(days=90), True, None),
        ((), LAST + timedelta(days=400), True, None),
        ((), LAST, False, StepRefusal.OTHER_STANDARD),
        (("renewed",), LAST, True, StepRefusal.WAS_RENEWED),
        (("suspended",), LAST, True, StepRefusal.IS_SUSPENDED),
        (("withdrawn",), LAST, True, StepRefusal.IS_WITHDRAWN),
    ],
)
def test_when_a_renewal_may_be_asked_for(past, today, same, refusal) -> None:
    assert renewal_refusal(life(*past, today=today), today, same_standard=same) is refusal


@pytest.mark.parametrize(
    ("said", "known"),
    [
        ("Núñez Ångström", True),
        ("nunez angstrom", True),
        ("ANGSTROM", True),
        ("María", False),
        ("ström", False),
        ("", False),
    ],
)
def test_a_family_name_is_the_end_of_the_name_however_it_is_typed(said, known) -> None:
    assert is_family_name(said, "María Núñez-Ångström") is known
