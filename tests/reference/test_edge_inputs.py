"""Every quantity at its edges: nothing, everything, none, all, one, very many, and what makes no sense.

Expected values: by hand from the definitions of the decision rule (no outside source), unless one stands beside it.
"""

from math import inf, log
from typing import Any

import pytest

from .quantities import QUANTITIES, compute

NAN = float("nan")
BAR = {"p_max": 0.2, "ratio": 10, "alpha": 0.1}
TABLE = "responses"
LEVELS = {"sure": 0.95, "unsure": 0.5}
BANK = [{"species": "hemlock", "stage": "flower", "side": "D"}, {"species": "carrot", "stage": "flower", "side": "E"}]


def event(specimen: str, answer: str, named: str = "none", void: bool = False) -> dict[str, Any]:
    return {"specimen": specimen, "answer": answer, "named": named, "void": void}


def one_ledger(side: str, *events: dict[str, Any]) -> dict[str, Any]:
    return {"side": side, **BAR, "weight": 1, "events": list(events)}


def one_bank(quotas: list[tuple[int, dict[str, str]]], length: int, specimens: Any = BANK) -> dict[str, Any]:
    named = [{"name": f"q{n}", "at_least": count, "where": where} for n, (count, where) in enumerate(quotas)]
    return {"specimens": specimens, "quotas": named, "length": length}


def counted(clean: int, misses: int, neutral: int = 0) -> dict[str, Any]:
    return {"clean": clean, "misses": misses, "neutral": neutral}


