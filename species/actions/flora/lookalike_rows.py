"""From the records of characters, pairs and modules to the fields of rows."""

from collections.abc import Iterator, Mapping

from species.actions.flora.plant_rows import Ids, citation, numbered
from species.actions.flora.synchronising import Fields
from species.rules.tables.records import Flora, Lookalikes, Teaching

StateIds = Mapping[tuple[str, str], int]
"""Primary keys of states by the keys of character and state."""


def character_rows(lookalikes: Lookalikes) -> Iterator[Fields]:
    for order, each in enumerate(lookalikes.characters):
        yield {
            "key": each.key,
            "name": each.name,
            "organ": each.organ,
            "sense": each.sense,
            "stages": [stage.value for stage in each.stages],
            "reliability": each.reliability,
            "why": each.why,
            "needs_digging": each.needs_digging,
            "order": order,
        }


def state_rows(lookalikes: Lookalikes, characters: Ids) -> Iterator[Fields]:
    for order, each in numbered(lookalikes.states, lambda record: record.character):
        yield {
            "character_id": characters[each.character],
            "key": each.key,
            "text": each.text,
            "order": order,
        }


def score_rows(lookalikes: Lookalikes, species: Ids, states: StateIds) -> Iterator[Fields]:
    for each in lookalikes.scores:
        yield {
            "species_id": species[each.species],
            "state_id": states[each.character, each.state],
            "frequency": each.frequency.value,
            "stages": [stage.value for stage in each.stages],
        }


def pair_rows(flora: Flora, species: Ids) -> Iterator[Fields]:
    sources = {each.key: citation(each) for each in flora.plants.sources}
    combinations: dict[str, list[list[str]]] = {}
    for each in flora.lookalikes.combinations:
        combinations.setdefault(each.pair, []).append([each.gathered_stage.value, each.mistaken_stage.value])
    for order, pair in enumerate(flora.lookalikes.pairs):
        yield {
            "key": pair.key,
            "gathered_id": species[pair.gathered],
            "mistaken_id": species[pair.mistaken],
            "danger": pair.danger.value,
            "core": pair.core,
            "part": pair.part,
            "what_goes_wrong": pair.what_goes_wrong,
            "where_together": pair.where_together,
            "third_species": pair.third_species,
            "rule": pair.rule,
            "stage_combinations": combinations.get(pair.key, []),
            "sources": [sources[key] for key in pair.sources],
            "order": order,
        }


def pair_character_rows(lookalikes: Lookalikes, pairs: Ids, characters: Ids) -> Iterator[Fields]:
    for order, each in numbered(lookalikes.pair_characters, lambda record: record.pair):
        yield {
            "pair_id": pairs[each.pair],
            "character_id": characters[each.character] if each.character else None,
            "label": each.label,
            "trust": each.trust.value,
            "gathered_text": each.gathered,
            "mistaken_text": each.mistaken,
            "stages": [stage.value for stage in each.stages],
            "one_way": each.one_way,
            "needs_digging": each.needs_digging,
            "note": each.note,
            "order": order,
        }


def module_rows(teaching: Teaching) -> Iterator[Fields]:
    for order, each in enumerate(teaching.modules, start=1):
        yield {"key": each.key, "title": each.title, "text": each.text, "order": order}


def module_species_rows(teaching: Teaching, modules: Ids, species: Ids) -> Iterator[Fields]:
    for order, each in numbered(teaching.species, lambda record: record.module):
        yield {"module_id": modules[each.module], "species_id": species[each.member], "order": order}


def module_pair_rows(teaching: Teaching, modules: Ids, pairs: Ids) -> Iterator[Fields]:
    for order, each in numbered(teaching.pairs, lambda record: record.module):
        yield {"module_id": modules[each.module], "pair_id": pairs[each.member], "order": order}
