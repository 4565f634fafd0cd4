"""Every stage that a drawn species shows has its drawing, and what is drawn says no more than it may."""

import csv
from functools import cache
from pathlib import Path

import pytest

from species.documents.plates.catalogue import PLATES, Plate, draw_plate, stages_available

FLORA = Path(__file__).resolve().parents[3] / "species" / "data"
EVERY = [(key, stage) for key in PLATES for stage in stages_available(key)]


def table(name: str) -> list[dict[str, str]]:
    with (FLORA / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@cache
def plate_of(key: str, stage: str, seed: int = 1) -> Plate:
    return draw_plate(key, stage, seed)


def names_of(key: str) -> set[str]:
    common = {row["name"].lower() for row in table("common_names") if row["species"] == key}
    return common | {row["name"].lower() for row in table("species") if row["key"] == key}


def test_the_stages_of_the_calendar_and_the_stages_drawn_are_the_same() -> None:
    shown = {(row["species"], row["stage"]) for row in table("showing") if row["species"] in PLATES}
    assert shown == set(EVERY)


def test_twenty_four_species_are_drawn() -> None:
    assert len(PLATES) == 24


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_the_blind_words_never_name_the_plant_and_the_full_ones_do(key: str, stage: str) -> None:
    plate = plate_of(key, stage)
    assert not any(name in plate.alt_blind.lower() for name in names_of(key))
    assert PLATES[key].NAME in plate.alt_full
    assert len(plate.alt_full) > len(plate.alt_blind.split(",")[0])


@pytest.mark.parametrize(("key", "stage"), EVERY)
def test_words_about_one_stage_say_what_was_drawn_in_it(key: str, stage: str) -> None:
    assert ":" in plate_of(key, stage).alt_full


@pytest.mark.parametrize("stage", sorted({stage for _, stage in EVERY}))
def test_blind_words_of_one_stage_differ_only_in_the_number_of_details(stage: str) -> None:
    words = {plate_of(key, each).alt_blind for key, each in EVERY if each == stage}
    assert {word.replace("two", "three") for word in words} == {next(iter(words)).replace("two", "three")}


def test_nothing_is_recorded_of_a_seedling_since_nothing_can_be_read_from_it() -> None:
    assert [plate_of(key, stage).characters for key, stage in EVERY if stage == "seedling"] == [{}] * 21


@pytest.mark.parametrize(
    ("key", "state"),
    [
        ("allium-ursinum", "bulb"),
        ("arum-maculatum", "round_tuber"),
        ("colchicum-autumnale", "corm"),
        ("conopodium-majus", "single_round_tuber"),
        ("convallaria-majalis", "creeping_rhizome"),
        ("mercurialis-perennis", "creeping_rhizome"),
        ("oenanthe-crocata", "tuber_cluster"),
        ("pastinaca-sativa", "taproot"),
    ],
)
def test_a_plant_at_rest_shows_its_root_and_no_leaf(key: str, state: str) -> None:
    for seed in range(3):
        found = plate_of(key, "dormant", seed).characters
        assert found["root_type"] == state
        assert set(found) <= {"root_type", "root_cut"}


@pytest.mark.parametrize(("key", "stage"), [("colchicum-autumnale", "flower"), ("arum-maculatum", "fruit")])
def test_what_flowers_or_fruits_without_leaves_is_drawn_without_them(key: str, stage: str) -> None:
    for seed in range(3):
        plate = plate_of(key, stage, seed)
        assert "no leaves" in plate.alt_full
        assert not {"venation", "leaf_margin", "leaf_base"} & set(plate.characters)


HOLLOW = 'fill="#FBF7EC" stroke="#2B2A26" stroke-width="12"'


@pytest.mark.parametrize("key", ["conium-maculatum", "daucus-carota", "smyrnium-olusatrum", "oenanthe-crocata"])
def test_whether_a_leaf_stalk_is_hollow_tells_no_species(key: str) -> None:
    assert {HOLLOW in plate_of(key, "rosette", seed).svg for seed in range(8)} == {True, False}