EDGES: list[tuple[str, dict[str, Any], Any]] = [
    ("clopper_pearson_interval", {"misses": 0, "n": 1, "confidence": 0.95}, {"lower": 0, "upper": 0.975}),
    ("clopper_pearson_interval", {"misses": 1, "n": 1, "confidence": 0.95}, {"lower": 0.025, "upper": 1}),
    ("clopper_pearson_upper", {"misses": 0, "n": 10**7, "confidence": 0.95}, 1 - 0.05**1e-7),
    ("clopper_pearson_upper", {"misses": 2.0, "n": 2.0, "confidence": 0.95}, 1),
    ("success_run_n", {"p_max": 0.999, "confidence": 0.9}, 1),
    ("success_run_n", {"p_max": 1e-6, "confidence": 0.99}, 4_605_168),  # ln 100 / -ln(1 - 1e-6), rounded up
    ("fixed_n_with_misses", {"p_max": 0.5, "confidence": 0.875, "misses_allowed": 0}, 3),  # 1/8 to the last digit
    ("rule_of_three", {"n": 1}, {"approximate": 3, "exact": 0.95}),
    ("sprt_boundaries", {"p0": 0.1, "p1": 0.9, "alpha": 0.1, "beta": 0.1}, {"A": 9, "B": 1 / 9, "slope": 0.5}),
    ("e_value", {"clean": 0, "misses": 0, "p_max": 0.2, "p1": 0.02}, {"e": 1, "log_e": 0}),
    ("e_value", {"clean": 0, "misses": 1, "p_max": 0.2, "p1": 0}, {"e": 0, "log_e": -inf}),
    ("e_value", {"clean": 4, "misses": 0, "p_max": 0.2, "p1": 0}, {"e": 0.8**-4, "log_e": -4 * log(0.8)}),
    ("e_value", {"clean": 10**6, "misses": 0, "p_max": 0.2, "p1": 0.02}, {"e": inf}),
    ("clean_needed", {"p_max": 0.2, "p1": 0.02, "alpha": 1, "misses": 0}, 0),
    ("clean_needed", {"p_max": 0.2, "p1": 0, "alpha": 0.1, "misses": 1}, None),
    ("clean_needed", {"p_max": 0.2, "p1": 0.02, "alpha": 0.1, "misses": 1.0}, 23),
    ("miss_cost_and_zero_drift", {"p_max": 0.2, "p1": 0}, {"clean_items_per_miss": inf, "zero_drift_rate": 0}),
    ("anytime_upper_limit", {"clean": 0, "misses": 7, "alpha": 0.1, "ratio": 10}, 1),
    ("anytime_upper_limit", {"clean": 1, "misses": 0, "alpha": 0.1, "ratio": 10}, 9 / 9.9),
    ("anytime_upper_limit", {"clean": 1, "misses": 1000, "alpha": 0.1, "ratio": 10}, 1),
    ("mixture_log_e_value", {"clean": 0, "misses": 0, "p_max": 0.2, "a": 1, "b": 1}, 0),
    ("mixture_log_e_value", {"clean": 0, "misses": 1, "p_max": 0.2, "a": 1, "b": 1}, log(0.5)),
    ("mixture_log_e_value", {"clean": 0, "misses": 500, "p_max": 0.2, "a": 1, "b": 1}, -log(501)),
    ("pass_probability_within", {"true_rate": 0, **BAR, "items": 12}, 1),
    ("pass_probability_within", {"true_rate": 0, **BAR, "items": 11}, 0),
    ("pass_probability_within", {"true_rate": 1, **BAR, "items": 99}, 0),
    ("pass_probability_within", {"true_rate": 0.5, **BAR, "items": 0}, 0),
    (
        "items_to_pass",
        {"true_rate": 1, **BAR, "horizon": 60},
        {"probability": 0, "mean_given_pass": None, "median": None, "q90": None},
    ),
    (
        "items_to_pass",
        {"true_rate": 0, **BAR, "horizon": 12},
        {"probability": 1, "mean_given_pass": 12, "median": 12, "q90": 12},
    ),
    ("best_of_retakes_false_pass", {"true_rate": 0, "items": 1, "attempts": 1}, 1),
    ("best_of_retakes_false_pass", {"true_rate": 1, "items": 1, "attempts": 10**9}, 0),
    ("best_of_retakes_false_pass", {"true_rate": 0.2, "items": 11, "attempts": 0}, 0),
    ("best_of_retakes_false_pass", {"true_rate": 0.9, "items": 20, "attempts": 3}, pytest.approx(3e-20)),
    ("clean_run_somewhere", {"miss_rate": 0, "run": 5, "items": 4}, {"probability": 0, "mean_wait": 5}),
    ("clean_run_somewhere", {"miss_rate": 1, "run": 1, "items": 9}, {"probability": 0, "mean_wait": inf}),
    ("windows", {**BAR, "weights": [0.8, 0.2], "windows": []}, {"windows": [], "passed": False}),
    (
        "windows",
        {**BAR, "weights": [1], "windows": [{"clean": 12, "misses": 0}]},
        {
            "passed": True,
            "windows": [{"threshold": 10, "clean_needed_in_all": 12, "still_needed": 0, "passed": True}],
        },
    ),
    ("ledger", one_ledger("dangerous"), {**counted(0, 0), "log_e": 0, "passed": False, "still_needed": 12}),
    ("ledger", one_ledger("edible"), {**counted(0, 0), "log_e": 0, "passed": False, "still_needed": 12}),
    ("ledger", one_ledger("dangerous", *[event(f"a{n}", "refuse") for n in range(12)]), {"passed": True}),
    ("ledger", one_ledger("dangerous", *[event(f"a{n}", "leave") for n in range(99)]), counted(0, 0, 99)),
    ("ledger", one_ledger("dangerous", event("a", "refuse"), event("a", "gather", "gathered")), counted(0, 1)),
    ("ledger", one_ledger("dangerous", event("a", "gather", void=True), event("a", "refuse")), counted(1, 0)),
    ("ledger", one_ledger("dangerous", event("a", "refuse", "gathered")), counted(0, 0, 1)),
    ("ledger", one_ledger("edible", event("a", "leave"), event("a", "gather", "gathered")), counted(0, 1)),
    (
        "bank_size_per_dangerous_species",
        {"true_rate": 0, **BAR, "dangerous_species": 1, "target": 1, "horizon": 12},
        12,
    ),
    (
        "bank_size_per_dangerous_species",
        {"true_rate": 1, **BAR, "dangerous_species": 1, "target": 0.01, "horizon": 99},
        None,
    ),
    ("shrunken_difficulty", {"correct": 0, "n": 0, "prior_mean": 0.7, "prior_strength": 4}, 0.7),
    ("shrunken_difficulty", {"correct": 3, "n": 3, "prior_mean": 0.2, "prior_strength": 0}, 1),
    ("item_proportions", {TABLE: [[1]]}, [1]),
    ("item_proportions", {"patterns": [[0, 1], [1, 1]], "counts": [0, 3]}, [1, 1]),
    ("corrected_point_biserial", {TABLE: [[1, 1], [1, 1]]}, [None, None]),
    ("corrected_point_biserial", {TABLE: [[0, 0], [0, 0]]}, [None, None]),
    ("corrected_point_biserial", {TABLE: [[1, 0]]}, [None, None]),
    ("corrected_point_biserial", {TABLE: [[1], [0]]}, [None]),
    ("corrected_point_biserial", {TABLE: [[1.0, 1.0], [0.0, 0.0]]}, [1, 1]),
    ("kr20", {TABLE: [[1, 1], [1, 1]]}, None),
    ("kr20", {TABLE: [[1], [0]]}, None),
    ("kr20", {TABLE: [[1, 0], [0, 1]]}, None),
    ("kr20", {TABLE: [[1, 1], [0, 0]]}, 1),
    (
        "kr20_interval",
        {"value": 1, "items": 5, "persons": 10, "confidence": 0.95},
        {"standard_error": 0, "lower": 1, "upper": 1},
    ),
    ("kr20_interval", {"value": 0.7, "items": 2, "persons": 2, "confidence": 0.95}, {"standard_error": None}),
    (
        "brier_decomposition",
        {"levels": LEVELS, "said": [], "right": []},
        {"brier": None, "reliability": None, "resolution": None, "uncertainty": None},
    ),
    (
        "brier_decomposition",
        {"levels": {"sure": 1, "no": 0}, "said": ["sure", "no"], "right": [1, 0]},
        {"brier": 0, "reliability": 0, "resolution": 0.25, "uncertainty": 0.25},
    ),
    (
        "dprime_loglinear",
        {"dangerous_refused": 0, "dangerous_shown": 0, "edible_refused": 0, "edible_shown": 0},
        {"hit_rate": 0.5, "false_alarm_rate": 0.5, "d_prime": 0, "criterion": 0},
    ),
    ("dprime_from_rates", {"hit_rate": 0.5, "false_alarm_rate": 0.5}, {"d_prime": 0, "criterion": 0}),
    (
        "character_separation",
        {"edible": {"a": 3, "b": 0}, "dangerous": {"b": 7, "c": 1}, "prior_dangerous": 0, "never": 0},
        {"total_variation": 1, "error_equal": 0, "error_prior": 0, "edible_share_safe": 1, "dangerous_share_proven": 1},
    ),
    (
        "character_separation",
        {"edible": {"a": 1}, "dangerous": {"a": 5}, "prior_dangerous": 0.3, "never": 0},
        {"youden": 0, "error_equal": 0.5, "error_prior": 0.3, "edible_share_safe": 0, "dangerous_share_proven": 0},
    ),
    ("ordered_character_best_cut", {"edible": [1], "dangerous": [1]}, {"youden": 0, "least_errors": 1}),
    ("ordered_character_best_cut", {"edible": [2], "dangerous": [1]}, {"youden": 1, "least_errors": 0}),
    ("practice_half_life", {"start": 2, "steps": [], "floor": 0.5, "cap": 180}, {"steps": []}),
    (
        "practice_half_life",
        {"start": 1, "steps": [{"days": 0, "result": "right"}], "floor": 0.5, "cap": 180},
        {"steps": [{"recall": 1, "half_life": 1}]},
    ),
    ("assembly_shortfall", one_bank([], 1, []), {"short": {}, "least_questions": 0, "feasible": False}),
    ("assembly_shortfall", one_bank([], 3), {"short": {}, "least_questions": 0, "feasible": False}),
    ("assembly_shortfall", one_bank([(0, {"side": "D"})], 2), {"short": {}, "least_questions": 0, "feasible": True}),
    (
        "assembly_shortfall",
        one_bank([(3, {"side": "D", "stage": "flower"})], 2),
        {"short": {"q0": 2}, "least_questions": None, "feasible": False},
    ),
]

