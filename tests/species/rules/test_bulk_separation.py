"""Whole tables compared at once say what the rule says of one character after the other."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.bulk_separation import RELATIONS, asked, bulk_relations, table_arrays
from species.rules.separation import Combination, Score, TableCharacter, relation
from species.rules.tables.comparing import scores_by_species, table_characters
from species.rules.vocabulary import Frequency, Stage
from tests.species.flora import flora

stages = st.frozensets(st.sampled_from(Stage), max_size=3)
characters = st.builds(TableCharacter, st.just("c"), st.frozensets(st.sampled_from(Stage)), not_relied_on=st.booleans())
lines = st.lists(st.builds(Score, st.sampled_from("abc"), st.sampled_from(Frequency), stages), max_size=4)


def test_every_pair_of_the_flora_in_every_combination_of_stages() -> None:
    lookalikes = flora().lookalikes
    known, scores = table_characters(lookalikes), scores_by_species(lookalikes)
    rows = [
        (pair.gathered, pair.mistaken, Combination(one, other))
        for pair in lookalikes.pairs
        for one in Stage
        for other in Stage
    ]
    table = table_arrays(known, scores)
    found = bulk_relations(table, asked(table, rows))
    for row, (gathered, mistaken, combination) in enumerate(rows):
        said = [relation(each, scores[gathered], scores[mistaken], combination) for each in known.values()]
        assert [RELATIONS[number] for number in found[row]] == said


@given(characters, lines, lines, st.sampled_from(Stage), st.sampled_from(Stage))
def test_any_two_species_at_any_two_stages(character, gathered, mistaken, one, other) -> None:
    scores = {"g": {"c": gathered}, "m": {"c": mistaken}}
    table = table_arrays({"c": character}, scores)
    found = bulk_relations(table, asked(table, [("g", "m", Combination(one, other))]))
    assert RELATIONS[found[0, 0]] == relation(character, scores["g"], scores["m"], Combination(one, other))


def test_nothing_asked_is_nothing_said() -> None:
    table = table_arrays({"c": TableCharacter("c", frozenset(Stage))}, {"g": {}})
    assert bulk_relations(table, asked(table, [])).shape == (0, 1)


def test_more_states_than_bits_are_refused() -> None:
    scores = {"g": {"c": [Score(f"s{n}", Frequency.SOMETIMES) for n in range(65)]}}
    with pytest.raises(ValueError, match="65 states"):
        table_arrays({"c": TableCharacter("c", frozenset(Stage))}, scores)


@pytest.mark.parametrize(("states", "word"), [(32, np.uint32), (33, np.uint64), (64, np.uint64)])
def test_so_many_states_fit_into_words(states, word) -> None:
    scores = {"g": {"c": [Score(f"s{n}", Frequency.SOMETIMES) for n in range(states)]}}
    table = table_arrays({"c": TableCharacter("c", frozenset(Stage))}, scores)
    assert table.shown.dtype == word
    assert (table.shown == word(2**states - 1)).all()
