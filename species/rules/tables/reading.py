"""All tables of a flora, from text to records, with everything that is wrong with them."""

from collections.abc import Mapping
from dataclasses import dataclass

from species.rules.tables.cells import Tables
from species.rules.tables.consistency import check_consistency
from species.rules.tables.layout import COLUMNS
from species.rules.tables.lookalikes import read_lookalikes
from species.rules.tables.plants import read_plants
from species.rules.tables.problems import Problem, Problems
from species.rules.tables.records import Flora
from species.rules.tables.teaching import read_teaching


@dataclass(frozen=True)
class FloraReading:
    """The records and the problems. With problems the records are for looking at only, not for use."""

    flora: Flora
    problems: tuple[Problem, ...]


def read_flora(contents: Mapping[str, bytes | None]) -> FloraReading:
    """Read and check all tables; `contents` holds the bytes of each file by its name, None if it is missing.

    Everything that is wrong is collected, file by file and row by row; nothing is raised.
    """
    problems = Problems()
    tables = Tables(contents, problems)
    plants = read_plants(tables)
    species = {each.key for each in plants.species}
    lookalikes = read_lookalikes(tables, species, {each.key for each in plants.sources})
    teaching = read_teaching(tables, species, {each.key for each in lookalikes.pairs})
    flora = Flora(plants, lookalikes, teaching)
    check_consistency(flora, problems)
    return FloraReading(flora, problems.in_order(COLUMNS))
