"""The nine carrot-family and yarrow plates: the same plant every time, and never without what tells it apart."""

import re
from functools import cache

import pytest

from species.documents.plates.catalogue import NoSuchPlate, draw_plate, forms_available, stages_available

# Stages in which the species stands in a core pair.
STAGES = {
    "anthriscus-sylvestris": {"rosette", "leafy", "flower", "fruit"},
    "conium-maculatum": {"rosette", "leafy", "flower", "fruit"},
    "daucus-carota": {"rosette", "leafy", "flower", "fruit"},
    "smyrnium-olusatrum": {"rosette", "leafy", "flower", "fruit"},
    "oenanthe-crocata": {"rosette", "leafy", "flower", "fruit", "dormant"},
    "helosciadium-nodiflorum": {"rosette", "leafy", "flower"},
    "conopodium-majus": {"rosette", "leafy", "flower"},
    "pastinaca-sativa": {"rosette", "leafy", "flower", "dormant"},
    "achillea-millefolium": {"rosette", "leafy", "flower"},
}
# States a species can show, as the state table of the school has them (only characters that the plates record).
ALLOWED = {
    "anthriscus-sylvestris": {
        "leaf_division": {"pinnate_2_4"},
        "compound_outline": {"triangular"},
        "segment_shape": {"lance_pointed"},
        "leaf_margin": {"serrate"},
        "leaf_hairs": {"sparse", "soft_downy", "hairless"},
        "petiole_section": {"grooved"},
        "petiole_sheath": {"sheath"},
        "petiole_marks": {"plain", "flushed"},
        "stem_hairs": {"downy", "sparse", "hairless"},
        "stem_marks": {"plain", "flushed"},
        "stem_section": {"ridged"},
        "stem_hollow": {"hollow"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"up_to_12", "12_40"},
        "bracts": {"none"},
        "bracteoles": {"all_round"},
        "umbel_fruit": {"long_smooth_beaked"},
        "fruit_type": {"split_pair"},
        "root_type": {"taproot"},
    },
    "conium-maculatum": {
        "leaf_division": {"pinnate_2_4"},
        "compound_outline": {"triangular"},
        "segment_shape": {"lance_pointed"},
        "leaf_margin": {"serrate"},
        "leaf_spots": {"none"},
        "leaf_hairs": {"hairless"},
        "petiole_section": {"round", "grooved"},
        "petiole_sheath": {"sheath"},
        "petiole_marks": {"plain", "blotched", "flushed"},
        "stem_hairs": {"hairless"},
        "stem_marks": {"blotched", "plain", "flushed"},
        "stem_section": {"round_smooth", "ridged"},
        "stem_hollow": {"hollow"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"12_40", "up_to_12"},
        "bracts": {"many_simple", "few_simple"},
        "bracteoles": {"outer_short"},
        "umbel_fruit": {"round_wavy_ridges"},
        "fruit_type": {"split_pair"},
        "root_type": {"taproot"},
    },
    "daucus-carota": {
        "leaf_division": {"pinnate_2_4"},
        "compound_outline": {"oblong", "triangular"},
        "segment_shape": {"lance_pointed", "thread_linear"},
        "leaf_hairs": {"bristly_rough", "sparse"},
        "petiole_marks": {"plain", "flushed"},
        "stem_hairs": {"bristly", "sparse"},
        "stem_marks": {"plain", "flushed"},
        "stem_section": {"ridged"},
        "stem_hollow": {"solid"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"12_40", "over_50"},
        "bracts": {"large_divided"},
        "bracteoles": {"all_round"},
        "umbel_fruit": {"spiny"},
        "fruit_type": {"split_pair"},
        "root_type": {"taproot"},
    },
    "smyrnium-olusatrum": {
        "leaf_division": {"ternate", "pinnate_2_4"},
        "segment_shape": {"broad_ovate"},
        "leaf_margin": {"serrate", "crenate"},
        "leaf_hairs": {"hairless"},
        "petiole_sheath": {"inflated"},
        "petiole_marks": {"plain", "flushed"},
        "stem_hairs": {"hairless"},
        "stem_marks": {"plain", "flushed"},
        "stem_section": {"ridged", "round_smooth"},
        "stem_hollow": {"solid", "hollow"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"up_to_12", "12_40"},
        "bracts": {"none", "few_simple"},
        "bracteoles": {"none", "all_round"},
        "flower_colour": {"yellow_green"},
        "fruit_type": {"split_pair"},
        "fruit_colour": {"black"},
        "umbel_fruit": {"round_black"},
        "root_type": {"taproot"},
    },
    "oenanthe-crocata": {
        "leaf_division": {"pinnate_2_4", "pinnate_once", "ternate"},
        "compound_outline": {"triangular"},
        "segment_shape": {"wedge_lobed", "broad_ovate", "lance_pointed"},
        "leaf_margin": {"serrate", "crenate"},
        "leaf_hairs": {"hairless"},
        "petiole_sheath": {"sheath", "inflated"},
        "petiole_marks": {"plain", "flushed"},
        "stem_hairs": {"hairless"},
        "stem_marks": {"plain", "flushed"},
        "stem_section": {"ridged"},
        "stem_hollow": {"hollow"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"12_40", "up_to_12"},
        "bracts": {"many_simple", "few_simple", "none"},
        "bracteoles": {"all_round"},
        "umbel_fruit": {"cylinder_styles"},
        "fruit_type": {"split_pair"},
        "root_type": {"tuber_cluster"},
        "root_cut": {"yellow_stain", "white_stays"},
    },
    "helosciadium-nodiflorum": {
        "leaf_division": {"pinnate_once"},
        "segment_shape": {"broad_ovate"},
        "leaf_margin": {"crenate", "serrate"},
        "leaf_hairs": {"hairless"},
        "stem_hairs": {"hairless"},
        "stem_section": {"ridged", "round_smooth"},
        "stem_hollow": {"hollow"},
        "inflorescence": {"compound_umbel"},
        "umbel_position": {"leaf_opposed"},
        "umbel_rays": {"up_to_12"},
        "bracts": {"none", "few_simple"},
        "bracteoles": {"all_round"},
        "root_type": {"rooting_runner"},
    },
    "conopodium-majus": {
        "leaf_division": {"pinnate_2_4"},
        "compound_outline": {"triangular"},
        "segment_shape": {"lance_pointed", "thread_linear"},
        "leaf_hairs": {"hairless", "sparse"},
        "petiole_sheath": {"sheath"},
        "petiole_marks": {"plain"},
        "stem_hairs": {"hairless", "sparse"},
        "stem_marks": {"plain"},
        "stem_section": {"ridged"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"up_to_12"},
        "bracts": {"none", "few_simple"},
        "bracteoles": {"all_round", "none"},
        "root_type": {"single_round_tuber"},
    },
    "pastinaca-sativa": {
        "leaf_division": {"pinnate_once", "pinnate_2_4"},
        "segment_shape": {"broad_ovate"},
        "leaf_margin": {"serrate"},
        "leaf_hairs": {"soft_downy", "sparse"},
        "stem_hairs": {"downy", "sparse"},
        "stem_section": {"ridged"},
        "inflorescence": {"compound_umbel"},
        "umbel_rays": {"up_to_12", "12_40"},
        "bracts": {"none", "few_simple"},
        "bracteoles": {"none", "all_round"},
        "flower_colour": {"yellow"},
        "fruit_type": {"split_pair"},
        "umbel_fruit": {"flat_winged"},
        "root_type": {"taproot"},
        "root_cut": {"white_stays"},
    },
    "achillea-millefolium": {
        "leaf_division": {"pinnate_2_4"},
        "compound_outline": {"narrow_feather"},
        "segment_shape": {"thread_linear"},
        "leaf_hairs": {"soft_downy", "sparse"},
        "petiole_marks": {"plain"},
        "stem_hairs": {"downy", "sparse"},
        "stem_marks": {"plain", "flushed"},
        "stem_section": {"ridged"},
        "inflorescence": {"corymb_heads"},
        "flower_colour": {"white", "pink_purple"},
        "petals": {"strap"},
        "root_type": {"creeping_rhizome"},
    },
}
# The decisive characters that need no digging, by stage: each plate of the stage must show one of the states.
DECISIVE = {
    "anthriscus-sylvestris": {"flower": {"bracts", "bracteoles"}, "fruit": {"bracts", "bracteoles", "umbel_fruit"}},
    "conium-maculatum": {
        "rosette": {"leaf_hairs", "compound_outline"},
        "leafy": {"stem_hairs"},
        "flower": {"bracts", "bracteoles"},
        "fruit": {"bracts", "bracteoles", "umbel_fruit"},
    },
    "daucus-carota": {
        "rosette": {"leaf_hairs"},
        "leafy": {"leaf_hairs", "stem_hairs", "stem_hollow"},
        "flower": {"bracts", "stem_hairs"},
        "fruit": {"bracts", "umbel_fruit"},
    },
    "smyrnium-olusatrum": {"rosette": {"petiole_sheath"}, "flower": {"flower_colour"}, "fruit": {"umbel_fruit"}},
    "oenanthe-crocata": {
        "leafy": {"segment_shape"},
        "flower": {"bracteoles"},
        "fruit": {"umbel_fruit"},
        "dormant": {"root_type"},
    },
    "helosciadium-nodiflorum": {
        "rosette": {"root_type"},
        "leafy": {"root_type", "leaf_division"},
        "flower": {"root_type", "umbel_position"},
    },
    "conopodium-majus": {"leafy": {"segment_shape"}, "flower": {"segment_shape"}},
    "pastinaca-sativa": {
        "rosette": {"leaf_hairs"},
        "leafy": {"leaf_hairs"},
        "flower": {"flower_colour"},
        "dormant": {"root_type"},
    },
    "achillea-millefolium": {
        stage: {"compound_outline", "leaf_hairs", "segment_shape"} for stage in ("rosette", "leafy", "flower")
    },
}
EVERY = [(key, stage) for key in STAGES for stage in stages_available(key)]
PAIRS = [
    ("anthriscus-sylvestris", "conium-maculatum"),
    ("daucus-carota", "conium-maculatum"),
    ("smyrnium-olusatrum", "oenanthe-crocata"),
    ("helosciadium-nodiflorum", "oenanthe-crocata"),
    ("conopodium-majus", "oenanthe-crocata"),
    ("pastinaca-sativa", "oenanthe-crocata"),
    ("achillea-millefolium", "conium-maculatum"),
]


