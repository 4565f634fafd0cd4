"""The tables in the form in which the rules of season and separation take them."""

from species.rules.season import Months
from species.rules.separation import Combination, Score, TableCharacter
from species.rules.stages import GatheredPart, ListedCharacter
from species.rules.tables.records import CharacterRecord, Lookalikes, Plants
from species.rules.vocabulary import Stage

NOT_RELIED_ON = "do not rely"
"""A character whose reliability begins with these words never does more than lean."""


def table_character(record: CharacterRecord) -> TableCharacter:
    return TableCharacter(
        key=record.key,
        stages=frozenset(record.stages),
        needs_digging=record.needs_digging,
        not_relied_on=record.reliability.startswith(NOT_RELIED_ON),
    )


def table_characters(lookalikes: Lookalikes) -> dict[str, TableCharacter]:
    """All characters by key, in the order of the table."""
    return {each.key: table_character(each) for each in lookalikes.characters}


def scores_by_species(lookalikes: Lookalikes) -> dict[str, dict[str, list[Score]]]:
    """The state table: species, then character, then its states."""
    found: dict[str, dict[str, list[Score]]] = {}
    for each in lookalikes.scores:
        score = Score(each.state, each.frequency, frozenset(each.stages))
        found.setdefault(each.species, {}).setdefault(each.character, []).append(score)
    return found


def calendars(plants: Plants) -> dict[str, dict[Stage, Months]]:
    """The months of each stage of each species."""
    found: dict[str, dict[Stage, Months]] = {}
    for each in plants.showings:
        found.setdefault(each.species, {})[each.stage] = frozenset(each.months)
    return found


def combinations_by_pair(lookalikes: Lookalikes) -> dict[str, list[Combination]]:
    """The combinations of stages of each pair, in the order of the table."""
    found: dict[str, list[Combination]] = {}
    for each in lookalikes.combinations:
        found.setdefault(each.pair, []).append(Combination(each.gathered_stage, each.mistaken_stage))
    return found


def listed_characters(lookalikes: Lookalikes) -> dict[str, list[ListedCharacter]]:
    """What each pair's own list says of characters of the table."""
    found: dict[str, list[ListedCharacter]] = {}
    for each in lookalikes.pair_characters:
        if each.character:
            listed = ListedCharacter(each.character, frozenset(each.stages), each.trust, each.needs_digging)
            found.setdefault(each.pair, []).append(listed)
    return found


def gathered_parts(plants: Plants) -> dict[str, list[GatheredPart]]:
    """The parts of each species that are gathered."""
    found: dict[str, list[GatheredPart]] = {}
    for each in plants.parts:
        part = GatheredPart(each.part, frozenset(each.months), frozenset(each.stages))
        found.setdefault(each.species, []).append(part)
    return found
