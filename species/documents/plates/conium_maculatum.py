"""Hemlock: hairless everywhere, round smooth blotched stems, short bracts bent back, bracteoles on one side only."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.closeup import StalkLook
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual, mix
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import fine_cut
from species.documents.plates.svg import Sheet
from species.documents.plates.tube import FLUSH, SheathLook, StemLook
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.unreliable import bloom_of, flush_of

NAME = "hemlock (Conium maculatum)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "unspotted", "flushed", "grooved", "dug")


def draw(individual: Individual) -> Drawing:
    """One hemlock."""
    blotches, flush = _blotches(individual), flush_of(individual)
    marks = "blotched" if blotches else "flushed" if flush else "plain"
    section = "ridged" if individual.form == "grooved" or individual.chance(0.3) else "round_smooth"
    stem = StemLook(
        "hairless", marks, section, "hollow", individual.green_stem, blotches, flush, 15, bloom_of(individual)
    )
    spotted_stalk = blotches > 0 and individual.chance(0.35)
    leaf_flush = flush * 0.8 if flush and individual.chance(0.6) else 0.0
    grooved = individual.form == "grooved" or individual.chance(0.25)
    stalk = StemLook(
        "hairless",
        "blotched" if spotted_stalk else "flushed" if leaf_flush else "plain",
        "ridged" if grooved else "round_smooth",
        "hollow",
        individual.green_stem,
        blotches * 0.8 if spotted_stalk else 0.0,
        leaf_flush,
        9,
    )
    sheath = SheathLook(mix(individual.green_stem, FLUSH, 0.5 * leaf_flush), 1.55)
    build = Build(
        stem,
        StalkLook(stalk, "grooved" if grooved else "round"),
        sheath,
        _blade_maker(individual),
        _umbel(individual),
        _root,
        seed_leaves=SeedLeaves(ratio=4.6, stalk=0.4),
    )
    characters = {
        "leaf_division": "pinnate_2_4",
        "compound_outline": "triangular",
        "segment_shape": "lance_pointed",
        "leaf_margin": "serrate",
        "petiole_sheath": "sheath",
        "leaf_spots": "none",
    }
    features = (
        "no hair anywhere",
        "purple blotches" if blotches or spotted_stalk else "no blotches on this one",
        "bracteoles on the outer side only" if individual.stage in ("flower", "fruit") else "finely cut leaves",
    )
    return carrot_family_plate(individual, build, characters, "taproot", features)


def _blotches(individual: Individual) -> float:
    """Three plants in four have many, some have few, one in ten (and young or shaded ones oftener) has none."""
    if individual.form == "unspotted":
        return 0.0
    none = 0.3 if individual.form in ("young", "shade") else 0.1
    draw_of_luck = individual.between(0, 1)
    if draw_of_luck < none:
        return 0.0
    return individual.between(0.25, 0.4) if draw_of_luck < none + 0.15 else individual.between(0.75, 1.0)


def _blade_maker(individual: Individual) -> BladeMaker:
    first, second = individual.count(7, 9), individual.count(6, 7)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        orders = (
            Order(max(4, first - rank), 0.53, 60, 0.8, 0.0, 1.25),
            Order(second, 0.32, 54, 0.72, 0.1),
            Order(4, 0.38, 48, 0.6, 0.12),
        )
        division = grown(one_frame(0, 0, 0, length, bend), orders, fine_cut(), (36, 80), random)
        return Blade(division, 3.2)

    return blade


def _umbel(individual: Individual) -> UmbelLook:
    few = individual.chance(0.2)
    bracts = individual.count(3, 4) if few else individual.count(5, 6)
    return UmbelLook(
        individual.count(10, 18),
        individual.count(11, 15),
        "few_simple" if few else "many_simple",
        "outer_short",
        "round_wavy_ridges",
        "#FFFFFF",
        "#D5D8A8",
        individual.green_stem,
        outer=1.0,
        cap=58,
        bract_count=bracts,
        bracteole_count=individual.count(3, 4),
        fruit_colour=mix("#8E8552", "#7C8A48", individual.between(0.0, 0.9)),
    )


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    taproot(sheet, individual, 330 * share, individual.between(50, 72) * share, individual.chance(0.25))
