"""Wild parsnip: leaves once pinnate and downy, broad leaflets, yellow flowers, one cone of a root."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual
from species.documents.plates.looks import leaf_stalk, plain_sheath, ridged_stem
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import parsnip_toothed
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook

NAME = "wild parsnip (Pastinaca sativa)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "nearly_bald", "divided_again", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One wild parsnip."""
    if individual.stage == "dormant":
        return resting_plate(
            individual,
            lambda sheet, plant: _root(sheet, plant, 1.0),
            Rest("taproot", ("one cone", "white where it was cut"), "white_stays", core=True),
        )
    bald = individual.form == "nearly_bald" or individual.chance(0.12)
    hairs = "sparse" if bald else "downy"
    again = individual.form == "divided_again" or individual.chance(0.25)
    stem = ridged_stem(individual, hairs, "hollow", 9)
    stalk = leaf_stalk(individual, stem, hairs)
    build = Build(
        stem,
        stalk,
        plain_sheath(individual, stalk, 1.7),
        _blade_maker(individual, again, 4 if bald else 18),
        _umbel(individual),
        _root,
        stalk_ratio=0.5,
        seed_leaves=SeedLeaves(ratio=5.0, stalk=0.3),
    )
    characters = {
        "leaf_division": "pinnate_2_4" if again else "pinnate_once",
        "segment_shape": "broad_ovate",
        "leaf_margin": "serrate",
    }
    if individual.stage == "flower":
        characters["flower_colour"] = "yellow"
    features = (
        "a few hairs" if bald else "downy all over",
        "leaves once divided into broad leaflets",
        {"flower": "yellow flowers", "fruit": "flat winged fruits"}.get(individual.stage, "grooved stalks"),
    )
    return carrot_family_plate(individual, build, characters, "taproot", features)


def _blade_maker(individual: Individual, again: bool, hairs: int) -> BladeMaker:
    pairs = individual.count(3, 5)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        first = Order(max(2, pairs - rank // 2), 0.37, 62, 0.3, 0.06, 1.35)
        limit = length * 0.35 if again and rank == 0 else length
        division = grown(
            one_frame(0, 0, 0, length, bend),
            (first, Order(1, 0.5, 62, 0.3, 0.12, 1.3)),
            parsnip_toothed(),
            (limit,),
            random,
        )
        return Blade(division, 3.8, veined=True, hair_length=5.0, hairs_per_axis=hairs, ink=1.1)

    return blade


def _umbel(individual: Individual) -> UmbelLook:
    few, ringed = individual.chance(0.2), individual.chance(0.2)
    return UmbelLook(
        individual.count(8, 14),
        13,
        "few_simple" if few else "none",
        "all_round" if ringed else "none",
        "flat_winged",
        "#E2C93A",
        "#B7962A",
        individual.green_stem,
        outer=1.0,
        cap=58,
        bract_count=individual.count(1, 2) if few else 0,
        bracteole_count=5,
        fruit_colour="#B79A5A",
        flower_size=0.86,
    )


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    taproot(sheet, individual, 350 * share, individual.between(66, 90) * share)
