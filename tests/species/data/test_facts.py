"""Facts of the plants that a mistake in the tables would break. The origin of each stands beside it."""

import pytest

from species.rules.separation import Combination, Relation, relation
from species.rules.tables.comparing import (
    calendars,
    combinations_by_pair,
    scores_by_species,
    table_characters,
)
from species.rules.vocabulary import Danger, Edibility, Stage, Trust
from tests.species.flora import flora, reading

ROSETTE, LEAFY, FRUIT = Stage.ROSETTE, Stage.LEAFY, Stage.FRUIT


def species(key: str):
    return next(each for each in flora().plants.species if each.key == key)


def pair(key: str):
    return next(each for each in flora().lookalikes.pairs if each.key == key)


def states(key: str, character: str) -> dict[str, str]:
    return {score.state: score.frequency.value for score in scores_by_species(flora().lookalikes)[key][character]}


def said(pair_key: str, character: str, gathered: Stage, mistaken: Stage) -> Relation:
    tables, sides = flora(), pair(pair_key)
    scores = scores_by_species(tables.lookalikes)
    return relation(
        table_characters(tables.lookalikes)[character],
        scores[sides.gathered],
        scores[sides.mistaken],
        Combination(gathered, mistaken),
    )


def test_the_tables_hold_no_problem() -> None:
    assert reading().problems == ()


def test_the_tables_hold_what_the_school_teaches() -> None:
    tables = flora()
    dangers = [each.danger for each in tables.lookalikes.pairs]
    assert len(tables.plants.species) == 50
    assert len(tables.lookalikes.characters) == 51
    assert [dangers.count(danger) for danger in Danger] == [28, 5, 5]


@pytest.mark.parametrize(
    ("plant", "character", "expected"),
    [
        ("oenanthe-crocata", "leaf_hairs", {"hairless": "always"}),  # Webb et al. 1988
        ("oenanthe-crocata", "root_type", {"tuber_cluster": "always"}),  # Downs et al. 2002
        ("oenanthe-crocata", "root_cut", {"yellow_stain": "sometimes", "white_stays": "sometimes"}),
        ("oenanthe-crocata", "umbel_rays", {"12_40": "usually", "up_to_12": "sometimes"}),
        ("oenanthe-crocata", "umbel_fruit", {"cylinder_styles": "always"}),
        ("conium-maculatum", "stem_hairs", {"hairless": "always"}),  # Flora of Connemara and the Burren
        (
            "conium-maculatum",
            "stem_marks",
            {"blotched": "usually", "plain": "sometimes", "flushed": "sometimes"},
        ),
        ("conium-maculatum", "umbel_fruit", {"round_wavy_ridges": "always"}),
        ("conium-maculatum", "bracteoles", {"outer_short": "always"}),
        ("arum-maculatum", "venation", {"netted_rim_vein": "always"}),
        ("arum-maculatum", "leaf_spots", {"none": "usually", "dark_blotches": "sometimes"}),  # Prime 1960
        ("allium-ursinum", "stem_hollow", {"solid": "always"}),  # HortFlora Victoria
        ("allium-ursinum", "leaf_emergence", {"single_stalked": "always"}),
        ("mercurialis-perennis", "leaf_arrangement", {"opposite": "always"}),
        ("symphytum-officinale", "leaf_margin", {"entire": "usually", "wavy": "sometimes"}),
        ("atropa-bella-donna", "fruit_calyx", {"star_below": "always"}),
        ("taraxacum-officinale-agg", "flower_stalk", {"single_hollow": "always"}),
        ("lamium-album", "stem_section", {"square": "always"}),
        ("stellaria-media", "stem_hairs", {"one_line": "always"}),
        ("euphorbia-peplus", "sap", {"white_milky": "always"}),
        ("conopodium-majus", "umbel_rays", {"up_to_12": "always"}),
        ("helosciadium-nodiflorum", "umbel_position", {"leaf_opposed": "always"}),  # Connemara and the Burren
        ("heracleum-mantegazzianum", "umbel_rays", {"over_50": "always"}),
    ],
)
def test_a_species_shows_these_states(plant: str, character: str, expected: dict[str, str]) -> None:
    assert states(plant, character) == expected


