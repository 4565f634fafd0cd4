"""Each quantity of the check values, handed to the product's own function: mapping only, no formula."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

from assessments.rules import confidence as confidence_rules
from assessments.rules import (
    detection,
    evalue,
    intervals,
    mixture,
    planning,
    practice,
    retakes,
    shortfall,
)
from assessments.rules import items as item_rules
from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Candidate, Quota
from assessments.rules.evidence import AnswerFacts, Decision, SpecimenFacts
from assessments.rules.ledger import Counts, WindowLedger, open_ledger
from assessments.rules.names import NameBook
from assessments.rules.standard import PairFacts, Side, SideBar, StandardFacts, WindowFacts, exact
from assessments.rules.windows import WeightedWindow
from species.rules import errors, ranking

Inputs = dict[str, Any]
DAY = date(2031, 4, 1)
OPENED, CLOSED = datetime(2031, 4, 1, tzinfo=UTC), datetime(2033, 4, 1, tzinfo=UTC)


def compute(quantity: str, inputs: Inputs) -> Any:
    """The value of a quantity in the shape of the file. KeyError for a quantity that there is not."""
    return QUANTITIES[quantity](**inputs)


def clopper_pearson_interval(misses: int, n: int, confidence: float) -> Any:
    found = intervals.exact_interval(misses, n, confidence)
    return {"lower": found.lower, "upper": found.upper}


def rule_of_three(n: int) -> Any:
    return {"approximate": intervals.rule_of_three(n), "exact": intervals.exact_upper_limit(0, n, 0.95)}


def sprt_boundaries(p0: float, p1: float, alpha: float, beta: float) -> Any:
    test = retakes.two_boundary_test(p0, p1, alpha, beta)
    return {
        "A": test.upper,
        "B": test.lower,
        "accept_intercept": test.accept_intercept,
        "reject_intercept": test.reject_intercept,
        "slope": test.slope,
    }


def e_value(clean: int, misses: int, p_max: float, p1: float) -> Any:
    log_e = evalue.log_likelihood_ratio(clean, misses, exact(p_max), exact(p1))
    return {"e": evalue.exponential(log_e), "log_e": log_e}


def clean_needed(p_max: float, p1: float, alpha: float, misses: int) -> Any:
    return evalue.clean_needed_for(misses, exact(p_max), exact(p1), exact(alpha))


def miss_cost_and_zero_drift(p_max: float, p1: float) -> Any:
    drift = evalue.drift(exact(p_max), exact(p1))
    return {"clean_items_per_miss": drift.miss_cost, "zero_drift_rate": drift.zero_rate}


def anytime_upper_limit(clean: int, misses: int, alpha: float, ratio: float) -> Any:
    return evalue.anytime_upper_limit(clean, misses, exact(alpha), exact(ratio))


def mixture_log_e_value(clean: int, misses: int, p_max: float, a: float, b: float) -> Any:
    return mixture.mixture_log_e(clean, misses, p_max, a, b)


def pass_probability_within(true_rate: float, p_max: float, ratio: float, alpha: float, items: int) -> Any:
    return planning.pass_probability_within(true_rate, SideBar.of(p_max, ratio, alpha), specimens=items)


def items_to_pass(true_rate: float, p_max: float, ratio: float, alpha: float, horizon: int) -> Any:
    time = planning.time_to_pass(true_rate, SideBar.of(p_max, ratio, alpha), horizon=horizon)
    return {
        "probability": time.probability,
        "mean_given_pass": time.mean,
        "median": time.quantile(0.5),
        "q90": time.quantile(0.9),
    }


def best_of_retakes_false_pass(true_rate: float, items: int, attempts: int) -> Any:
    return retakes.best_of_attempts(true_rate, items, attempts)


def clean_run_somewhere(miss_rate: float, run: int, items: int) -> Any:
    found = retakes.clean_run_somewhere(miss_rate, run, items)
    return {"probability": found.probability, "mean_wait": found.mean_wait}


def windows(p_max: float, ratio: float, alpha: float, weights: list[float], windows: list[dict[str, int]]) -> Any:
    bar = SideBar.of(p_max, ratio, alpha)
    ledgers = [
        WindowLedger(WeightedWindow(number, exact(weight), None), bar, (), Counts(**counts), frozenset())
        for number, (weight, counts) in enumerate(zip(weights, windows, strict=False), 1)
    ]
    return {
        "windows": [
            {
                "threshold": float(ledger.threshold),
                "log_e": ledger.log_e,
                "clean_needed_in_all": ledger.clean_needed,
                "still_needed": ledger.still_needed,
                "passed": ledger.passed,
            }
            for ledger in ledgers
        ],
        "passed": any(ledger.passed for ledger in ledgers),
    }


def ledger(side: str, p_max: float, ratio: float, alpha: float, weight: float, events: list[dict[str, Any]]) -> Any:
    bar = SideBar.of(p_max, ratio, alpha)
    pair = PairFacts("pair", gathered="gathered", mistaken="mistaken")
    standard = StandardFacts("check", "check", 1, bar, bar, (exact(weight),), 0, 0, 24, pairs=(pair,))
    shown = "mistaken" if side == "dangerous" else "gathered"
    answers = [_answer(shown, number, **event) for number, event in enumerate(events, 1)]
    window = WindowFacts(1, OPENED, CLOSED)
    found = open_ledger(shown, Side(side), standard, answers, (window,), NameBook()).windows[0]
    return {
        "clean": found.counts.clean,
        "misses": found.counts.misses,
        "neutral": found.counts.neutral,
        "log_e": found.log_e,
        "passed": found.passed,
        "still_needed": found.still_needed,
    }


def _answer(species: str, number: int, specimen: str, answer: str, named: str, void: bool) -> AnswerFacts:
    """An event of the file, from a place of its own; if void, as from an annulled sitting."""
    facts = SpecimenFacts(specimen, specimen, species, "flower", specimen, DAY)
    moment = OPENED + timedelta(minutes=number)
    name = None if named == "none" else named
    return AnswerFacts(facts, Decision(answer), moment, number, moment, named_species=name, annulled=void)


def bank_size_per_dangerous_species(
    true_rate: float,
    p_max: float,
    ratio: float,
    alpha: float,
    dangerous_species: int,
    target: float,
    horizon: int,
) -> Any:
    bar = SideBar.of(p_max, ratio, alpha)
    return planning.bank_size(true_rate, bar, species=dangerous_species, target=target, horizon=horizon)


def shrunken_difficulty(correct: int, n: int, prior_mean: float, prior_strength: float) -> Any:
    return item_rules.shrunken_share(correct, n, prior_mean, prior_strength)


def item_proportions(**table: Any) -> Any:
    return item_rules.share_right(_responses(**table)).tolist()


def corrected_point_biserial(**table: Any) -> Any:
    return list(item_rules.discriminations(_responses(**table)))


def kr20(**table: Any) -> Any:
    return item_rules.reliability(_responses(**table))


def _responses(responses: Any = None, patterns: Any = None, counts: Any = None) -> item_rules.Responses:
    return item_rules.responses_from(patterns, counts) if responses is None else item_rules.responses_from(responses)


def kr20_interval(value: float, items: int, persons: int, confidence: float) -> Any:
    limits = item_rules.reliability_limits(value, items, persons, confidence)
    return {
        "standard_error": limits.standard_error,
        "lower": limits.interval.lower,
        "upper": limits.interval.upper,
    }


def brier_decomposition(levels: dict[str, float], said: list[str], right: list[int]) -> Any:
    found = confidence_rules.calibration(said, [bool(value) for value in right], levels)
    if found is None:
        return {"brier": None, "reliability": None, "resolution": None, "uncertainty": None}
    return {
        "brier": found.brier,
        "reliability": found.reliability,
        "resolution": found.resolution,
        "uncertainty": found.uncertainty,
    }


def dprime_loglinear(dangerous_refused: int, dangerous_shown: int, edible_refused: int, edible_shown: int) -> Any:
    found = detection.PairDetection(dangerous_refused, dangerous_shown, edible_refused, edible_shown).detection
    rates = {"hit_rate": found.hit_rate, "false_alarm_rate": found.false_alarm_rate}
    return {**rates, "d_prime": found.d_prime, "criterion": found.criterion}


def dprime_from_rates(hit_rate: float, false_alarm_rate: float) -> Any:
    found = detection.detection_from_rates(hit_rate, false_alarm_rate)
    return {"d_prime": found.d_prime, "criterion": found.criterion}


def character_separation(
    edible: dict[str, float], dangerous: dict[str, float], prior_dangerous: float, never: float
) -> Any:
    found = ranking.separation_of(edible, dangerous, never)
    return {
        "total_variation": found.total_variation,
        "youden": found.total_variation,
        "error_equal": found.least_error,
        "error_prior": errors.least_error(edible, dangerous, prior_dangerous),
        "edible_share_safe": found.safe_share,
        "dangerous_share_proven": found.proof_share,
    }


def ordered_character_best_cut(edible: list[float], dangerous: list[float]) -> Any:
    found = errors.best_cut(edible, dangerous)
    return {"youden": found.youden, "least_errors": found.least_errors}


def practice_half_life(start: float, steps: list[dict[str, Any]], floor: float, cap: float) -> Any:
    half_life, taken = start, []
    for step in steps:
        recall = practice.recall(half_life, step["days"])
        outcome = practice.Outcome(step["result"])
        half_life = practice.next_half_life(half_life, step["days"], outcome, floor, cap)
        taken.append({"recall": recall, "half_life": half_life})
    return {"steps": taken, "days_until_due": practice.days_until_due(half_life)}


SIDES = {"D": Side.DANGEROUS, "E": Side.EDIBLE}


def assembly_shortfall(specimens: list[dict[str, str]], quotas: list[dict[str, Any]], length: int) -> Any:
    bank = [
        Candidate(f"s{n:04}", f"s{n:04}", s["species"], s["stage"], f"s{n:04}", DAY, SIDES.get(s["side"]))
        for n, s in enumerate(specimens)
    ]
    blueprint = Blueprint(length, tuple(_quota(**quota) for quota in quotas), dangerous_share=None)
    short = shortfall.quotas_short_of_supply(bank, blueprint, {})
    return {
        "short": {shortage.name: shortage.short for shortage in short},
        "least_questions": shortfall.least_questions(bank, blueprint, {}),
        "feasible": isinstance(assemble(bank, blueprint, seed=1), Assembly),
    }


def _quota(name: str, at_least: int, where: dict[str, str]) -> Quota:
    return Quota(
        name,
        at_least,
        species=frozenset({where["species"]}) if "species" in where else None,
        stages=frozenset({where["stage"]}) if "stage" in where else None,
        side=SIDES[where["side"]] if "side" in where else None,
    )


QUANTITIES: dict[str, Callable[..., Any]] = {
    "clopper_pearson_interval": clopper_pearson_interval,
    "clopper_pearson_upper": intervals.exact_upper_limit,
    "success_run_n": intervals.fixed_number,
    "fixed_n_with_misses": intervals.fixed_number,
    "rule_of_three": rule_of_three,
    "sprt_boundaries": sprt_boundaries,
    "e_value": e_value,
    "clean_needed": clean_needed,
    "miss_cost_and_zero_drift": miss_cost_and_zero_drift,
    "anytime_upper_limit": anytime_upper_limit,
    "mixture_log_e_value": mixture_log_e_value,
    "pass_probability_within": pass_probability_within,
    "items_to_pass": items_to_pass,
    "best_of_retakes_false_pass": best_of_retakes_false_pass,
    "clean_run_somewhere": clean_run_somewhere,
    "windows": windows,
    "ledger": ledger,
    "bank_size_per_dangerous_species": bank_size_per_dangerous_species,
    "shrunken_difficulty": shrunken_difficulty,
    "item_proportions": item_proportions,
    "corrected_point_biserial": corrected_point_biserial,
    "kr20": kr20,
    "kr20_interval": kr20_interval,
    "brier_decomposition": brier_decomposition,
    "dprime_loglinear": dprime_loglinear,
    "dprime_from_rates": dprime_from_rates,
    "character_separation": character_separation,
    "ordered_character_best_cut": ordered_character_best_cut,
    "practice_half_life": practice_half_life,
    "assembly_shortfall": assembly_shortfall,
}
