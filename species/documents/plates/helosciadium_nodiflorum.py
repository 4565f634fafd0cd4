"""Fool's-water-cress: every leaf once pinnate, roots at the joints, umbels opposite a leaf on almost no stalk."""

from dataclasses import replace

import numpy as np

from species.documents.plates.carrot_family import family_drawing, family_seedling
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.creeping import draw_creeping
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual
from species.documents.plates.looks import leaf_stalk, ridged_stem
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import cress_toothed
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import SheathLook
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.underground import threads

NAME = "fool's-water-cress (Helosciadium nodiflorum)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One fool's-water-cress; its rooting joints lie open, so the root type is always recorded."""
    stem = ridged_stem(individual, "hairless", "hollow", 14)
    if individual.chance(0.2):
        stem = replace(stem, section="round_smooth")
    stalk = leaf_stalk(individual, replace(stem, flush=0.0), "hairless")
    build = Build(
        stem,
        stalk,
        SheathLook(individual.green_stem, 1.6),
        _blade_maker(individual),
        _umbel(individual),
        _no_more_root,
        stalk_ratio=0.4,
        upper_stalk=0.3,
        seed_leaves=SeedLeaves(ratio=3.4, stalk=0.5),
    )
    if individual.stage == "seedling":
        return family_seedling(individual, build, ("the first leaves already once divided",))
    sheet = Sheet()
    marks = draw_creeping(sheet, individual, build)
    characters = {
        "leaf_division": "pinnate_once",
        "segment_shape": "broad_ovate",
        "leaf_margin": "crenate",
        "root_type": "rooting_runner",
    }
    heads = individual.stage in ("flower", "fruit")
    if heads:
        characters["umbel_position"] = "leaf_opposed"
    features = (
        "every leaf once divided",
        "roots at the joints of the creeping stem",
        "umbels opposite a leaf" if heads else "no hair anywhere",
    )
    return family_drawing(individual, build, sheet, marks, characters, features)


def _blade_maker(individual: Individual) -> BladeMaker:
    pairs = individual.count(3, 5)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        order = Order(max(2, pairs - rank // 3), 0.33, 66, 0.3, 0.04, 1.15)
        division = grown(one_frame(0, 0, 0, length, bend), (order,), cress_toothed(), (), random, 0.7)
        return Blade(division, 3.6, veined=True, ink=1.1)

    return blade


def _umbel(individual: Individual) -> UmbelLook:
    few = individual.chance(0.15)
    return UmbelLook(
        individual.count(5, 8),
        12,
        "few_simple" if few else "none",
        "all_round",
        "egg_ridged",
        "#F4F5E8",
        "#D5D8A8",
        individual.green_stem,
        outer=1.0,
        cap=54,
        bract_count=individual.count(1, 2) if few else 0,
        bracteole_count=individual.count(5, 6),
    )


def _no_more_root(sheet: Sheet, individual: Individual, share: float) -> None:
    """Its roots are those at the joints; a tuft at the cut end is all there is below."""
    threads(sheet, (0.0, 0.0), 4, 40 * share, np.random.RandomState(individual.rng.getrandbits(30)))
