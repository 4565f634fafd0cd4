"""Can the two plants of a pair be confused now? The stages that show on both sides, and what separates then.

A learner is told only of what stands in the pair's own list, which is what is taught: where the table alone
knows a difference, the answer is still to leave it.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from species.rules.season import Calendar
from species.rules.separation import Combination, Comparison, MonthClass, TableCharacter, combinations_in_month
from species.rules.stages import ListedCharacter, taught_separators


@dataclass(frozen=True)
class Confusion:
    """One combination of stages in which the two are mistaken, and the taught characters that separate it."""

    combination: Combination
    separates: tuple[str, ...]


@dataclass(frozen=True)
class MonthOfPair:
    """One month of a pair: what shows on both sides, and whether it can be told apart."""

    month: int
    confusions: tuple[Confusion, ...]

    @property
    def told_apart(self) -> MonthClass:
        """Whether something taught and above ground separates, in all, some or none of what shows."""
        if not self.confusions:
            return MonthClass.NOT_TOGETHER
        told = [bool(each.separates) for each in self.confusions]
        if all(told):
            return MonthClass.IN_ALL
        return MonthClass.IN_SOME if any(told) else MonthClass.IN_NONE


@dataclass(frozen=True)
class Stretch:
    """Months in a row in which the same shows and the same separates; it may pass over the new year."""

    months: tuple[int, ...]
    confusions: tuple[Confusion, ...]


def confusions_of(
    comparisons: Iterable[Comparison], characters: Mapping[str, TableCharacter], listed: Collection[ListedCharacter]
) -> tuple[Confusion, ...]:
    """Every combination of a pair with what is taught to separate it without digging."""
    return tuple(Confusion(each.combination, taught_separators(each, characters, listed)) for each in comparisons)


def year_of_pair(confusions: Sequence[Confusion], gathered: Calendar, mistaken: Calendar) -> tuple[MonthOfPair, ...]:
    """The twelve months of a pair, January first."""
    by_combination = {each.combination: each for each in confusions}
    return tuple(
        MonthOfPair(
            month,
            tuple(by_combination[each] for each in combinations_in_month(by_combination, gathered, mistaken, month)),
        )
        for month in range(1, 13)
    )


def stretches(year: Sequence[MonthOfPair]) -> tuple[Stretch, ...]:
    """The year as stretches of months that are alike, in the order of the year.

    A stretch over the new year is one and stands last; a year that is alike throughout is one stretch.
    """
    runs: list[list[MonthOfPair]] = []
    for month in year:
        if runs and runs[-1][-1].confusions == month.confusions:
            runs[-1].append(month)
        else:
            runs.append([month])
    if len(runs) > 1 and runs[0][0].confusions == runs[-1][0].confusions:
        runs = [*runs[1:-1], runs[-1] + runs[0]]
    return tuple(Stretch(tuple(each.month for each in run), run[0].confusions) for run in runs)
