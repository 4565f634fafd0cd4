"""Lines of the state table as a grid, and back."""

import pytest

from species.rules.grid import Overfull, fingerprint, grid_of, is_same, overfull, scores_in
from species.rules.separation import Score
from species.rules.tables.comparing import scores_by_species, table_characters
from species.rules.vocabulary import Frequency, Stage
from tests.species.flora import flora

ALWAYS, USUALLY, SOMETIMES = Frequency
VISIBLE = (Stage.ROSETTE, Stage.LEAFY)


def test_a_line_without_stages_holds_wherever_the_character_is_seen() -> None:
    assert grid_of([Score("few", ALWAYS)], VISIBLE) == {Stage.ROSETTE: {"few": ALWAYS}, Stage.LEAFY: {"few": ALWAYS}}


def test_a_stage_without_lines_is_not_known_rather_than_empty() -> None:
    assert grid_of([Score("few", ALWAYS, frozenset({Stage.LEAFY}))], VISIBLE) == {Stage.LEAFY: {"few": ALWAYS}}


def test_a_grid_becomes_the_fewest_lines() -> None:
    grid = {Stage.ROSETTE: {"few": ALWAYS}, Stage.LEAFY: {"none": SOMETIMES, "few": USUALLY}}
    assert scores_in(grid, VISIBLE, ["none", "few"]) == (
        Score("none", SOMETIMES, frozenset({Stage.LEAFY})),
        Score("few", ALWAYS, frozenset({Stage.ROSETTE})),
        Score("few", USUALLY, frozenset({Stage.LEAFY})),
    )
    assert scores_in({stage: {"few": USUALLY} for stage in VISIBLE}, VISIBLE, ["few"]) == (Score("few", USUALLY),)


def test_always_beside_something_else_is_too_much() -> None:
    grid = {Stage.ROSETTE: {"few": ALWAYS, "none": SOMETIMES}, Stage.LEAFY: {"few": ALWAYS}}
    assert overfull(grid) == (Overfull(Stage.ROSETTE, ("few", "none")),)


def test_what_says_the_same_has_the_same_fingerprint_in_any_order() -> None:
    first = {Stage.LEAFY: {"a": USUALLY, "b": SOMETIMES}, Stage.ROSETTE: {}}
    second = {Stage.LEAFY: {"b": SOMETIMES, "a": USUALLY}}
    assert is_same(first, second)
    assert fingerprint(first) == fingerprint(second)
    assert fingerprint({Stage.LEAFY: {"a": USUALLY}}) != fingerprint({Stage.LEAFY: {"a": SOMETIMES}})


@pytest.mark.parametrize("species", [each.key for each in flora().plants.species])
def test_the_whole_table_survives_being_a_grid(species: str) -> None:
    lookalikes = flora().lookalikes
    for key, character in table_characters(lookalikes).items():
        states = [each.key for each in lookalikes.states if each.character == key]
        grid = grid_of(scores_by_species(lookalikes).get(species, {}).get(key, []), character.stages)
        assert grid_of(scores_in(grid, character.stages, states), character.stages) == grid


def test_of_two_lines_for_one_state_the_more_frequent_counts() -> None:
    lines = [Score("few", SOMETIMES), Score("few", USUALLY, frozenset({Stage.LEAFY}))]
    for each in (lines, lines[::-1]):
        assert grid_of(each, VISIBLE) == {Stage.ROSETTE: {"few": SOMETIMES}, Stage.LEAFY: {"few": USUALLY}}