REFUSED: list[tuple[str, dict[str, Any]]] = [
    ("clopper_pearson_interval", {"misses": 5, "n": 4, "confidence": 0.95}),
    ("clopper_pearson_upper", {"misses": 0, "n": 0, "confidence": 0.95}),
    ("clopper_pearson_upper", {"misses": 0, "n": 4, "confidence": 1}),
    ("success_run_n", {"p_max": 0, "confidence": 0.9}),
    ("success_run_n", {"p_max": 0.1, "confidence": 1}),
    ("fixed_n_with_misses", {"p_max": 0.1, "confidence": 0.9, "misses_allowed": -1}),
    ("rule_of_three", {"n": 0}),
    ("sprt_boundaries", {"p0": 0, "p1": 0.2, "alpha": 0.1, "beta": 0.1}),
    ("e_value", {"clean": -1, "misses": 0, "p_max": 0.2, "p1": 0.02}),
    ("e_value", {"clean": 1, "misses": 0, "p_max": 1, "p1": 0.02}),
    ("clean_needed", {"p_max": 0.2, "p1": 0.02, "alpha": 0, "misses": 0}),
    ("clean_needed", {"p_max": 0.2, "p1": 0.2, "alpha": 0.1, "misses": 0}),
    ("miss_cost_and_zero_drift", {"p_max": 0.2, "p1": 0.3}),
    ("anytime_upper_limit", {"clean": 1, "misses": 0, "alpha": 1, "ratio": 10}),
    ("mixture_log_e_value", {"clean": 1, "misses": 0, "p_max": 0, "a": 1, "b": 1}),
    ("pass_probability_within", {"true_rate": 1.1, **BAR, "items": 5}),
    ("pass_probability_within", {"true_rate": 0.1, **BAR, "items": -1}),
    ("items_to_pass", {"true_rate": 0.1, **BAR, "horizon": 0}),
    ("best_of_retakes_false_pass", {"true_rate": 0.1, "items": 0, "attempts": 1}),
    ("clean_run_somewhere", {"miss_rate": 0.1, "run": 0, "items": 5}),
    ("windows", {**BAR, "weights": [0], "windows": [{"clean": 1, "misses": 0}]}),
    ("ledger", {**one_ledger("dangerous"), "weight": 0}),
    (
        "bank_size_per_dangerous_species",
        {"true_rate": 0, **BAR, "dangerous_species": 0, "target": 0.9, "horizon": 20},
    ),
    ("shrunken_difficulty", {"correct": 5, "n": 4, "prior_mean": 0.5, "prior_strength": 4}),
    ("shrunken_difficulty", {"correct": 0, "n": 0, "prior_mean": 0.5, "prior_strength": 0}),
    ("item_proportions", {TABLE: []}),
    ("item_proportions", {TABLE: [[2]]}),
    ("corrected_point_biserial", {TABLE: [[1, 0], [1]]}),
    ("kr20", {"patterns": [[0, 1], [1, 1]], "counts": [0, 0]}),
    ("kr20", {"patterns": [[0, 1], [1, 1]], "counts": [1, -1]}),
    ("kr20", {"patterns": [[0, 1], [1, 1]], "counts": [1]}),
    ("kr20_interval", {"value": 1.2, "items": 5, "persons": 10, "confidence": 0.95}),
    ("kr20_interval", {"value": 0.7, "items": 5, "persons": 10, "confidence": 1}),
    ("kr20_interval", {"value": 0.7, "items": 1, "persons": 10, "confidence": 0.95}),
    ("brier_decomposition", {"levels": LEVELS, "said": ["sure"], "right": []}),
    ("dprime_loglinear", {"dangerous_refused": 3, "dangerous_shown": 2, "edible_refused": 0, "edible_shown": 1}),
    ("dprime_from_rates", {"hit_rate": 1, "false_alarm_rate": 0.5}),
    ("dprime_from_rates", {"hit_rate": 0.5, "false_alarm_rate": 0}),
    ("character_separation", {"edible": {}, "dangerous": {"a": 1}, "prior_dangerous": 0.5, "never": 0}),
    ("character_separation", {"edible": {"a": -1, "b": 2}, "dangerous": {"a": 1}, "prior_dangerous": 0.5, "never": 0}),
    ("ordered_character_best_cut", {"edible": [], "dangerous": [1]}),
    ("ordered_character_best_cut", {"edible": [NAN], "dangerous": [1]}),
    ("practice_half_life", {"start": 0, "steps": [{"days": 1, "result": "right"}], "floor": 0.5, "cap": 180}),
    ("assembly_shortfall", one_bank([], 0)),
]


