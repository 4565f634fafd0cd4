"""The plates of the spring leaves, the hairy rosettes and the dark berries, and the page that all plates share."""

import csv
import os
import re
import subprocess
import sys
from functools import cache
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image

from species.documents.plates.catalogue import PLATES, NoSuchPlate, Plate, draw_plate, forms_available, stages_available
from species.documents.plates.company import page_cm
from species.documents.plates.individual import Individual
from species.documents.plates.lettering import handwriting
from species.documents.plates.raster import rasterise

FLORA = Path(__file__).resolve().parents[3] / "species" / "data"
KEYS = (
    "aegopodium-podagraria",
    "allium-ursinum",
    "arum-maculatum",
    "atropa-bella-donna",
    "colchicum-autumnale",
    "convallaria-majalis",
    "digitalis-purpurea",
    "hypochaeris-radicata",
    "lysimachia-arvensis",
    "mercurialis-perennis",
    "rumex-acetosa",
    "stellaria-media",
    "symphytum-officinale",
    "taraxacum-officinale-agg",
    "vaccinium-myrtillus",
)
EVERY = [(key, stage, form) for key in KEYS for stage in stages_available(key) for form in forms_available(key)]
STAGES = [(key, stage) for key in KEYS for stage in stages_available(key)]


@cache
def table(name: str) -> list[dict[str, str]]:
    with (FLORA / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def split(cell: str) -> set[str]:
    return {part.strip() for part in cell.split("|") if part.strip()}


@cache
def words_of_names() -> frozenset[str]:
    names = [row["name"] for row in (*table("common_names"), *table("species"))]
    return frozenset(word for name in names for word in re.findall(r"[a-z]{4,}", name.lower()))


TAUGHT = [row for row in table("pairs") if {row["gathered"], row["mistaken"]} <= set(KEYS)]
COMBINATIONS = [
    (pair["key"], pair["gathered"], row["gathered_stage"], pair["mistaken"], row["mistaken_stage"])
    for pair in TAUGHT
    for row in table("pair_stages")
    if row["pair"] == pair["key"]
]


def allowed(key: str, stage: str, character: str) -> set[str]:
    rows = [row for row in table("state_table") if row["species"] == key and row["character"] == character]
    return {row["state"] for row in rows if not row["stages"] or stage in split(row["stages"])}


@cache
def plate_of(key: str, stage: str, seed: int, form: str = "typical") -> Plate:
    return draw_plate(key, stage, seed, form)


def drawn(key: str, stage: str, count: int = 4) -> list[Plate]:
    return [plate_of(key, stage, seed) for seed in range(count)]


@pytest.mark.parametrize(("key", "stage", "form"), EVERY)
def test_every_stage_and_form_is_a_labelled_drawing_that_names_no_plant(key: str, stage: str, form: str) -> None:
    svg = plate_of(key, stage, 0, form).svg
    root = ElementTree.fromstring(svg)
    assert root.findtext("{http://www.w3.org/2000/svg}title") == "drawing"
    assert "not a photograph" in (root.findtext("{http://www.w3.org/2000/svg}metadata") or "")
    assert handwriting("drawing", 0, 0, 21)[0] in svg
    assert 9_000 < len(svg) < 280_000
    assert words_of_names().isdisjoint(re.findall(r"[a-z]{4,}", svg.lower()))


@pytest.mark.parametrize(("key", "stage"), STAGES)
def test_the_same_seed_is_the_same_plant_and_another_seed_another(key: str, stage: str) -> None:
    assert draw_plate(key, stage, 5).svg == plate_of(key, stage, 5).svg
    assert len({plate.svg for plate in drawn(key, stage)}) == 4


def test_the_bytes_do_not_depend_on_the_process() -> None:
    script = (
        "import hashlib; from species.documents.plates.catalogue import draw_plate; "
        "print(hashlib.sha256(draw_plate('arum-maculatum', 'flower', 3).svg.encode()).hexdigest())"
    )
    prints = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": salt},
            check=True,
            cwd=FLORA.parents[1],
            capture_output=True,
            text=True,
        ).stdout
        for salt in ("1", "2")
    }
    assert len(prints) == 1


