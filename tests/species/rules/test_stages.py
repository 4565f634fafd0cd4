"""Which stages a standard asks for by default."""

import pytest

from species.rules.separation import Combination, Comparison, TableCharacter, comparison
from species.rules.stages import (
    GatheredPart,
    ListedCharacter,
    fair_for_every_pair,
    fair_gathered_stages,
    required_mistaken_stages,
    stages_gathered,
    taught_separators,
)
from species.rules.tables.comparing import (
    calendars,
    combinations_by_pair,
    gathered_parts,
    listed_characters,
    scores_by_species,
    table_characters,
)
from species.rules.vocabulary import Stage, Trust
from tests.species.flora import flora

ROSETTE, LEAFY, FLOWER, FRUIT, DORMANT = (
    Stage.ROSETTE,
    Stage.LEAFY,
    Stage.FLOWER,
    Stage.FRUIT,
    Stage.DORMANT,
)
TABLE = {
    "hairs": TableCharacter("hairs", frozenset({ROSETTE, LEAFY})),
    "root": TableCharacter("root", frozenset({ROSETTE, DORMANT}), needs_digging=True),
}
HAIRS = ListedCharacter("hairs", frozenset({ROSETTE, LEAFY, FLOWER}), Trust.DECISIVE)


def found_at(gathered: Stage, mistaken: Stage, *separates: str) -> Comparison:
    return Comparison(Combination(gathered, mistaken), separates, ())


def stages_of_pair(key: str) -> tuple[tuple[Stage, ...], tuple[Stage, ...]]:
    """Stages asked for of the mistaken and of the gathered species of one of the school's pairs."""
    tables = flora()
    pair = next(each for each in tables.lookalikes.pairs if each.key == key)
    scores, characters = scores_by_species(tables.lookalikes), table_characters(tables.lookalikes)
    comparisons = [
        comparison(characters.values(), scores[pair.gathered], scores[pair.mistaken], each)
        for each in combinations_by_pair(tables.lookalikes)[key]
    ]
    gathered_in = stages_gathered(gathered_parts(tables.plants)[pair.gathered], calendars(tables.plants)[pair.gathered])
    listed = listed_characters(tables.lookalikes)[key]
    return (
        required_mistaken_stages(comparisons, characters),
        fair_gathered_stages(comparisons, characters, listed, gathered_in),
    )


def test_a_stage_is_asked_for_where_something_separates_without_digging() -> None:
    comparisons = [
        found_at(ROSETTE, LEAFY, "hairs"),
        found_at(ROSETTE, DORMANT, "root"),
        found_at(LEAFY, LEAFY),
    ]
    assert required_mistaken_stages(comparisons, TABLE) == (LEAFY,)


def test_only_what_is_taught_counts_for_learners() -> None:
    at = found_at(ROSETTE, ROSETTE, "hairs", "root")
    warned_of = ListedCharacter("hairs", frozenset({ROSETTE}), Trust.NOT_TO_BE_RELIED_ON)
    assert taught_separators(at, TABLE, [HAIRS]) == ("hairs",)
    assert taught_separators(at, TABLE, [warned_of]) == ()
    assert taught_separators(found_at(FRUIT, ROSETTE, "hairs"), TABLE, [HAIRS]) == ()


def test_a_part_is_gathered_in_a_stage_only_in_months_in_which_it_shows() -> None:
    leaf = GatheredPart("leaf", frozenset({2, 3}), frozenset({ROSETTE, FLOWER}))
    assert stages_gathered([leaf], {ROSETTE: frozenset({3, 4}), FLOWER: frozenset({5})}) == {ROSETTE}


def test_one_combination_that_cannot_be_told_apart_makes_leaving_right() -> None:
    comparisons = [found_at(LEAFY, LEAFY, "hairs"), found_at(LEAFY, ROSETTE)]
    assert fair_gathered_stages(comparisons, TABLE, [HAIRS], frozenset({LEAFY})) == ()


def test_a_flower_is_in_no_doubt_against_a_plant_without_one() -> None:
    comparisons = [found_at(FLOWER, FLOWER, "hairs"), found_at(FLOWER, ROSETTE)]
    assert fair_gathered_stages(comparisons, TABLE, [HAIRS], frozenset({FLOWER})) == (FLOWER,)


def test_a_leafy_plant_is_in_no_doubt_against_a_bare_root() -> None:
    comparisons = [found_at(ROSETTE, ROSETTE, "hairs"), found_at(ROSETTE, DORMANT)]
    assert fair_gathered_stages(comparisons, TABLE, [HAIRS], frozenset({ROSETTE})) == (ROSETTE,)
    assert fair_gathered_stages(comparisons, TABLE, [HAIRS], frozenset({LEAFY})) == ()


@pytest.mark.parametrize(
    ("pair", "mistaken", "gathered"),
    [
        ("sorrel-arum", (ROSETTE, FLOWER), (ROSETTE, LEAFY, FLOWER)),
        ("ramsons-lily", (FLOWER,), (FLOWER,)),
        ("ramsons-crocus", (ROSETTE, FRUIT), (ROSETTE, FLOWER)),
        ("cowparsley-hemlock", (FLOWER, FRUIT), (FLOWER,)),
        ("carrot-hemlock", (ROSETTE, LEAFY, FLOWER, FRUIT), (ROSETTE, FRUIT)),
        ("alexanders-waterdropwort", (LEAFY, FLOWER, FRUIT), (FLOWER, FRUIT)),
        ("foolscress-waterdropwort", (LEAFY, FLOWER), ()),
        ("pignut-waterdropwort", (ROSETTE, LEAFY, FLOWER), (FLOWER,)),
        ("parsnip-waterdropwort", (ROSETTE, LEAFY, FLOWER), (ROSETTE,)),
        ("bilberry-nightshade", (LEAFY, FLOWER, FRUIT), (FRUIT,)),
        ("yarrow-hemlock", (ROSETTE, LEAFY, FLOWER), (ROSETTE, LEAFY, FLOWER)),
    ],
)
def test_the_core_pairs_ask_for_these_stages(pair, mistaken, gathered) -> None:
    """Read off the table of what separates each pair, by hand."""
    assert stages_of_pair(pair) == (mistaken, gathered)


def test_pairs_that_share_a_ledger_keep_the_stages_in_which_each_is_fair_or_not_met() -> None:
    """The second pair is met as rosettes only, and cannot be told apart there; so fruit remains, and flower."""
    fair = {"one": [ROSETTE, FRUIT], "other": [], "third": [FLOWER, FRUIT]}
    met = {"one": [ROSETTE, FRUIT], "other": [ROSETTE], "third": [ROSETTE, FLOWER, FRUIT]}
    found = fair_for_every_pair(fair, met)
    assert found == {"one": (ROSETTE, FLOWER, FRUIT), "other": (FLOWER, FRUIT), "third": (FLOWER, FRUIT)}


def test_a_stage_that_no_pair_asks_for_is_not_asked_for_because_nothing_is_met_there() -> None:
    assert fair_for_every_pair({"one": [FLOWER]}, {"one": [FLOWER]}) == {"one": (FLOWER,)}
    assert fair_for_every_pair({"one": [], "other": []}, {"one": [], "other": []}) == {"one": (), "other": ()}
