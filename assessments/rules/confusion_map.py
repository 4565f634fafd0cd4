"""Who was shown what and said what: counts, never shares of a handful. Pure."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

ANOTHER, NOTHING = "another", "nothing"
"""What was said where no plant of the school was: another name, or none."""


@dataclass(frozen=True, slots=True)
class Said:
    """One answer that counts: the plant shown, the key of the plant named (or one of the words above), and whether
    it would have been gathered."""

    shown: str
    named: str
    gathered: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """How many answers, and in how many of them the plant would have been gathered."""

    answers: int = 0
    gathered: int = 0


@dataclass(frozen=True)
class ConfusionMap:
    """Plants shown down, plants said across. `dangerous`: of the plants shown."""

    shown: tuple[str, ...]
    said: tuple[str, ...]
    cells: dict[tuple[str, str], Cell]
    dangerous: frozenset[str]

    def cell(self, shown: str, said: str) -> Cell:
        """The cell, an empty one where nobody said that."""
        return self.cells.get((shown, said), Cell())

    def is_miss(self, shown: str, said: str) -> bool:
        """Whether a dangerous plant would have been gathered under this name."""
        return shown in self.dangerous and self.cell(shown, said).gathered > 0

    def misses(self, shown: str) -> int:
        """How often a dangerous plant would have been gathered, under whatever name."""
        return sum(self.cell(shown, said).gathered for said in self.said) if shown in self.dangerous else 0


def confusion_map(answers: Sequence[Said], dangerous: frozenset[str]) -> ConfusionMap:
    """The map: dangerous plants first, those missed most often at the top, then those they were gathered as.

    Names said stand in the same order, then those of plants that were not shown, and what is no plant last.
    """
    totals = Counter((each.shown, each.named) for each in answers)
    gathered = Counter((each.shown, each.named) for each in answers if each.gathered)
    cells = {key: Cell(count, gathered[key]) for key, count in totals.items()}
    misses = [each for each in answers if each.gathered and each.shown in dangerous]
    missed, taken_for = Counter(each.shown for each in misses), Counter(each.named for each in misses)

    def order(key: str) -> tuple[bool, int, int, str]:
        return (key not in dangerous, -missed[key], -taken_for[key], key)

    rows = tuple(sorted({each.shown for each in answers}, key=order))
    named = {each.named for each in answers}
    others = tuple(sorted(named - set(rows) - {ANOTHER, NOTHING}, key=order))
    last = tuple(each for each in (ANOTHER, NOTHING) if each in named)
    return ConfusionMap(rows, (*(key for key in rows if key in named), *others, *last), cells, dangerous)