@pytest.mark.parametrize(("key", "stage", "form"), EVERY)
def test_no_plate_shows_a_state_that_its_species_never_has(key: str, stage: str, form: str) -> None:
    for seed in range(4 if form == "typical" else 1):
        shown = plate_of(key, stage, seed, form).characters
        assert {name: state for name, state in shown.items() if state not in allowed(key, stage, name)} == {}


@pytest.mark.parametrize(("pair", "gathered", "stage", "mistaken", "other"), COMBINATIONS)
def test_what_decides_a_pair_differs_between_any_two_plates(
    pair: str,
    gathered: str,
    stage: str,
    mistaken: str,
    other: str,
) -> None:
    deciding = [
        row["character"]
        for row in table("pair_characters")
        if row["pair"] == pair and row["trust"] == "decisive" and {stage, other} <= split(row["stages"])
    ]
    for name in deciding:
        one = {plate.characters[name] for plate in drawn(gathered, stage)}
        two = {plate.characters[name] for plate in drawn(mistaken, other)}
        assert one.isdisjoint(two), name


def test_the_combinations_of_the_pairs_are_all_drawn() -> None:
    assert len({combination[0] for combination in COMBINATIONS}) == 10
    assert all(
        stage in stages_available(key) for _, one, a, two, b in COMBINATIONS for key, stage in ((one, a), (two, b))
    )


@pytest.mark.parametrize(("pair", "gathered", "stage", "mistaken", "other"), COMBINATIONS)
def test_both_sides_of_a_pair_are_framed_alike(
    pair: str,
    gathered: str,
    stage: str,
    mistaken: str,
    other: str,
) -> None:
    circles = re.compile(r'<ellipse cx="([\d.]+)" cy="([\d.]+)" rx="132"')
    for seed in range(4):
        one, two = plate_of(gathered, stage, seed), plate_of(mistaken, other, seed)
        assert circles.findall(one.svg) == circles.findall(two.svg) != []
        assert re.findall(r'id="paper-\d', one.svg) == re.findall(r'id="paper-\d', two.svg)
        assert "two enlarged details" in one.alt_blind
        assert "two enlarged details" in two.alt_blind
        if stage == other:
            assert one.alt_blind == two.alt_blind


def test_green_shine_and_size_come_from_one_distribution_for_all() -> None:
    for feature in ("shine", "size", "tone", "hue", "light"):
        means = [sum(getattr(Individual(seed, key, "rosette"), feature) for seed in range(400)) / 400 for key in KEYS]
        spread = max(means) - min(means)
        every = [getattr(Individual(seed, KEYS[0], "rosette"), feature) for seed in range(400)]
        assert spread < 0.14 * (max(every) - min(every)), feature


@pytest.mark.parametrize(
    ("key", "stage", "form", "character", "state"),
    [
        ("arum-maculatum", "rosette", "unspotted", "leaf_spots", "none"),
        ("arum-maculatum", "rosette", "spotted", "leaf_spots", "dark_blotches"),
        ("arum-maculatum", "rosette", "unlobed", "blade_shape", "elliptic"),
        ("arum-maculatum", "rosette", "back-pointing", "leaf_base", "arrow_sharp_back"),
        ("arum-maculatum", "flower", "yellow-club", "flower_colour", "yellow"),
        ("convallaria-majalis", "rosette", "one-bladed", "leaf_emergence", "single_stalked"),
        ("rumex-acetosa", "rosette", "unlobed", "leaf_base", "tapering"),
        ("symphytum-officinale", "rosette", "winged-stalk", "leaf_base", "winged"),
        ("symphytum-officinale", "flower", "cream", "flower_colour", "cream"),
        ("digitalis-purpurea", "flower", "white-flowered", "flower_colour", "white"),
        ("vaccinium-myrtillus", "fruit", "bloomless", "fruit_colour", "black"),
        ("colchicum-autumnale", "flower", "white-flowered", "flower_colour", "white"),
        ("stellaria-media", "flower", "petalless", "petals", "none"),
        ("stellaria-media", "leafy", "hairless-leaf", "leaf_hairs", "hairless"),
        ("lysimachia-arvensis", "flower", "blue", "flower_colour", "blue_violet"),
        ("lysimachia-arvensis", "leafy", "in-threes", "leaf_arrangement", "whorled"),
        ("taraxacum-officinale-agg", "rosette", "unlobed", "leaf_division", "undivided"),
        ("hypochaeris-radicata", "flower", "unbranched", "flower_stalk", "wiry_unbranched"),
        ("aegopodium-podagraria", "rosette", "few-hairs", "leaf_hairs", "sparse"),
    ],
)
def test_a_form_that_is_asked_for_is_drawn(key: str, stage: str, form: str, character: str, state: str) -> None:
    assert {plate_of(key, stage, seed, form).characters[character] for seed in range(3)} == {state}


