"""Why sitting again does not help, with the school's own numbers: for the page that explains it."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil

from django.utils.translation import gettext as _

from assessments.models import Standard
from assessments.rules.retakes import Comparison, Tries, compare_rules
from assessments.rules.standard import SideBar, exact

from .retakes_plot import Plot, retakes_plot
from .sentences.words import in_words

ROWS = (1, 2, 3, 5, 10, 20)
"""Numbers of tries in the table; the last is the end of the plot."""
compared = lru_cache(maxsize=32)(compare_rules)


@dataclass(frozen=True)
class WindowRow:
    """One window: its share of the chance of an error, and what it asks for without a miss."""

    number: int
    share: str
    needed: int


@dataclass(frozen=True)
class RetakesBlock:
    """The figures under one set of numbers. `names` are the standards that share them."""

    number: int
    names: str
    one_in: str
    alpha: str
    items: int
    lucky_once: str
    lucky_ten: str
    ever: str
    needed: tuple[int, ...]
    miss_cost: int
    rows: tuple[tuple[str, ...], ...]
    windows: tuple[WindowRow, ...]
    plot: Plot

    @property
    def clean_needed(self) -> int:
        """Without a miss."""
        return self.needed[0]

    @property
    def after_one(self) -> int:
        return self.needed[1]

    @property
    def after_two(self) -> int:
        return self.needed[2]

    @property
    def after_three(self) -> int:
        return self.needed[3]


def retakes_blocks(standards: Iterable[Standard]) -> tuple[RetakesBlock, ...]:
    """The figures of these standards, those with the same numbers together; asks nothing of the database."""
    groups: dict[tuple[SideBar, tuple[Fraction, ...]], list[str]] = {}
    for standard in standards:
        bar = SideBar.of(standard.miss_limit, standard.miss_ratio, standard.miss_alpha)
        weights = tuple(exact(weight) for weight in standard.window_weights)
        groups.setdefault((bar, weights), []).append(standard.name)
    return tuple(
        _block(number, _(" and ").join(names), compared(bar, weights, ROWS[-1]), weights)
        for number, ((bar, weights), names) in enumerate(groups.items(), start=1)
    )


def _block(number: int, names: str, found: Comparison, weights: tuple[Fraction, ...]) -> RetakesBlock:
    by_number = {each.attempts: each for each in found.tries}
    return RetakesBlock(
        number=number,
        names=names,
        one_in=one_in_words(found.bar.limit),
        alpha=percent(float(found.bar.alpha)),
        items=found.items,
        lucky_once=percent(by_number[1].best),
        lucky_ten=percent(by_number[10].best),
        ever=percent(found.tries[-1].here),
        needed=found.needed,
        miss_cost=found.miss_cost,
        rows=tuple(_row(by_number[attempts]) for attempts in ROWS),
        windows=tuple(
            WindowRow(place, percent(float(weight)), needed)
            for place, (weight, needed) in enumerate(zip(weights, found.by_window, strict=True), start=1)
        ),
        plot=retakes_plot(found),
    )


def _row(tries: Tries) -> tuple[str, ...]:
    return (str(tries.attempts), percent(tries.best), percent(tries.run), percent(tries.here))


def percent(share: float) -> str:
    """A share of people as pages print it: one decimal below ten per cent, never up to 100."""
    value = 100 * share
    whole = 100 if share == 1 else min(round(value), 99)
    words = f"{value:.1f}".removesuffix(".0") if value < 9.95 else str(whole)
    return _("%(share)s\N{NO-BREAK SPACE}%%") % {"share": words}


def one_in_words(limit: Fraction) -> str:
    """A tolerated share as one would say it: one in five, or so many in a hundred."""
    if limit.numerator == 1:
        return _("one in %(number)s") % {"number": in_words(limit.denominator)}
    return _("%(number)s in a hundred") % {"number": ceil(100 * limit)}