@cache  # one plant is asked for by several tests
def characters_of(key: str, stage: str, seed: int, form: str) -> dict[str, str]:
    return draw_plate(key, stage, seed, form).characters


def drawn(key: str, stage: str, seeds: range = range(6), form: str = "typical") -> list[dict[str, str]]:
    return [characters_of(key, stage, seed, form) for seed in seeds]


@pytest.mark.parametrize("key", STAGES)
def test_every_stage_of_the_core_pairs_is_drawn(key: str) -> None:
    assert STAGES[key] <= set(stages_available(key))


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_every_form_draws_something_different_that_stays_small(key: str, stage: str) -> None:
    plates = [draw_plate(key, stage, 3, form) for form in forms_available(key)]
    assert len({plate.svg for plate in plates}) == len(plates)
    assert all(12_000 < len(plate.svg) < 330_000 for plate in plates)


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_the_same_seed_gives_the_same_bytes_and_another_seed_another_plant(key: str, stage: str) -> None:
    assert draw_plate(key, stage, 5).svg == draw_plate(key, stage, 5).svg
    assert draw_plate(key, stage, 5).svg != draw_plate(key, stage, 6).svg


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_no_plate_shows_a_state_that_its_species_never_has(key: str, stage: str) -> None:
    for form in forms_available(key):
        for found in drawn(key, stage, range(2), form):
            wrong = {name: state for name, state in found.items() if state not in ALLOWED[key].get(name, {state})}
            assert wrong == {}


