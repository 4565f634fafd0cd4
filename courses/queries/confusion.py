"""What the people of a course take for what: the map, the answers behind one of its cells, and its table."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.queries.flora import Flora
from assessments.rules.confusion_map import ANOTHER, NOTHING, ConfusionMap
from courses.models import Course
from species.rules.vocabulary import Edibility

from .cohort_answers import AnswerLine, CourseAnswers, answers_in

WORSE_THAN_DANGEROUS = (Edibility.DEADLY, Edibility.POISONOUS)


@dataclass(frozen=True)
class MapCell:
    """A plant shown under a name said: the answers, and in how many the plant would have been gathered."""

    said: str
    name: str
    answers: int
    gathered: int
    is_right: bool
    is_miss: bool


@dataclass(frozen=True)
class MapRow:
    """One plant shown, with a cell for every name said. `level` is the word of its danger, or empty."""

    shown: str
    name: str
    level: str
    answers: int
    misses: int
    cells: tuple[MapCell, ...]

    @property
    def gathered_as(self) -> tuple[MapCell, ...]:
        """The cells in which this dangerous plant would have been gathered."""
        return tuple(cell for cell in self.cells if cell.is_miss)


@dataclass(frozen=True)
class Behind:
    """The cell looked behind, and its answers."""

    shown: str
    said: str
    lines: tuple[AnswerLine, ...]


@dataclass(frozen=True)
class ConfusionPage:
    """The whole page. `columns`: names said, by key."""

    course: Course
    answers: int
    people: int
    columns: tuple[tuple[str, str], ...]
    rows: tuple[MapRow, ...]
    sure_and_wrong: tuple[AnswerLine, ...]
    behind: Behind | None

    @property
    def missed(self) -> tuple[MapRow, ...]:
        """Dangerous plants that somebody would have gathered, those missed most often first."""
        return tuple(row for row in self.rows if row.misses)


def confusion_page(course: Course, shown: str = "", said: str = "") -> ConfusionPage:
    """What the page shows, in a constant number of queries; `shown` and `said` name the cell to look behind."""
    mine = answers_in(course)
    found, flora = mine.found.confusion, mine.found.flora
    return ConfusionPage(
        course,
        len(mine.found.all),
        len(mine.answered_by),
        tuple((key, _name(key, flora)) for key in found.said),
        tuple(_row(key, found, flora) for key in found.shown),
        mine.lines(mine.found.sure_and_wrong()),
        _behind(mine, shown, said) if shown and said else None,
    )


def _row(shown: str, found: ConfusionMap, flora: Flora) -> MapRow:
    cells = []
    for said in found.said:
        cell = found.cell(shown, said)
        is_miss = found.is_miss(shown, said)
        cells.append(MapCell(said, _name(said, flora), cell.answers, cell.gathered, said == shown, is_miss))
    answers = sum(cell.answers for cell in cells)
    return MapRow(shown, flora.common(shown), _level(shown, found, flora), answers, found.misses(shown), tuple(cells))


def _level(shown: str, found: ConfusionMap, flora: Flora) -> str:
    if shown not in found.dangerous:
        return ""
    edibility = flora.plant(shown).edibility
    return edibility if edibility in WORSE_THAN_DANGEROUS else "dangerous"


def _name(key: str, flora: Flora) -> str:
    if key == ANOTHER:
        return _("another plant")
    return _("no name") if key == NOTHING else flora.common(key)


def _behind(mine: CourseAnswers, shown: str, said: str) -> Behind | None:
    lines = mine.lines(mine.found.behind(shown, said))
    flora = mine.found.flora
    return Behind(flora.common(shown), _name(said, flora), lines) if lines else None


def confusion_table(page: ConfusionPage) -> bytes:
    """The map as a file: a row for each plant shown, a column for each name said."""
    columns = [_("shown"), _("danger"), *(name for _key, name in page.columns), _("answers"), _("would be gathered")]
    rows = (
        [row.name, row.level, *(cell.answers for cell in row.cells), row.answers, sum(c.gathered for c in row.cells)]
        for row in page.rows
    )
    return written_table(columns, rows)
