"""From the parts of one individual to the finished drawing with its insets and its record of characters."""

from dataclasses import replace

import numpy as np

from species.documents.plates.closeup import hair_lens, section_inset
from species.documents.plates.compound import swollen
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.habit import Build, Marks, draw_leaf, draw_rosette
from species.documents.plates.individual import Individual
from species.documents.plates.regions import CUT_ACROSS, HEAD, STEM_AND_STALK
from species.documents.plates.seedling import Sprout, seedling_plate
from species.documents.plates.standing import draw_heads, draw_leafy
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.umbellet import flower_lens, fruit_lens
from species.documents.plates.unreliable import is_dug

STALK_HAIRS = {"hairless": "hairless", "sparse": "sparse", "downy": "soft_downy", "bristly": "bristly_rough"}


def carrot_family_plate(
    individual: Individual,
    build: Build,
    characters: dict[str, str],
    root_state: str,
    features: tuple[str, ...],
) -> Drawing:
    """Draw one individual of the family in its stage.

    `characters` holds the leaf characters of the species module; those that follow from `build` are added here.
    """
    if individual.stage == "seedling":
        return family_seedling(individual, build, features[:1])
    sheet, stage = Sheet(), individual.stage
    dug = is_dug(individual)
    if dug:
        build.root(sheet, individual, 1.0 if stage == "rosette" else 0.8)
    if stage == "rosette":
        marks = draw_rosette(sheet, individual, build)
    elif stage == "leafy":
        marks = draw_leafy(sheet, individual, build)
    else:
        marks = draw_heads(sheet, individual, build, stage == "fruit")
    found = characters | ({"root_type": root_state} if dug else {})
    return family_drawing(individual, build, sheet, marks, found, features)


FIRST_LEAF = 0.34  # a first leaf is divided as a stem leaf of this share of its length


def family_seedling(individual: Individual, build: Build, features: tuple[str, ...]) -> Drawing:
    """A seedling of the family: its first leaf is divided less than those to come."""

    def blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
        small = build.blade(length * FIRST_LEAF, build.first_rank, bend, random)
        axes = tuple(swollen(frames, 1 / FIRST_LEAF) for frames in small.division.axes)
        last = swollen(small.division.last, 1 / FIRST_LEAF)
        return replace(small, division=replace(small.division, axes=axes, last=last))

    young = replace(build, blade=blade, sheath=None, ground_scale=1.0)

    def leaf(sheet: Sheet, one: Individual, place: Point, heading: float, length: float) -> Point:
        stalk = draw_leaf(sheet, one, young, place, heading - 90, length * 0.85, 0, narrow=one.between(0.8, 1.0))
        return stalk.place(0.6)[0]

    def lens(inset: Sheet) -> None:
        hair_lens(inset, individual, None, build.stalk)

    return seedling_plate(individual, Sprout(build.seed_leaves, leaf, lens, features=features))


def family_drawing(
    individual: Individual,
    build: Build,
    sheet: Sheet,
    marks: Marks,
    characters: dict[str, str],
    features: tuple[str, ...],
) -> Drawing:
    """Add the insets and the characters that follow from the parts to a plant already drawn."""
    found = characters | _of_build(build, individual.stage)
    return Drawing(sheet, found, _insets(sheet, individual, build, marks), not is_dug(individual), features)


def _insets(sheet: Sheet, individual: Individual, build: Build, marks: Marks) -> tuple[Inset, ...]:
    stage = individual.stage
    stem = None if stage == "rosette" else build.stem
    lens, section = sheet.layer(), sheet.layer()
    hair_lens(lens, individual, stem, build.stalk, build.slender)
    section_inset(section, individual, stem, build.stalk)
    insets = [Inset(lens, marks.lens, STEM_AND_STALK), Inset(section, marks.section, CUT_ACROSS)]
    if stage in ("flower", "fruit"):
        head = sheet.layer()
        if build.head_lens is not None:
            build.head_lens(head, individual)
        else:
            (flower_lens if stage == "flower" else fruit_lens)(head, individual, build.umbel)
        insets.append(Inset(head, marks.head, HEAD))
    return tuple(insets)


def _of_build(build: Build, stage: str) -> dict[str, str]:
    """The states that follow from the parts, at the stages at which the state table looks for them."""
    found = {
        "leaf_hairs": STALK_HAIRS[build.stalk.look.hairs],
        "petiole_section": build.stalk.groove,
        "petiole_marks": build.stalk.look.marks,
    }
    if stage != "rosette":
        found |= {
            "stem_hairs": build.stem.hairs,
            "stem_marks": build.stem.marks,
            "stem_section": build.stem.section,
            "stem_hollow": build.stem.inside,
        }
    if stage in ("flower", "fruit"):
        rays = build.umbel.rays
        found |= {
            "bracts": build.umbel.bracts,
            "bracteoles": build.umbel.bracteoles,
            "umbel_rays": "up_to_12" if rays <= 12 else "12_40" if rays <= 40 else "over_50",
        }
    if stage == "flower":
        found |= {"inflorescence": "compound_umbel"}
    if stage == "fruit":
        found |= {"umbel_fruit": build.umbel.fruit, "fruit_type": "split_pair"}
    return found
