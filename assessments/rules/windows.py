"""Windows of evidence: their weights, the period that closes them, and whether another may be opened.

Each window j passes by itself at 1/(alpha * w_j); the weights add up to at most 1, so the chance that any
window passes somebody at the limit stays at most alpha (union bound and Ville; compare Lan & DeMets 1983).
"""

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from .standard import WindowFacts

MOST_WINDOWS = 3
"""Windows in one period; a choice, and the number of weights of the default standards."""


class Refusal(StrEnum):
    """Why a window may not be opened."""

    NO_WINDOW_LEFT = "no_window_left"
    PERIOD_OVER = "period_over"
    RETRAINING_NOT_RECORDED = "retraining_not_recorded"
    BEFORE_THE_LAST = "before_the_last"


@dataclass(frozen=True, slots=True)
class Opening:
    """Whether a window may be opened now: its number, or the refusal."""

    number: int | None
    refusal: Refusal | None

    @property
    def allowed(self) -> bool:
        return self.refusal is None


Moment = TypeVar("Moment", bound=date)


def months_later(moment: Moment, months: int) -> Moment:
    """The same day, of a moment with its time, so many months later; that month's last day where the day is missing."""
    years, month = divmod(moment.month - 1 + months, 12)
    year = moment.year + years
    day = min(moment.day, monthrange(year, month + 1)[1])
    return moment.replace(year=year, month=month + 1, day=day)


def period_end(started_at: datetime, standard_months: int = 24) -> datetime:
    """When a period that starts now ends, unless a renewal ends it earlier."""
    return months_later(started_at, standard_months)


def next_opening(opened: Sequence[WindowFacts], now: datetime, retraining: str = "") -> Opening:
    """Whether the next window of a period may be opened at this moment.

    ``opened`` are the windows of the period so far. The first needs no retraining (it opens with the first
    paper that counts); each later one needs retraining on record, and a fourth is refused.
    Opening in hindsight is impossible by construction: a window opens now, never earlier.
    """
    number = len(opened) + 1
    refusal = None
    if number > MOST_WINDOWS:
        refusal = Refusal.NO_WINDOW_LEFT
    elif opened and now >= min(w.closes_at for w in opened):
        refusal = Refusal.PERIOD_OVER
    elif opened and now < max(w.opened_at for w in opened):
        refusal = Refusal.BEFORE_THE_LAST
    elif opened and not retraining.strip():
        refusal = Refusal.RETRAINING_NOT_RECORDED
    return Opening(None, refusal) if refusal is not None else Opening(number, None)


@dataclass(frozen=True, slots=True)
class WeightedWindow:
    """A window as one standard sees it. ``facts`` is None for a first window that nobody has opened yet."""

    number: int
    weight: Fraction
    facts: WindowFacts | None

    def holds(self, moment: datetime) -> bool:
        """Whether a specimen shown at this moment enters the window."""
        return self.facts is not None and self.facts.holds(moment)


def weighted(windows: Sequence[WindowFacts], weights: Sequence[Fraction]) -> tuple[WeightedWindow, ...]:
    """The windows of one period with the weights of one standard, by number.

    Windows are shared by all standards, so a window beyond this standard's weights has no weight, and is left
    out. Without any window the first one stands there empty: it shows what there is to do.
    ValueError if two windows carry one number.
    """
    known = sorted((w for w in windows if 1 <= w.number <= len(weights)), key=lambda w: w.number)
    if len({w.number for w in known}) < len(known):
        raise ValueError("Two windows of one period carry the same number.")
    if not known:
        return (WeightedWindow(1, weights[0], None),)
    return tuple(WeightedWindow(w.number, weights[w.number - 1], w) for w in known)
