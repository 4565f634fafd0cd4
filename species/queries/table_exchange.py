"""The stored character table as it goes out, and what a file that comes in refers to."""

from collections import defaultdict

from species.models import Character, CharacterState
from species.queries.names import known_names
from species.queries.table_cells import all_cells
from species.rules.grid import in_order
from species.rules.tables.exchange import CharacterFacts, ExchangeReading, TaxonCell, read_exchange, written
from species.rules.vocabulary import Stage


def character_facts() -> dict[str, CharacterFacts]:
    """All characters by key, in their order; two queries."""
    states: dict[int, list[str]] = defaultdict(list)
    for state in CharacterState.objects.order_by("character", "order"):
        states[state.character_id].append(state.key)
    return {
        row.key: CharacterFacts(row.key, in_order(map(Stage, row.stages)), tuple(states[row.pk]))
        for row in Character.objects.all()
    }


def character_table_csv() -> str:
    """The whole character table, what is not known included; six queries."""
    facts = character_facts()
    return written(
        TaxonCell(species, each.species.name, facts[character], each.grid, each.version)
        for (species, character), each in all_cells().items()
    )


def reading_of(file: str, content: bytes) -> ExchangeReading:
    """A file against the species and characters of the school."""
    return read_exchange(file, content, known_names().names, character_facts())