def agrees(found: Any, expected: Any) -> bool:
    """Names that are expected, numbers to a billionth, null and truth exactly."""
    if isinstance(expected, dict):
        return all(agrees(found[name], value) for name, value in expected.items())
    if isinstance(expected, list):
        return len(found) == len(expected) and all(map(agrees, found, expected))
    if expected is None or isinstance(expected, bool):
        return found is expected
    close: bool = found == (pytest.approx(expected, abs=1e-9) if isinstance(expected, float | int) else expected)
    return close


@pytest.mark.parametrize(("quantity", "inputs", "expected"), EDGES)
def test_a_quantity_at_its_edge_is_what_its_definition_says(quantity, inputs, expected):
    found = compute(quantity, inputs)
    assert agrees(found, expected), found


@pytest.mark.parametrize(("quantity", "inputs"), REFUSED)
def test_what_makes_no_sense_is_refused_with_a_sentence(quantity, inputs):
    with pytest.raises(ValueError, match=r"[a-z] [a-z]"):
        compute(quantity, inputs)


def test_every_quantity_is_tried_at_an_edge():
    assert {quantity for quantity, _, _ in EDGES} == set(QUANTITIES)
    assert agrees({"a": 1.0}, {"a": 1})
    assert not agrees({"a": 1.1}, {"a": 1})
    assert not agrees([None], [0])
