"""Wild carrot: bristles on stalk and veins, solid stems, a ruff of feathered bracts, spiny fruits in a nest."""

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import Order, grown, one_frame
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import BladeMaker, Build
from species.documents.plates.individual import Individual, mix
from species.documents.plates.looks import leaf_stalk, plain_sheath, ridged_stem
from species.documents.plates.roots import taproot
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import narrow_cut
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook

NAME = "wild carrot (Daucus carota)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "coastal", "flushed", "dug")


def draw(individual: Individual) -> Drawing:
    """One wild carrot; the coastal form has few bristles."""
    coastal = individual.form == "coastal"
    hairs = "sparse" if coastal else "bristly"
    stem = ridged_stem(individual, hairs, "solid", 13)
    stalk = leaf_stalk(individual, stem, hairs)
    build = Build(
        stem,
        stalk,
        plain_sheath(individual, stalk, 1.5),
        _blade_maker(individual, coastal),
        _umbel(individual),
        _root,
        seed_leaves=SeedLeaves(ratio=8.0, stalk=0.05),
    )
    characters = {
        "leaf_division": "pinnate_2_4",
        "compound_outline": "oblong",
        "segment_shape": "lance_pointed",
        "petiole_sheath": "sheath",
    }
    features = (
        "few bristles, a coastal plant" if coastal else "bristles on stalk and veins",
        "feathered bracts" if individual.stage in ("flower", "fruit") else "narrow segments",
    )
    return carrot_family_plate(individual, build, characters, "taproot", features)


def _blade_maker(individual: Individual, coastal: bool) -> BladeMaker:
    first = individual.count(7, 9)

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        orders = (
            Order(max(5, first - rank), 0.27, 58, 0.62, 0.02, 1.25, bulge=0.18),
            Order(5, 0.38, 52, 0.65, 0.12),
            Order(3, 0.45, 46, 0.5, 0.15),
        )
        division = grown(one_frame(0, 0, 0, length, bend), orders, narrow_cut(), (26, 60), random)
        return Blade(division, 3.2, 1.15, hair_length=8.0, hairs_per_axis=4 if coastal else 11)

    return blade


def _umbel(individual: Individual) -> UmbelLook:
    fruiting = individual.stage == "fruit"
    pink = individual.chance(0.12)
    return UmbelLook(
        individual.count(18, 28),
        7,
        "large_divided",
        "all_round",
        "spiny",
        "#F6DDE4" if pink else "#FFFFFF",
        "#DCDDB4",
        individual.green_stem,
        outer=1.8,
        cap=individual.between(58, 64),
        closing=individual.between(0.6, 0.95) if fruiting else 0.0,
        bract_count=individual.count(7, 10),
        bracteole_count=7,
        flower_size=1.12,
        dark_middle=not fruiting and individual.chance(0.4),
        fruit_colour=mix("#9A7F52", "#7C8A48", individual.between(0.0, 0.6)),
    )


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    taproot(sheet, individual, 330 * share, individual.between(44, 66) * share)