@pytest.mark.parametrize(("key", "stage"), [(key, stage) for key in DECISIVE for stage in DECISIVE[key]])
def test_the_deciding_characters_of_the_stage_are_always_drawn(key: str, stage: str) -> None:
    for form in forms_available(key):
        for found in drawn(key, stage, range(2), form):
            assert {name for name in DECISIVE[key][stage] if name in found} == DECISIVE[key][stage]


def test_hemlock_has_no_hair_and_bracteoles_on_one_side_in_every_form() -> None:
    for form in forms_available("conium-maculatum"):
        for found in drawn("conium-maculatum", "flower", range(8), form):
            assert found["leaf_hairs"] == found["stem_hairs"] == "hairless"
            assert found["bracteoles"] == "outer_short"


def test_cow_parsley_is_never_blotched_and_never_has_bracts() -> None:
    for form in forms_available("anthriscus-sylvestris"):
        for found in drawn("anthriscus-sylvestris", "flower", range(8), form):
            assert found["stem_marks"] != "blotched"
            assert found["bracts"] == "none"


def test_some_hemlock_is_unspotted_and_some_cow_parsley_hairless_without_being_asked() -> None:
    hemlock = {found["stem_marks"] for found in drawn("conium-maculatum", "leafy", range(40))}
    parsley = {found["leaf_hairs"] for found in drawn("anthriscus-sylvestris", "leafy", range(40))}
    assert hemlock == {"blotched", "plain", "flushed"}
    assert parsley == {"sparse", "soft_downy", "hairless"}


