"""Ground elder: leaves in threes, each alone on a three-cornered stalk from white runners; umbels without bracts."""

from dataclasses import replace

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.closeup import StalkLook
from species.documents.plates.compound import Division, Frames, joined, one_frame, ternate
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.habit import Build
from species.documents.plates.individual import Individual
from species.documents.plates.looks import leaf_stalk, plain_sheath, ridged_stem
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import elder_toothed
from species.documents.plates.storage import draw_rhizome
from species.documents.plates.svg import Sheet
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.underground import runner

NAME = "ground elder (Aegopodium podagraria)"
STAGES = ("rosette", "leafy", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "once-divided", "few-hairs", "dug")
NOT_IN_THE_TABLE = ("petiole_marks", "stem_marks")


def draw(individual: Individual) -> Drawing:
    """One ground elder, or a few leaves of a carpet."""
    if individual.stage == "dormant":
        sheet = Sheet()
        at = draw_rhizome(sheet, individual, individual.coloured("#F2ECDA"), 21.0, "#EDE6C8")
        rest = Rest("creeping_rhizome", ("long white runners with buds",), skin="#F2ECDA")
        return rooted(sheet, individual, rest, at, at)
    hairs = "sparse" if individual.form == "few-hairs" or individual.chance(0.2) else "hairless"
    stem = replace(ridged_stem(individual, hairs, "hollow", 12), flush=0.0, marks="plain")
    stalk = StalkLook(leaf_stalk(individual, stem, hairs).look, "triangular")
    once = individual.form == "once-divided" or (individual.stage == "rosette" and individual.chance(0.25))
    build = Build(
        stem,
        stalk,
        plain_sheath(individual, stalk, 1.5),
        lambda length, rank, bend, random: _blade(length, 3 if once else rank, bend, random),
        _umbel(individual),
        lambda sheet, plant, share: runner(sheet, plant, 250 * share, 19 * share),
        stalk_ratio=0.95,
        upper_stalk=0.36,
        slender=0.75,
        apart=4.0,
        seed_leaves=SeedLeaves(ratio=2.6, stalk=0.5),
    )
    states, seen = _leaf_states(individual), _seen(individual)
    return _as_tabled(carrot_family_plate(individual, build, states, "creeping_rhizome", seen))


def _leaf_states(individual: Individual) -> dict[str, str]:
    rosette = individual.stage == "rosette"
    states = {
        "growth_form": "herb",
        "leaf_division": "ternate",
        "segment_shape": "broad_ovate",
        "leaf_margin": "serrate",
        "leaf_arrangement": "basal" if rosette else "alternate",
        "petiole_sheath": "sheath",
    }
    if individual.stage != "fruit":
        states["leaf_emergence"] = "single_stalked" if rosette else "on_stem"
    if individual.stage == "flower":
        states["flower_colour"] = "white"
    return states


def _seen(individual: Individual) -> tuple[str, ...]:
    heads = {"flower": ("white umbels without bracts",), "fruit": ("oval fruits, no bracts",)}
    return (
        "leaves in threes, their leaflets saw-toothed and lopsided",
        "a three-cornered leaf stalk",
        *heads.get(individual.stage, ()),
    )


def _as_tabled(drawing: Drawing) -> Drawing:
    """Leave out what the state table does not keep for this plant."""
    kept = {name: state for name, state in drawing.characters.items() if name not in NOT_IN_THE_TABLE}
    return replace(drawing, characters=kept)


def _blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
    """Twice in threes from the ground; side parts are often only half split, so that they look like two."""
    leaf = one_frame(0, 0, 0, length * 0.1, bend * 0.4)
    if rank >= 3 or length < 130:
        stalks, leaflets = ternate(leaf, 0.5, 5.4, random, 62)
        return Blade(Division((leaf, stalks), leaflets, elder_toothed()), 3.2, veined=True, ink=1.0)
    stalks, parts = ternate(leaf, 1.9, 1.5, random, 58)
    short, leaflets = ternate(parts, 0.16, 2.35, random, 50)
    even = Frames(leaflets.x, leaflets.y, leaflets.turn, leaflets.size, leaflets.bend)
    if random.random_sample() < 0.5:
        keep = np.ones(len(even), dtype=bool)
        keep[int(random.randint(0, 2))] = False
        even = even.where(keep)
    return Blade(Division((leaf, joined([stalks, parts]), short), even, elder_toothed()), 3.4, veined=True, ink=1.1)


def _umbel(individual: Individual) -> UmbelLook:
    return UmbelLook(
        individual.count(12, 19),
        13,
        "none",
        "none",
        "oval_slender",
        "#FFFFFF",
        "#D5D8A8",
        individual.green_stem,
        outer=1.15,
        cap=58,
    )
