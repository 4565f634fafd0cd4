"""The nine carrot-family and yarrow plates: the same plant every time, and never without what tells it apart."""

import re
from functools import cache

import pytest

from species.documents.plates.catalogue import NoSuchPlate, Plate, draw_plate, forms_available, stages_available
from tests.species.documents.umbel_states import ALLOWED, DECISIVE, PAIRS, STAGES

EVERY = [(key, stage) for key in STAGES for stage in stages_available(key)]
SEED = 3  # the seed at which every form is looked at


@cache
def plate(key: str, stage: str, seed: int = SEED, form: str = "typical") -> Plate:
    """A plate drawn once for all tests of this module."""
    return draw_plate(key, stage, seed, form)


def drawn(key: str, stage: str, seeds: range, form: str = "typical") -> list[dict[str, str]]:
    return [plate(key, stage, seed, form).characters for seed in seeds]


def every_form(key: str, stage: str) -> list[dict[str, str]]:
    """What is drawn in each form, and in a few more typical plants."""
    return [plate(key, stage, SEED, form).characters for form in forms_available(key)] + drawn(key, stage, range(2))


@pytest.mark.parametrize("key", STAGES)
def test_every_stage_of_the_core_pairs_is_drawn(key: str) -> None:
    assert STAGES[key] <= set(stages_available(key))


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_every_form_draws_something_different_that_stays_small(key: str, stage: str) -> None:
    plates = [plate(key, stage, SEED, form) for form in forms_available(key)]
    assert len({one.svg for one in plates}) == len(plates)
    assert all(9_000 < len(one.svg) < 280_000 for one in plates)


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_the_same_seed_gives_the_same_bytes_and_another_seed_another_plant(key: str, stage: str) -> None:
    assert draw_plate(key, stage, 1).svg == plate(key, stage, 1).svg
    assert plate(key, stage, 1).svg != plate(key, stage, 2).svg


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_no_plate_shows_a_state_that_its_species_never_has(key: str, stage: str) -> None:
    for found in every_form(key, stage):
        wrong = {name: state for name, state in found.items() if state not in ALLOWED[key].get(name, {state})}
        assert wrong == {}


@pytest.mark.parametrize(("key", "stage"), [(key, stage) for key in DECISIVE for stage in DECISIVE[key]])
def test_the_deciding_characters_of_the_stage_are_always_drawn(key: str, stage: str) -> None:
    for found in every_form(key, stage):
        assert DECISIVE[key][stage] <= set(found)


def test_hemlock_has_no_hair_and_bracteoles_on_one_side_in_every_form() -> None:
    for found in every_form("conium-maculatum", "flower"):
        assert found["leaf_hairs"] == found["stem_hairs"] == "hairless"
        assert found["bracteoles"] == "outer_short"


def test_cow_parsley_is_never_blotched_and_never_has_bracts() -> None:
    for found in every_form("anthriscus-sylvestris", "flower"):
        assert found["stem_marks"] != "blotched"
        assert found["bracts"] == "none"


def test_some_hemlock_is_unspotted_and_some_cow_parsley_hairless_without_being_asked() -> None:
    hemlock = {found["stem_marks"] for found in drawn("conium-maculatum", "leafy", range(40))}
    parsley = {found["leaf_hairs"] for found in drawn("anthriscus-sylvestris", "leafy", range(40))}
    assert hemlock == {"blotched", "plain", "flushed"}
    assert parsley == {"sparse", "soft_downy", "hairless"}


@pytest.mark.parametrize(
    ("key", "form", "name", "states"),
    [
        ("conium-maculatum", "unspotted", "petiole_marks", {"plain", "flushed"}),
        ("conium-maculatum", "grooved", "petiole_section", {"grooved"}),
        ("anthriscus-sylvestris", "hairless", "leaf_hairs", {"hairless"}),
        ("daucus-carota", "coastal", "leaf_hairs", {"sparse"}),
        ("oenanthe-crocata", "first_leaves", "leaf_division", {"pinnate_once"}),
        ("pastinaca-sativa", "nearly_bald", "leaf_hairs", {"sparse"}),
    ],
)
def test_a_form_that_is_asked_for_is_drawn(key: str, form: str, name: str, states: set[str]) -> None:
    assert {found[name] for found in drawn(key, "rosette", range(SEED, SEED + 3), form)} <= states


@pytest.mark.parametrize("key", sorted(STAGES))
def test_a_dug_plant_shows_its_root(key: str) -> None:
    for stage in STAGES[key]:
        assert plate(key, stage, SEED, "dug").characters["root_type"] in ALLOWED[key]["root_type"]


@pytest.mark.parametrize(("wanted", "mistaken"), PAIRS)
def test_nothing_but_the_plant_differs_between_the_two_sides_of_a_pair(wanted: str, mistaken: str) -> None:
    for stage in sorted(STAGES[wanted] & STAGES[mistaken]):
        for seed in range(3):
            one, other = plate(wanted, stage, seed), plate(mistaken, stage, seed)
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
        svg = plate(key, stage).svg.lower()
        words = {key, *key.split("-"), "hemlock", "parsley", "carrot", "parsnip", "pignut", "yarrow", "alexanders"}
        assert [word for word in words if word in svg] == []
        assert "drawing" in svg


def test_a_stage_that_is_not_drawn_is_refused_in_words() -> None:
    with pytest.raises(NoSuchPlate, match="conium-maculatum is not drawn in the stage 'dormant'"):
        draw_plate("conium-maculatum", "dormant", 1)
