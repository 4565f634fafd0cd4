"""Pignut: slender, stem leaves cut into threads, the stem a thread below ground that joins one round tuber."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.closeup import StalkLook
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import Build
from species.documents.plates.individual import Individual
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import lance_plain, thread
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import SheathLook, StemLook
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.underground import thread_tuber
from species.documents.plates.unreliable import bloom_of

NAME = "pignut (Conopodium majus)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "dug")
SLENDER = 0.36


def draw(individual: Individual) -> Drawing:
    """One pignut."""
    if individual.stage == "dormant":
        return _resting(individual)
    hairs = "sparse" if individual.chance(0.15) else "hairless"
    stem = StemLook(
        hairs,
        "plain",
        "ridged",
        "hollow" if individual.chance(0.5) else "solid",
        individual.green_stem,
        ridges=10,
        bloom=bloom_of(individual),
    )
    stalk = StemLook(hairs, "plain", "ridged", "solid", individual.green_stem, ridges=8)
    build = Build(
        stem,
        StalkLook(stalk, "grooved" if individual.chance(0.5) else "round"),
        SheathLook(individual.green_stem, 1.6),
        _blade,
        _umbel(individual),
        _root,
        slender=SLENDER,
        upper_stalk=0.22,
        upper_blade=0.95,
        head_scale=0.82,
        ground_scale=0.72,
        seed_leaves=SeedLeaves(count=1, ratio=4.5, stalk=0.6),
        first_rank=0,
    )
    threads = individual.stage != "rosette"
    characters = {
        "leaf_division": "pinnate_2_4",
        "compound_outline": "triangular",
        "segment_shape": "thread_linear" if threads else "lance_pointed",
        "petiole_sheath": "sheath",
    }
    features = ("a slender stem", "stem leaves cut into threads" if threads else "small first leaves")
    return carrot_family_plate(individual, build, characters, "single_round_tuber", features)


def _blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
    """Lance segments in the first leaves, threads on the stem."""
    leaf = one_frame(0, 0, 0, length, bend)
    if rank == 0:
        orders = (Order(5, 0.5, 58, 0.75, 0.0, 1.2), Order(4, 0.36, 54, 0.65, 0.12), Order(2, 0.5, 48, 0.4, 0.2))
        return Blade(grown(leaf, orders, lance_plain(), (50, 70), random), 2.6)
    twigs = (Order(3, 0.62, 46, 0.5, 0.02, 1.25), Order(2, 0.62, 40, 0.35, 0.2, 1.2))
    return Blade(grown(leaf, twigs, thread(), (40,), random), 3.0, ink=0.65)


def _umbel(individual: Individual) -> UmbelLook:
    few, bare = individual.chance(0.2), individual.chance(0.15)
    return UmbelLook(
        individual.count(6, 10),
        11,
        "few_simple" if few else "none",
        "none" if bare else "all_round",
        "oval_slender",
        "#FFFFFF",
        "#D5D8A8",
        individual.green_stem,
        outer=1.3,
        cap=58,
        bract_count=individual.count(1, 2) if few else 0,
        bracteole_count=individual.count(3, 5),
    )


def _resting(individual: Individual) -> Drawing:
    """The tuber with what is left of its thread."""
    rest = Rest(
        "single_round_tuber",
        ("one rounded brown tuber on a thread", "white where it was cut"),
        "white_stays",
        skin="#7A5636",
    )
    sheet = Sheet()
    at = thread_tuber(sheet, individual, individual.between(270, 350), individual.between(84, 112), 11.0)
    return rooted(sheet, individual, rest, at, at)


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    wide = 25.0 * SLENDER if individual.stage != "rosette" else 13.0
    thread_tuber(sheet, individual, individual.between(250, 330) * share, individual.between(78, 104) * share, wide)