@pytest.mark.parametrize(
    ("pair_key", "character", "gathered", "mistaken", "expected"),
    [
        ("cowparsley-hemlock", "leaf_hairs", ROSETTE, ROSETTE, "leans"),
        ("cowparsley-hemlock", "stem_marks", LEAFY, LEAFY, "leans"),
        ("ramsons-crocus", "leaf_base", ROSETTE, ROSETTE, "separates"),
        ("bilberry-nightshade", "fruit_calyx", FRUIT, FRUIT, "separates"),
        ("elder-dwarfelder", "stipules", LEAFY, LEAFY, "separates"),
        ("nettle-deadnettle", "stipules", LEAFY, LEAFY, "separates"),
        ("sorrel-arum", "petiole_sheath", ROSETTE, ROSETTE, "separates"),
        ("foolscress-waterdropwort", "leaf_division", ROSETTE, ROSETTE, "leans"),
    ],
)
def test_a_character_says_this_of_a_pair(pair_key, character, gathered, mistaken, expected) -> None:
    assert said(pair_key, character, gathered, mistaken) == expected


def test_no_leaf_character_separates_fools_water_cress_from_water_dropwort_in_the_rosette() -> None:
    leaf = [each.key for each in flora().lookalikes.characters if each.organ == "leaf"]
    found = {said("foolscress-waterdropwort", character, ROSETTE, ROSETTE) for character in leaf}
    assert Relation.SEPARATES not in found


def test_nothing_is_decisive_between_comfrey_and_foxglove_in_the_rosette() -> None:
    decisive = [
        each
        for each in flora().lookalikes.pair_characters
        if each.pair == "comfrey-foxglove" and each.trust == Trust.DECISIVE
    ]
    assert decisive
    assert not any(ROSETTE in each.stages for each in decisive)


def test_ramsons_and_lily_of_the_valley_are_together_from_april_to_june() -> None:
    shown = calendars(flora().plants)
    together = {
        month
        for each in combinations_by_pair(flora().lookalikes)["ramsons-lily"]
        for month in shown["allium-ursinum"][each.gathered] & shown["convallaria-majalis"][each.mistaken]
    }
    assert together == {4, 5, 6}


def test_bilberries_and_nightshade_berries_meet_in_august_and_september() -> None:
    shown = calendars(flora().plants)
    assert shown["vaccinium-myrtillus"][FRUIT] & shown["atropa-bella-donna"][FRUIT] == {8, 9}


def test_meadow_saffron_flowers_in_autumn_without_leaves() -> None:
    assert calendars(flora().plants)["colchicum-autumnale"][Stage.FLOWER] == {8, 9, 10}
    assert Stage.FLOWER in species("colchicum-autumnale").leafless_stages


def test_the_berries_of_lords_and_ladies_stand_without_leaves() -> None:
    assert species("arum-maculatum").leafless_stages == (Stage.FRUIT, Stage.DORMANT)


@pytest.mark.parametrize(
    ("key", "britain", "ireland"),  # ten-km squares since 2000: Henniges et al. 2022
    [
        ("mercurialis-perennis", 2124, 49),
        ("arum-maculatum", 1844, 677),
        ("convallaria-majalis", 591, 9),
        ("colchicum-autumnale", 299, 4),
        ("conium-maculatum", 1623, 360),
        ("digitalis-purpurea", 2632, 823),
        ("atropa-bella-donna", 306, 2),
        ("sambucus-ebulus", 220, 82),
    ],
)
def test_a_species_is_known_from_so_many_squares(key: str, britain: int, ireland: int) -> None:
    assert (species(key).squares_britain, species(key).squares_ireland) == (britain, ireland)


def test_comfrey_is_taught_and_not_eaten() -> None:
    assert species("symphytum-officinale").edibility == Edibility.NOT_EATEN
    assert species("oenanthe-crocata").edibility == Edibility.DEADLY
    assert species("oenanthe-crocata").moisture == 9  # Hill et al. 2004
    assert species("arctium-minus").life == "biennial"


def test_smell_and_taste_never_decide() -> None:
    senses = {each.key: each.sense for each in flora().lookalikes.characters}
    for each in flora().lookalikes.pair_characters:
        if each.trust == Trust.DECISIVE:
            assert "smell" not in senses.get(each.character, ""), each
            assert each.label != "taste", each
            assert not each.one_way, each


def test_every_species_and_every_pair_is_taught_in_some_module() -> None:
    tables = flora()
    assert {each.member for each in tables.teaching.species} == {each.key for each in tables.plants.species}
    assert {each.member for each in tables.teaching.pairs} == {each.key for each in tables.lookalikes.pairs}
