"""What it takes to pass. Expected figures: the planning tables of the decision rule, exact by recursion."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.rules.evalue import clean_needed, drift
from assessments.rules.planning import (
    all_within,
    bank_size,
    least_specimens,
    load,
    pass_probability_within,
    time_to_pass,
)
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, SideBar

FIRST = Fraction(8, 10)
LIMITS = {"participant": (13, 25, 38), "leader": (34, 59, 85)}
BARS = {"participant": PARTICIPANT.dangerous, "leader": WALK_LEADER.dangerous}


@pytest.mark.parametrize("name", ["participant", "leader"])
def test_the_table_looks_at_the_moments_at_which_somebody_can_pass(name):
    needed = [clean_needed(misses, BARS[name], FIRST) + misses for misses in range(3)]
    assert tuple(needed) == LIMITS[name]


@pytest.mark.parametrize(
    ("name", "rate", "percent"),
    [
        ("participant", 0.00, (100, 100, 100)),
        ("participant", 0.01, (88, 98, 100)),
        ("participant", 0.02, (77, 93, 97)),
        ("participant", 0.05, (51, 70, 80)),
        ("participant", 0.10, (25, 36, 41)),
        ("participant", 0.20, (5.5, 6.7, 7.0)),
        ("leader", 0.01, (71, 90, 96)),
        ("leader", 0.02, (50, 71, 82)),
        ("leader", 0.05, (17, 26, 31)),
        ("leader", 0.10, (2.8, 3.5, 3.8)),
    ],
)
def test_the_chance_to_pass_one_species(name, rate, percent):
    time = time_to_pass(rate, BARS[name], FIRST, 100)
    digits = 1 if percent[0] < 10 else 0
    assert tuple(round(100 * time.within(n), digits) for n in LIMITS[name]) == percent


@pytest.mark.parametrize(
    ("name", "rate", "mean", "ninety"),
    [
        ("participant", 0.00, 13, 13),
        ("participant", 0.01, 14.8, 25),
        ("participant", 0.02, 17.2, 25),
        ("participant", 0.05, 33.8, 75),
        ("leader", 0.00, 34, 34),
        ("leader", 0.01, 45.5, 59),
        ("leader", 0.02, 69, 135),
    ],
)
def test_the_mean_and_the_ninety_percent_point(name, rate, mean, ninety):
    time = time_to_pass(rate, BARS[name], FIRST, 1500)
    assert time.mean == pytest.approx(mean, abs=0.5 if mean == 69 else 0.05)
    assert time.quantile(0.9) == ninety


@pytest.mark.parametrize(
    ("name", "rate", "percent"),
    [("participant", 0.10, 61), ("participant", 0.20, 7.2), ("leader", 0.05, 51), ("leader", 0.10, 3.9)],
)
def test_the_chance_ever_to_pass(name, rate, percent):
    found = 100 * time_to_pass(rate, BARS[name], FIRST, 3000).probability
    assert found == pytest.approx(percent, abs=0.5 if percent > 10 else 0.05)


@pytest.mark.parametrize(
    ("name", "specimens", "rate", "species", "percent"),
    [
        ("participant", 13, 0.01, (4, 6, 8, 12), (59, 46, 35, 21)),
        ("participant", 25, 0.01, (4, 6, 8, 12), (92, 88, 85, 78)),
        ("participant", 13, 0.02, (8,), (12,)),
        ("participant", 25, 0.02, (8,), (56,)),
        ("leader", 34, 0.01, (6,), (13,)),
        ("leader", 59, 0.01, (6,), (53,)),
    ],
)
def test_the_chance_to_pass_all_species(name, specimens, rate, species, percent):
    one = pass_probability_within(rate, BARS[name], FIRST, specimens=specimens)
    assert tuple(round(100 * all_within([one] * count)) for count in species) == percent


@pytest.mark.parametrize(
    ("bar", "ninety", "half"),
    [
        (PARTICIPANT.dangerous, (13, 25, 38, 50, 75), (13, 13, 25, 25, 38)),
        (SideBar.of("0.20", 5, "0.10"), (14, 24, 34, 44, 54), (14, 14, 24, 24, 34)),
        (SideBar.of("0.15", 10, "0.05"), (22, 39, 56, 105, 172), (22, 22, 39, 56, 89)),
        (WALK_LEADER.dangerous, (34, 85, 110, 261, 839), (34, 59, 59, 135, 311)),
        (SideBar.of("0.10", 5, "0.05"), (38, 78, 98, 178, 357), (38, 58, 58, 98, 178)),
    ],
)
def test_the_bank_that_lets_such_people_pass_six_species(bar, ninety, half):
    rates = (0.0, 0.005, 0.01, 0.02, 0.03)
    sizes = [bank_size(rate, bar, FIRST, species=6, target=0.9, horizon=900) for rate in rates]
    assert tuple(sizes) == ninety
    sizes = [bank_size(rate, bar, FIRST, species=6, target=0.5, horizon=900) for rate in rates]
    assert tuple(sizes) == half


def test_no_bank_is_large_enough_for_somebody_at_the_limit():
    assert bank_size(0.2, PARTICIPANT.dangerous, FIRST, species=1, target=0.9, horizon=500) is None


@pytest.mark.parametrize(
    ("dangerous", "edible", "questions"),
    [
        (6 * 13, 10 * 5, 130),
        (6 * 34, 10 * 11, 340),
        (8 * 13, 12 * 5, 174),
        (8 * 34, 12 * 11, 454),
        (6, 4, 10),
    ],
)
def test_the_load_of_one_person(dangerous, edible, questions):
    assert load([dangerous], [edible]).questions == questions


def test_the_load_per_week():
    assert load([13] * 6, [5] * 10).per_week(8) == 16.25
    with pytest.raises(ValueError, match="weeks"):
        load([13], [5]).per_week(0)


def test_required_stages_can_ask_for_more_than_the_count():
    assert least_specimens(PARTICIPANT.dangerous, FIRST) == 13
    assert least_specimens(PARTICIPANT.dangerous, FIRST, required_stages=3) == 13
    assert least_specimens(PARTICIPANT.dangerous, FIRST, required_stages=4) == 16
    assert least_specimens(PARTICIPANT.dangerous, FIRST, required_stages=3, stage_clean=5) == 15


@pytest.mark.parametrize(
    ("name", "rate", "specimens", "percent"),
    [
        ("participant", 0.05, (10, 15, 25), (94, 98, 100)),
        ("participant", 0.10, (10, 15, 25), (81, 91, 99)),
        ("participant", 0.20, (10, 15, 25), (50, 62, 80)),
        ("participant", 0.50, (10, 15, 25), (4, 5, 5)),
        ("leader", 0.05, (15, 25), (57, 91)),
        ("leader", 0.10, (15, 25), (31, 63)),
        ("leader", 0.30, (15, 25), (2, 3)),
    ],
)
def test_the_chance_to_pass_an_edible_species(name, rate, specimens, percent):
    bar = {"participant": PARTICIPANT.edible, "leader": WALK_LEADER.edible}[name]
    time = time_to_pass(rate, bar, FIRST, 25)
    assert tuple(round(100 * time.within(n)) for n in specimens) == percent


@pytest.mark.parametrize(("rate", "chance"), [(1 / 2, 0.0001), (1 / 3, 0.005)])
def test_a_guesser_hardly_ever_passes_the_dangerous_side(rate, chance):
    found = time_to_pass(rate, PARTICIPANT.dangerous, FIRST, 800).probability
    assert found == pytest.approx(chance, rel=0.25)


def test_walds_rough_figure_is_near_the_exact_mean():
    """Mean about ln(1/alpha) / ((1-x) g - x l) (Wald 1945); the overshoot makes the exact one larger."""
    bar = SideBar.of("0.20", 10, "0.10")
    step = drift(bar.limit, bar.expected)
    rough = 2.302585 / (0.98 * step.gain - 0.02 * step.loss)
    exact_mean = time_to_pass(0.02, bar, horizon=1500).mean
    assert exact_mean is not None
    assert rough < exact_mean < 1.15 * rough


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(list(BARS.values())), st.floats(0, 1), st.floats(0, 1), st.integers(1, 120))
def test_the_chance_to_pass_falls_with_the_share_of_misses(bar, one, other, specimens):
    low, high = sorted((one, other))
    better = pass_probability_within(low, bar, FIRST, specimens=specimens)
    assert better >= pass_probability_within(high, bar, FIRST, specimens=specimens) - 1e-12


@settings(max_examples=30, deadline=None)
@given(
    st.sampled_from(list(BARS.values())),
    st.floats(0, 1),
    st.sampled_from([Fraction(1), FIRST, Fraction(1, 10)]),
)
def test_at_or_above_the_limit_nobody_passes_more_often_than_alpha(bar, above, weight):
    rate = float(bar.limit) + above * (1 - float(bar.limit))
    assert time_to_pass(rate, bar, weight, 600).probability <= float(bar.alpha * weight)


def test_figures_that_make_no_sense_are_refused():
    bar = PARTICIPANT.dangerous
    with pytest.raises(ValueError, match="share"):
        time_to_pass(1.5, bar)
    with pytest.raises(ValueError, match="horizon"):
        time_to_pass(0.1, bar, horizon=0)
    with pytest.raises(ValueError, match="horizon"):
        time_to_pass(0.1, bar, horizon=5).within(6)
    with pytest.raises(ValueError, match="target"):
        bank_size(0.1, bar, species=0, target=0.5)
    with pytest.raises(ValueError, match="target"):
        bank_size(0.1, bar, species=1, target=0)
    assert pass_probability_within(0.1, bar, specimens=0) == 0


def test_nobody_passes_within_too_near_a_horizon():
    time = time_to_pass(0.1, PARTICIPANT.dangerous, FIRST, 12)
    assert (time.probability, time.mean, time.quantile(0.5)) == (0, None, None)
