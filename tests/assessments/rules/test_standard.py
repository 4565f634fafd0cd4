"""Standards as values: the numbers of the two defaults, and numbers that make no test."""

from decimal import Decimal
from fractions import Fraction

import pytest

from assessments.rules.kinds.catalogue import KINDS, counts_as_evidence
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, Side, SideBar, exact

from .specimens import CICELY_PAIR, HEMLOCK_PAIR, LILY_PAIR, standard


def test_the_participants_standard():
    assert PARTICIPANT.dangerous == SideBar(Fraction(1, 5), Fraction(10), Fraction(1, 10))
    assert PARTICIPANT.edible == SideBar(Fraction(1, 2), Fraction(5), Fraction(1, 10))
    assert PARTICIPANT.valid_months == 24


def test_the_walk_leaders_standard():
    assert WALK_LEADER.dangerous == SideBar(Fraction(1, 10), Fraction(10), Fraction(1, 20))
    assert WALK_LEADER.edible == SideBar(Fraction(3, 10), Fraction(5), Fraction(1, 20))
    assert WALK_LEADER.valid_months == 12


@pytest.mark.parametrize("bars", [PARTICIPANT, WALK_LEADER])
def test_both_weigh_their_windows_eight_one_one(bars):
    assert bars.window_weights == (Fraction(4, 5), Fraction(1, 10), Fraction(1, 10))


@pytest.mark.parametrize("written", [0.2, "0.2", "1/5", Decimal("0.20"), Fraction(1, 5)])
def test_a_number_is_taken_as_it_is_written(written):
    assert exact(written) == Fraction(1, 5)


def test_the_expected_share_is_the_limit_over_the_ratio():
    assert SideBar.of("0.20", 10, "0.10").expected == Fraction(1, 50)


@pytest.mark.parametrize(
    ("limit", "ratio", "alpha", "word"),
    [
        (0, 10, "0.1", "limit"),
        (1, 10, "0.1", "limit"),
        ("0.2", 1, "0.1", "ratio"),
        ("0.2", 10, 0, "Alpha"),
        ("0.2", 10, 1, "Alpha"),
    ],
)
def test_a_bar_that_makes_no_test_is_refused(limit, ratio, alpha, word):
    with pytest.raises(ValueError, match=word):
        SideBar.of(limit, ratio, alpha)


@pytest.mark.parametrize(
    "weights",
    [(), (Fraction(0),), (Fraction(1, 2), Fraction(0)), (Fraction(1, 2), Fraction(1, 2), Fraction(1, 100))],
)
def test_weights_that_spend_more_than_alpha_or_nothing_are_refused(weights):
    with pytest.raises(ValueError, match="weight"):
        standard(window_weights=weights)


def test_each_species_has_one_ledger_however_many_pairs_it_stands_in():
    facts = standard(LILY_PAIR, HEMLOCK_PAIR, CICELY_PAIR)
    assert facts.species(Side.DANGEROUS) == ("lily", "hemlock")
    assert facts.species(Side.EDIBLE) == ("ramsons", "cow-parsley", "cicely")
    assert facts.pairs_of("hemlock") == (HEMLOCK_PAIR, CICELY_PAIR)
    assert facts.pairs_of("ramsons") == (LILY_PAIR,)
    assert facts.bar(Side.EDIBLE) == PARTICIPANT.edible


def test_only_naming_and_deciding_is_evidence():
    assert [kind.key for kind in KINDS if kind.counts] == ["name_and_decide"]
    assert len({kind.key for kind in KINDS}) == len(KINDS) == 4
    assert not counts_as_evidence("never heard of")


def test_evidence_counts_for_two_years_unless_the_standard_says_otherwise():
    facts = standard()
    assert (facts.period_months, facts.stage_clean) == (24, 4)