def test_forms_that_are_asked_for_are_drawn() -> None:
    assert {found["stem_marks"] for found in drawn("conium-maculatum", "leafy", range(9), "unspotted")} <= {
        "plain",
        "flushed",
    }
    assert {found["leaf_hairs"] for found in drawn("anthriscus-sylvestris", "rosette", range(9), "hairless")} == {
        "hairless"
    }
    assert {found["leaf_hairs"] for found in drawn("daucus-carota", "rosette", range(9), "coastal")} == {"sparse"}
    assert {found["leaf_division"] for found in drawn("oenanthe-crocata", "rosette", range(9), "first_leaves")} == {
        "pinnate_once"
    }


@pytest.mark.parametrize("key", sorted(STAGES))
def test_a_dug_plant_shows_its_root(key: str) -> None:
    for stage in STAGES[key]:
        for found in drawn(key, stage, range(3), "dug"):
            assert found["root_type"] in ALLOWED[key]["root_type"]


@pytest.mark.parametrize(("wanted", "mistaken"), PAIRS)
def test_nothing_but_the_plant_differs_between_the_two_sides_of_a_pair(wanted: str, mistaken: str) -> None:
    for stage in sorted(STAGES[wanted] & STAGES[mistaken]):
        for seed in range(6):
            one, other = draw_plate(wanted, stage, seed), draw_plate(mistaken, stage, seed)
            assert one.alt_blind == other.alt_blind
            assert (one.width, one.height) == (other.width, other.height)
            assert one.svg.count("clip-path=") == other.svg.count("clip-path=")
            assert paper_of(one.svg) == paper_of(other.svg)


def paper_of(svg: str) -> str:
    """Which paper lies under the plate, and whether there is ground on it."""
    found = re.search(r'id="(paper-[^"]+)"', svg)
    assert found is not None
    return found[1]


def test_the_picture_names_no_plant() -> None:
    for key, stage in EVERY:
        svg = draw_plate(key, stage, 1).svg.lower()
        words = {key, *key.split("-"), "hemlock", "parsley", "carrot", "parsnip", "pignut", "yarrow", "alexanders"}
        assert [word for word in words if word in svg] == []
        assert "drawing" in svg


def test_a_stage_that_is_not_drawn_is_refused_in_words() -> None:
    with pytest.raises(NoSuchPlate, match="conopodium-majus is not drawn in the stage 'dormant'"):
        draw_plate("conopodium-majus", "dormant", 1)
