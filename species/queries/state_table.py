"""The table of characters and states as the rules read it."""

from collections import defaultdict
from collections.abc import Collection

from species.models import Character, Showing, StateRecord
from species.rules.season import Calendar
from species.rules.separation import Score, TableCharacter
from species.rules.tables.comparing import NOT_RELIED_ON
from species.rules.vocabulary import Frequency, Stage


def table_characters() -> dict[str, TableCharacter]:
    """All characters by key, in the order of the table; one query."""
    return {
        row.key: TableCharacter(
            row.key,
            frozenset(map(Stage, row.stages)),
            row.needs_digging,
            row.reliability.startswith(NOT_RELIED_ON),
        )
        for row in Character.objects.all()
    }


def scores_of(species_ids: Collection[int]) -> dict[int, dict[str, list[Score]]]:
    """What these species show, by the key of the character; one query."""
    found: dict[int, dict[str, list[Score]]] = defaultdict(lambda: defaultdict(list))
    for row in StateRecord.objects.filter(species__in=species_ids).select_related("state__character"):
        score = Score(row.state.key, Frequency(row.frequency), frozenset(map(Stage, row.stages)))
        found[row.species_id][row.state.character.key].append(score)
    return found


def calendars_of(species_ids: Collection[int]) -> dict[int, Calendar]:
    """When which stage of these species shows; one query."""
    found: dict[int, dict[Stage, frozenset[int]]] = {pk: {} for pk in species_ids}
    for row in Showing.objects.filter(species__in=species_ids):
        found[row.species_id][Stage(row.stage)] = frozenset(row.months)
    return dict(found)