def test_typical_plants_include_the_unusual_ones_now_and_then() -> None:
    arum = [draw_plate("arum-maculatum", "rosette", seed).characters for seed in range(40)]
    assert {found["leaf_spots"] for found in arum} == {"none", "dark_blotches"}
    assert {found["blade_shape"] for found in arum} == {"arrow", "elliptic"}
    assert {found["venation"] for found in arum} == {"netted_rim_vein"}
    lily = [draw_plate("convallaria-majalis", "rosette", seed).characters for seed in range(40)]
    assert {found["leaf_emergence"] for found in lily} == {"single_stalked", "pair_sheathing"}


def test_the_picture_carries_the_word_in_its_own_fields() -> None:
    svg = draw_plate("allium-ursinum", "rosette", 1).svg
    jpeg, png = Image.open(BytesIO(rasterise(svg, 390))), Image.open(BytesIO(rasterise(svg, 390, "PNG")))
    assert jpeg.size == png.size == (390, 488)
    assert jpeg.getexif()[0x010E] == "drawing"
    assert jpeg.info["comment"] == b"drawing"
    assert png.info["Description"] == "drawing"
    assert rasterise(svg, 390) == rasterise(svg, 390)


def test_the_full_description_names_the_plant_and_the_blind_one_does_not() -> None:
    plate = draw_plate("colchicum-autumnale", "fruit", 2)
    assert "meadow saffron" in plate.alt_full
    assert "capsule" in plate.alt_full
    assert plate.alt_blind == "Drawing of one plant in fruit, with two enlarged details and a scale bar."


@pytest.mark.parametrize(
    ("key", "stage", "form", "word"),
    [
        ("quercus-robur", "leafy", "typical", "no plate"),
        ("allium-ursinum", "leafy", "typical", "stage 'leafy'"),
        ("allium-ursinum", "flower", "blue", "form 'blue'"),
    ],
)
def test_what_is_not_drawn_is_refused_by_name(key: str, stage: str, form: str, word: str) -> None:
    with pytest.raises(NoSuchPlate, match=word):
        draw_plate(key, stage, 1, form)


DRAWN_PAIRS = {row["key"]: row for row in table("pairs") if {row["gathered"], row["mistaken"]} <= set(PLATES)}
CONFUSED = [
    (DRAWN_PAIRS[row["pair"]]["gathered"], DRAWN_PAIRS[row["pair"]]["mistaken"], row["gathered_stage"])
    for row in table("pair_stages")
    if row["pair"] in DRAWN_PAIRS and row["gathered_stage"] == row["mistaken_stage"]
]
BAR = re.compile(r'<path d="(M[^"]*)" fill="none" stroke="#2B2A26" stroke-width="2"/>')


@pytest.mark.parametrize(("gathered", "mistaken", "stage"), CONFUSED)
def test_the_scale_bar_is_the_same_on_both_sides_of_a_pair(gathered: str, mistaken: str, stage: str) -> None:
    for seed in range(2):
        one, two = (BAR.findall(plate_of(key, stage, seed).svg)[-1] for key in (gathered, mistaken))
        assert one == two


def test_every_drawn_species_has_the_size_of_its_company_and_young_plants_are_smaller() -> None:
    for key in PLATES:
        for stage in stages_available(key):
            assert 3 < page_cm(Individual(1, key, stage)) < 100
            assert page_cm(Individual(1, key, stage, "young")) < page_cm(Individual(1, key, stage))
