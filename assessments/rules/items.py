"""What the answers of a class of 8 to 15 say about the questions, as honestly as so few people allow.

Persons are rows, questions are columns, 1 is right. Counts and intervals are shown, never a bare percentage.
Nothing here changes a mark or decides about a person: a flag (``flags``) asks for a second determination.
"""

from dataclasses import dataclass
from math import atanh, sqrt, tanh

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.stats import f as f_distribution
from scipy.stats import norm

from .intervals import Interval

Responses = NDArray[np.float64]
PRIOR_STRENGTH = 4.0
"""How many answers the mean of all questions weighs when one question is ranked; a choice."""


def responses_from(rows: ArrayLike, counts: ArrayLike | None = None) -> Responses:
    """Persons by questions from rows of 0 and 1, each repeated ``counts`` times if given.

    ValueError unless it is a table of 0 and 1 with at least one person and one question.
    """
    table = np.asarray(rows, dtype=np.float64)
    if table.ndim != 2 or table.size == 0 or not np.isin(table, (0.0, 1.0)).all():
        raise ValueError("Responses are a table of 0 and 1, persons by questions.")
    if counts is None:
        return table
    times = np.asarray(counts, dtype=np.int64)
    if times.shape != table.shape[:1] or times.min() < 0 or times.sum() == 0:
        raise ValueError("Every row is given a number of times, and at least one of them once.")
    return np.repeat(table, times, axis=0)


def share_right(responses: Responses) -> Responses:
    """Share of right answers per question."""
    shares: Responses = responses.mean(axis=0)
    return shares


def shrunken_share(correct: int, n: int, mean: float, strength: float = PRIOR_STRENGTH) -> float:
    """(correct + m mean) / (n + m): the mean of a beta-binomial with m prior answers, for ranking only."""
    if not 0 <= correct <= n or not 0 <= mean <= 1 or strength < 0 or n + strength == 0:
        raise ValueError("No more right than asked, a mean between 0 and 1, and something to go by.")
    return (correct + strength * mean) / (n + strength)


def rest_scores(responses: Responses) -> Responses:
    """For each person and question, the person's total on the *other* questions."""
    rest: Responses = responses.sum(axis=1, keepdims=True) - responses
    return rest


def discriminations(responses: Responses) -> tuple[float | None, ...]:
    """Corrected point-biserial per question: its correlation with the rest score (Henrysson 1963).

    None where the question, or the rest score, is the same for everybody.
    """
    rest = rest_scores(responses)
    return tuple(_correlation(responses[:, k], rest[:, k]) for k in range(responses.shape[1]))


def discrimination(right: ArrayLike, rest: ArrayLike) -> float | None:
    """The same for one question that not everybody was asked: who was right, and how each did on the others."""
    return _correlation(np.asarray(right, dtype=np.float64), np.asarray(rest, dtype=np.float64))


def _correlation(one: Responses, other: Responses) -> float | None:
    if one.size == 0 or np.ptp(one) == 0 or np.ptp(other) == 0:
        return None
    first, second = one - one.mean(), other - other.mean()
    return float(first @ second / sqrt((first @ first) * (second @ second)))


def discrimination_interval(value: float, persons: int, confidence: float = 0.95) -> Interval | None:
    """Interval of a correlation by Fisher's z, standard error 1/sqrt(n-3); None below four persons."""
    if persons < 4:
        return None
    reach = float(norm.isf((1 - confidence) / 2)) / sqrt(persons - 3)
    centre = atanh(max(-1 + 1e-12, min(1 - 1e-12, value)))
    return Interval(tanh(centre - reach), tanh(centre + reach))


def reliability(responses: Responses) -> float | None:
    """KR-20 = k/(k-1) (1 - sum p q / variance of the totals), variances with divisor n (Kuder & Richardson
    1937).

    None if all totals are equal or there is one question. It says nothing about decisions to pass.
    """
    questions = responses.shape[1]
    totals = responses.sum(axis=1)
    if questions < 2 or np.ptp(totals) == 0:
        return None
    right = share_right(responses)
    return float(questions / (questions - 1) * (1 - (right * (1 - right)).sum() / totals.var()))


@dataclass(frozen=True, slots=True)
class ReliabilityLimits:
    """Interval and standard error of a KR-20."""

    interval: Interval
    standard_error: float | None


def reliability_limits(value: float, items: int, persons: int, confidence: float = 0.95) -> ReliabilityLimits:
    """Interval of Feldt (1965) with n-1 and (n-1)(k-1) degrees of freedom; standard error of Bonett (2002).

    1 - (1-r) F(1-a/2) to 1 - (1-r) F(a/2); sqrt(2k (1-r)^2 / ((k-1)(n-2))), None for two persons.
    """
    if items < 2 or persons < 2:
        raise ValueError("At least two questions and two persons.")
    if value > 1 or not 0 < confidence < 1:
        raise ValueError("A reliability is at most 1, and a confidence lies between 0 and 1.")
    tail, wrong = (1 - confidence) / 2, 1 - value
    freedom = (persons - 1, (persons - 1) * (items - 1))
    interval = Interval(
        1 - wrong * float(f_distribution.isf(tail, *freedom)),
        1 - wrong * float(f_distribution.ppf(tail, *freedom)),
    )
    error = sqrt(2 * items * wrong**2 / ((items - 1) * (persons - 2))) if persons > 2 else None
    return ReliabilityLimits(interval, error)
