"""The table, the calendar and the pairs as the rules compare them."""

from collections.abc import Iterable

from species.models import Pair
from species.queries.state_table import calendars_of, scores_of, table_characters
from species.rules.separation import Combination
from species.rules.stages import ListedCharacter
from species.rules.table_changes import PairInTable, TableFacts
from species.rules.vocabulary import Stage, Trust


def pairs_with_lists(species_id: int | None = None) -> list[Pair]:
    """All pairs, or those of one species, with both species, their names and the pairs' own lists; four queries."""
    rows = Pair.objects.all() if species_id is None else Pair.objects.of_species(species_id)
    rows = rows.with_both_species().prefetch_related(
        "gathered__common_names", "mistaken__common_names", "characters__character"
    )
    return list(rows.order_by("order"))


def table_facts(pairs: Iterable[Pair]) -> TableFacts:
    """What the rules need to know of these pairs, read from `pairs_with_lists`; three queries."""
    found = list(pairs)
    keys = {each.pk: each.key for pair in found for each in (pair.gathered, pair.mistaken)}
    scores, calendars = scores_of(keys), calendars_of(keys)
    return TableFacts(
        characters=table_characters(),
        scores={key: dict(scores[pk]) for pk, key in keys.items()},
        calendars={key: calendars[pk] for pk, key in keys.items()},
        pairs=tuple(map(_pair, found)),
    )


def _pair(pair: Pair) -> PairInTable:
    listed = tuple(
        ListedCharacter(row.character.key, frozenset(map(Stage, row.stages)), Trust(row.trust), row.needs_digging)
        for row in pair.characters.all()
        if row.character
    )
    combinations = tuple(Combination(Stage(one), Stage(other)) for one, other in pair.stage_combinations)
    return PairInTable(pair.key, pair.gathered.key, pair.mistaken.key, combinations, listed)
