"""How sure and how right; telling apart and being careful."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.confidence import (
    FEWEST_FOR_A_SCORE,
    ODDS,
    calibration,
    chance_reliability,
    levels_table,
    sure_and_wrong,
)
from assessments.rules.detection import PairDetection, detection_from_rates
from assessments.rules.evidence import Confidence

from .specimens import GATHER, REFUSE, shown

SURE, FAIRLY, UNSURE = Confidence.SURE, Confidence.FAIRLY, Confidence.UNSURE


def test_the_three_levels_have_the_odds_that_stand_on_the_screen():
    assert dict(ODDS) == {"sure": 0.95, "fairly": 0.75, "unsure": 0.50}
    assert FEWEST_FOR_A_SCORE == 30


def test_the_table_of_levels_counts_and_gives_an_interval():
    sure, fairly, unsure = levels_table([SURE, SURE, UNSURE], [True, False, True])
    assert (sure.said, sure.right, sure.share_right, sure.promised) == (2, 1, 0.5, 0.95)
    assert (fairly.said, fairly.share_right, fairly.interval) == (0, None, None)
    assert unsure.interval is not None
    assert (unsure.interval.lower, unsure.interval.upper) == (pytest.approx(0.025), 1.0)


def test_nobody_is_scored_without_an_answer():
    assert calibration([], []) is None
    assert chance_reliability([]) is None


def test_answers_and_results_must_pair_up_and_levels_be_known():
    with pytest.raises(ValueError, match="zip"):
        calibration([SURE], [])
    with pytest.raises(KeyError):
        calibration(["certain"], [True])


@given(st.lists(st.tuples(st.sampled_from(list(Confidence)), st.booleans()), min_size=1, max_size=60))
def test_the_parts_make_up_the_brier_score(answers):
    said, right = [level for level, _ in answers], [ok for _, ok in answers]
    found = calibration(said, right)
    assert found is not None
    assert found.brier == pytest.approx(found.reliability - found.resolution + found.uncertainty)
    assert found.brier == pytest.approx(sum((ODDS[level] - ok) ** 2 for level, ok in answers) / len(answers))


def test_chance_alone_gives_a_perfect_person_some_reliability():
    """Forty answers spread over three levels: 0.012 (compare Ferro & Fricker 2012)."""
    said = [SURE] * 20 + [FAIRLY] * 12 + [UNSURE] * 8
    assert chance_reliability(said) == pytest.approx((0.0475 + 0.1875 + 0.25) / 40)
    assert chance_reliability(said) == pytest.approx(0.012, abs=5e-4)


def test_sure_and_wrong_on_a_dangerous_plant_stands_first_from_the_first_one():
    wrong = shown("hemlock", GATHER, confidence=SURE)
    later = shown("hemlock", GATHER, confidence=SURE)
    others = [
        shown("hemlock", GATHER, confidence=FAIRLY),
        shown("hemlock", REFUSE, confidence=SURE),
        shown("cow-parsley", GATHER, confidence=SURE),
        shown("hemlock", GATHER, confidence=SURE, void=True),
        shown("hemlock", GATHER, confidence=SURE, annulled=True),
    ]
    assert sure_and_wrong([later, *others, wrong], frozenset({"hemlock"})) == (wrong, later)


@pytest.mark.parametrize(
    ("counts", "d_prime", "criterion", "error"),
    [
        ((13, 13, 0, 5), 3.19, -0.21, 1.04),
        ((13, 13, 5, 5), 0.42, -1.59, 1.04),
        ((12, 13, 2, 5), 1.45, -0.52, 0.73),
    ],
)
def test_who_can_tell_is_told_from_who_is_only_careful(counts, d_prime, criterion, error):
    pair = PairDetection(*counts)
    assert pair.detection.d_prime == pytest.approx(d_prime, abs=0.005)
    assert pair.detection.criterion == pytest.approx(criterion, abs=0.005)
    assert pair.standard_error == pytest.approx(error, abs=0.005)


def test_nothing_shown_gives_no_error():
    assert PairDetection(0, 0, 0, 5).standard_error is None
    assert PairDetection(0, 5, 0, 0).standard_error is None
    assert PairDetection(0, 0, 0, 0).detection.d_prime == 0


@pytest.mark.parametrize("counts", [(6, 5, 0, 5), (0, 5, 6, 5), (-1, 5, 0, 5)])
def test_nobody_refuses_more_than_was_shown(counts):
    with pytest.raises(ValueError, match="shown"):
        PairDetection(*counts)


def test_rates_between_none_and_all_have_one():
    found = detection_from_rates(0.84, 0.16)
    assert (found.d_prime, found.criterion) == (pytest.approx(1.989, abs=6e-4), pytest.approx(0, abs=1e-12))


@pytest.mark.parametrize("rate", [0, 1, inf, nan])
def test_rates_of_none_and_all_have_no_d_prime(rate):
    with pytest.raises(ValueError, match="use the counts"):
        detection_from_rates(rate, 0.5)
    with pytest.raises(ValueError, match="use the counts"):
        detection_from_rates(0.5, rate)
