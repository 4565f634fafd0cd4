"""Where on a plate the deciding characters lie: boxes on the page, in the detail that shows them and on the plant."""

import csv
from pathlib import Path

import pytest

from species.documents.plates.catalogue import PLATES, draw_plate, stages_available
from species.documents.plates.regions import Enlarged, Extent, Region, box, regions_of

FLORA = Path(__file__).resolve().parents[3] / "species" / "data"


def table(name: str) -> list[dict[str, str]]:
    with (FLORA / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


CORE = {row["key"]: row for row in table("pairs") if row["core"] == "yes"}
DECIDING = sorted(
    {
        (CORE[row["pair"]][side], stage.strip(), row["character"])
        for row in table("pair_characters")
        if row["pair"] in CORE and row["trust"] == "decisive" and row["needs_digging"] != "yes"
        for side in ("gathered", "mistaken")
        for stage in row["stages"].split("|")
        if stage.strip() in stages_available(CORE[row["pair"]][side])
    }
)
STANDING = {(key, stage) for key, stage, _ in DECIDING}


@pytest.mark.parametrize(("key", "stage"), sorted(STANDING))
def test_every_deciding_character_that_is_drawn_has_its_place_on_the_page(key: str, stage: str) -> None:
    for seed in range(2):
        plate = draw_plate(key, stage, seed)
        assert set(plate.regions) == set(plate.characters)
        for name in {name for one, each, name in DECIDING if (one, each) == (key, stage)} & set(plate.regions):
            assert plate.regions[name]
            assert all(inside_the_page(region) for region in plate.regions[name])


def inside_the_page(region: Region) -> bool:
    return (
        0 <= region.x < 1
        and 0 <= region.y < 1
        and 0 < region.width <= 1
        and 0 < region.height <= 1
        and region.x + region.width <= 1.001
        and region.y + region.height <= 1.001
    )


def test_the_detail_comes_before_the_place_on_the_plant_and_lies_on_the_other_side() -> None:
    detail, spot = draw_plate("arum-maculatum", "rosette", 2).regions["venation"]
    assert detail.width > spot.width
    assert abs(detail.x - spot.x) > 0.1


def test_a_root_is_pointed_at_below_the_crown_and_a_leaf_above() -> None:
    plate = draw_plate("pastinaca-sativa", "rosette", 1, "dug")
    root, leaf = plate.regions["root_type"][-1], plate.regions["segment_shape"][-1]
    assert root.y >= leaf.y + leaf.height - 0.001


def test_bracts_are_looked_for_at_the_head_of_the_plant() -> None:
    plate = draw_plate("conium-maculatum", "flower", 2)
    head = plate.regions["bracts"][-1]
    assert head.y + head.height / 2 < 0.45
    assert plate.regions["bracteoles"][0].width == pytest.approx(0.264)


def test_a_box_is_cut_at_the_edge_of_the_page_and_never_empty() -> None:
    assert box(-50, -50, 500, 625) == Region(0.0, 0.0, 0.5, 0.5)
    assert box(1200, 1400, 1300, 1500).width == 0.01


def test_a_character_in_no_detail_is_the_whole_plant_above_the_ground() -> None:
    plant = Extent(100, 125, 500, 1100, 1000)
    lens = Enlarged((800, 200), 100, (300, 500), ("venation",))
    found = regions_of(("growth_form", "venation"), plant, (lens,))
    assert found["growth_form"] == (Region(0.1, 0.1, 0.4, 0.7),)
    assert found["venation"] == (Region(0.7, 0.08, 0.2, 0.16), Region(0.24, 0.352, 0.12, 0.096))


def test_the_same_plate_has_the_same_regions() -> None:
    for key in list(PLATES)[:3]:
        stage = stages_available(key)[0]
        assert draw_plate(key, stage, 4).regions == draw_plate(key, stage, 4).regions
