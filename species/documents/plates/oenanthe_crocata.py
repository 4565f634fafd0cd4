"""Hemlock water-dropwort: hairless, wedge segments, bracteoles all round, fat fingers from one crown."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual, mix
from species.documents.plates.looks import leaf_stalk, plain_sheath, ridged_stem
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import finger_cluster
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import first_leaflet, wedge
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook

NAME = "hemlock water-dropwort (Oenanthe crocata)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "first_leaves", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One water-dropwort; in a rosette the first leaves may be once pinnate with broad leaflets."""
    drops = individual.chance(0.5)
    if individual.stage == "dormant":
        return resting_plate(
            individual,
            lambda sheet, plant: _root(sheet, plant, 1.0, drops),
            Rest(
                "tuber_cluster",
                ("several fat fingers from one crown", "yellow drops where it was cut" if drops else "white inside"),
                "yellow_stain" if drops else "white_stays",
                fingers=True,
            ),
        )
    first = individual.stage == "rosette" and (
        individual.form == "first_leaves" or (individual.form == "young" and individual.chance(0.3))
    )
    stem = ridged_stem(individual, "hairless", "hollow", 14)
    stalk = leaf_stalk(individual, stem, "hairless")
    build = Build(
        stem,
        stalk,
        plain_sheath(individual, stalk, 1.6),
        _first_leaf if first else _blade_maker(individual),
        _umbel(individual),
        lambda sheet, plant, share: _root(sheet, plant, share, drops),
        seed_leaves=SeedLeaves(ratio=4.2, stalk=0.5),
    )
    characters = {
        "leaf_division": "pinnate_once" if first else "pinnate_2_4",
        "compound_outline": "triangular",
        "segment_shape": "broad_ovate" if first else "wedge_lobed",
        "leaf_margin": "crenate",
        "petiole_sheath": "sheath",
    }
    features = ("no hair anywhere", "first leaves, once divided" if first else "wedge-shaped segments")
    return carrot_family_plate(individual, build, characters, "tuber_cluster", features)


def _blade_maker(individual: Individual) -> BladeMaker:
    first = individual.count(4, 5)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        orders = (
            Order(max(3, first - rank // 2), 0.5, 58, 0.7, 0.0, 1.15),
            Order(2, 0.43, 56, 0.4, 0.2, 1.1),
            Order(1, 0.5, 58, 0.3, 0.35, 1.25),
        )
        division = grown(one_frame(0, 0, 0, length, bend), orders, wedge(), (60, 88), random)
        return Blade(division, 3.4)

    return blade


def _first_leaf(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
    division = grown(
        one_frame(0, 0, 0, length * 0.8, bend), (Order(2, 0.38, 64, 0.2, 0.14, 1.2),), first_leaflet(), (), random
    )
    return Blade(division, 3.4)


def _umbel(individual: Individual) -> UmbelLook:
    chance = individual.between(0, 1)
    bracts = "none" if chance < 0.1 else "few_simple" if chance < 0.35 else "many_simple"
    count = {"none": 0, "few_simple": individual.count(2, 3), "many_simple": individual.count(5, 6)}[bracts]
    return UmbelLook(
        individual.count(13, 24),
        14,
        bracts,
        "all_round",
        "cylinder_styles",
        "#FFFFFF",
        "#D5D8A8",
        individual.green_stem,
        outer=1.3,
        cap=60,
        bract_count=count,
        bracteole_count=individual.count(6, 9),
        fruit_colour=mix("#8A6E46", "#7C8A48", individual.between(0.0, 0.8)),
    )


def _root(sheet: Sheet, individual: Individual, share: float, drops: bool) -> None:
    finger_cluster(sheet, individual, 310 * share, individual.between(46, 60) * share, individual.count(5, 8), drops)
