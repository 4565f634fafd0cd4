"""Alexanders: broad leaflets in threes, a wide pale fringed sheath, yellow-green umbels, black fruits."""

from dataclasses import replace

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import Division, Frames, joined, one_frame, ternate
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import Build
from species.documents.plates.individual import Individual
from species.documents.plates.looks import leaf_stalk, ridged_stem
from species.documents.plates.resting import Rest, resting_plate
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import broad_toothed
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import SheathLook
from species.documents.plates.umbel_look import UmbelLook

NAME = "alexanders (Smyrnium olusatrum)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One alexanders."""
    if individual.stage == "dormant":
        rest = Rest("taproot", ("one thick pale taproot",))
        return resting_plate(individual, lambda sheet, plant: _root(sheet, plant, 1.0), rest)
    stem = ridged_stem(
        individual, "hairless", "solid" if individual.form == "young" or individual.chance(0.7) else "hollow", 13
    )
    stalk = leaf_stalk(individual, replace(stem, inside="solid"), "hairless")
    sheath = SheathLook("#E3E8CB", individual.between(2.5, 3.0), individual.count(30, 40), "#C4828C")
    build = Build(
        stem,
        stalk,
        sheath,
        _blade,
        _umbel(individual),
        _root,
        sheath_share=0.42,
        upper_stalk=0.42,
        seed_leaves=SeedLeaves(ratio=3.6, stalk=0.6),
    )
    characters = {
        "leaf_division": "ternate",
        "segment_shape": "broad_ovate",
        "leaf_margin": "crenate",
        "petiole_sheath": "inflated",
    }
    if individual.stage == "flower":
        characters["flower_colour"] = "yellow_green"
    if individual.stage == "fruit":
        characters["fruit_colour"] = "black"
    features = (
        "broad leaflets in threes",
        "a wide pale sheath with a fringe of hairs",
        {"flower": "yellow-green flowers", "fruit": "black fruits"}.get(individual.stage, "no hairs else"),
    )
    return carrot_family_plate(individual, build, characters, "taproot", features)


def _blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
    """Twice in threes from the ground, once in threes on the upper stem."""
    leaf = one_frame(0, 0, 0, length * 0.14, bend * 0.4)
    if rank >= 3 or length < 130:
        stalks, leaflets = ternate(leaf, 0.5, 4.0, random, 60)
        return Blade(Division((leaf, stalks), leaflets, broad_toothed()), 3.4, veined=True, ink=1.0)
    stalks, parts = ternate(leaf, 1.0, 0.85, random, 58)
    short, leaflets = ternate(parts, 0.3, 3.0, random, 56)
    # The end leaflet of each part is the largest.
    size = (
        leaflets.size * np.repeat([0.92, 0.92, 1.12], len(parts)) * (0.95 + 0.1 * random.random_sample(len(leaflets)))
    )
    even = Frames(leaflets.x, leaflets.y, leaflets.turn, size, leaflets.bend)
    return Blade(Division((leaf, joined([stalks, parts]), short), even, broad_toothed()), 3.6, veined=True, ink=1.1)


def _umbel(individual: Individual) -> UmbelLook:
    few = individual.chance(0.25)
    ringed = individual.chance(0.2)
    return UmbelLook(
        individual.count(8, 14),
        14,
        "few_simple" if few else "none",
        "all_round" if ringed else "none",
        "round_black",
        "#CBD458",
        "#8FA13A",
        individual.green_stem,
        outer=1.0,
        cap=66,
        bract_count=individual.count(1, 2) if few else 0,
        bracteole_count=5,
        fruit_colour="#1E1C1A",
    )


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    taproot(sheet, individual, 320 * share, individual.between(58, 80) * share)
