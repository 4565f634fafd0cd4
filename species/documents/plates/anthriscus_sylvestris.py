"""Cow parsley: deeply grooved downy leaf stalks, no bracts, an even flush at most, never blotched."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual, mix
from species.documents.plates.looks import leaf_stalk, plain_sheath, ridged_stem
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import lance_cut
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook

NAME = "cow parsley (Anthriscus sylvestris)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "hairless", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One cow parsley."""
    if individual.stage == "dormant":
        rest = Rest("taproot", ("one thick pale taproot with shoulders",))
        return resting_plate(individual, lambda sheet, plant: _root(sheet, plant, 1.0), rest)
    bald = individual.form == "hairless" or (individual.form != "flushed" and individual.chance(0.1))
    hairs = "hairless" if bald else "sparse" if individual.chance(0.25) else "downy"
    leaf_hairs = "hairless" if bald else "downy" if individual.chance(0.25) else "sparse"
    stem = ridged_stem(individual, hairs, "hollow", 16)
    stalk = leaf_stalk(individual, stem, leaf_hairs, grooved=True)
    build = Build(
        stem,
        stalk,
        plain_sheath(individual, stalk, 1.55),
        _blade_maker(individual, bald),
        _umbel(individual),
        _root,
        seed_leaves=SeedLeaves(ratio=6.0, stalk=0.2),
    )
    characters = {
        "leaf_division": "pinnate_2_4",
        "compound_outline": "triangular",
        "segment_shape": "lance_pointed",
        "leaf_margin": "serrate",
        "petiole_sheath": "sheath",
    }
    features = (
        "no hairs on this one" if bald else "hairs on the leaf stalk",
        "a deep groove along the leaf stalk",
        "an even purple flush" if stem.flush else "green stems",
    )
    return carrot_family_plate(individual, build, characters, "taproot", features)


def _blade_maker(individual: Individual, bald: bool) -> BladeMaker:
    first, second = individual.count(6, 8), individual.count(5, 7)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        orders = (
            Order(max(4, first - rank), 0.5, 60, 0.8, 0.0, 1.25),
            Order(second, 0.31, 54, 0.72, 0.1),
            Order(4, 0.4, 46, 0.6, 0.12),
        )
        division = grown(one_frame(0, 0, 0, length, bend), orders, lance_cut(), (44, 78), random)
        return Blade(division, 3.2, hair_length=5.0, hairs_per_axis=0 if bald else 5)

    return blade


def _umbel(individual: Individual) -> UmbelLook:
    return UmbelLook(
        individual.count(6, 11),
        individual.count(10, 15),
        "none",
        "all_round",
        "long_smooth_beaked",
        "#FFFFFF",
        "#D5D8A8",
        individual.green_stem,
        outer=1.3,
        cap=58,
        bracteole_count=5,
        fruit_colour=mix("#3B2F23", "#7C8A48", individual.between(0.0, 0.55)),
        fringed=True,
    )


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    taproot(sheet, individual, 330 * share, individual.between(52, 72) * share)
