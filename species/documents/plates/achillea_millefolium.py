"""Yarrow: long narrow feather leaves with silky hairs, flat clusters of small heads with about five rays each."""

from dataclasses import replace

import numpy as np

from species.documents.plates.carrot_family import carrot_family_plate
from species.documents.plates.compound import TENTHS, Numbers, Order, grown, line_path, one_frame, outline_path
from species.documents.plates.foliage import Blade
from species.documents.plates.frame import Drawing
from species.documents.plates.fruits import laid
from species.documents.plates.habit import Build, Crown, HeadLens
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.looks import leaf_stalk, ridged_stem
from species.documents.plates.seedling import SeedLeaves
from species.documents.plates.segments import thread
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import Tube
from species.documents.plates.umbel_look import UmbelLook
from species.documents.plates.underground import runner
from species.documents.plates.unreliable import stream

NAME = "yarrow (Achillea millefolium)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "pink", "flushed", "dug")
RAY = np.array(
    [
        (0.25, 0.1),
        (0.5, 0.46),
        (0.88, 0.5),
        (0.98, 0.28),
        (0.92, 0.16),
        (1.02, 0.0),
        (0.92, -0.16),
        (0.98, -0.28),
        (0.88, -0.5),
        (0.5, -0.46),
        (0.25, -0.1),
    ]
)


def draw(individual: Individual) -> Drawing:
    """One yarrow."""
    hairs = "sparse" if individual.chance(0.2) else "downy"
    pink = individual.form == "pink" or individual.chance(0.2)
    stem = ridged_stem(individual, hairs, "solid", 12)
    stalk = leaf_stalk(individual, replace(stem, flush=0.0), hairs)
    petal = "#E3B7C4" if pink else "#FFFFFF"
    build = Build(
        stem,
        stalk,
        None,
        _blade,
        _no_umbel(individual, petal),
        _root,
        slender=0.55,
        stalk_ratio=0.22,
        upper_stalk=0.02,
        upper_blade=0.8,
        branches=2,
        crown=_crown_of(petal),
        head_lens=_dry_head_lens if individual.stage == "fruit" else _head_lens_of(petal),
        seed_leaves=SeedLeaves(ratio=1.8, a=1.2, b=0.7, stalk=0.3),
    )
    characters = {
        "leaf_division": "pinnate_2_4",
        "compound_outline": "narrow_feather",
        "segment_shape": "thread_linear",
    }
    if individual.stage == "flower":
        characters |= {"flower_colour": "pink_purple" if pink else "white", "petals": "strap"}
    features = (
        "long narrow feathers",
        "silky hairs",
        {"flower": "small heads with about five rays", "fruit": "small brown dry heads"}.get(
            individual.stage, "hair-fine segments"
        ),
    )
    drawing = carrot_family_plate(individual, build, characters, "creeping_rhizome", features)
    return _as_composite(drawing)


def _as_composite(drawing: Drawing) -> Drawing:
    """Yarrow has no umbel: put right what the common frame of the plates wrote for one."""
    own = {
        name: state
        for name, state in drawing.characters.items()
        if name not in ("bracts", "bracteoles", "umbel_rays", "umbel_fruit", "fruit_type")
    }
    if "inflorescence" in own:
        own["inflorescence"] = "corymb_heads"
    return Drawing(drawing.sheet, own, drawing.insets, drawing.ground, drawing.features)


def _no_umbel(individual: Individual, petal: str) -> UmbelLook:
    return UmbelLook(5, 5, "none", "none", "oval_slender", petal, "#E9E2C6", individual.green_stem)


def _blade(length: float, rank: int, bend: float, random: np.random.RandomState) -> Blade:
    """Many short pairs, each cut into threads that stand out in all directions."""
    pairs = 19 if rank == 0 else max(9, 16 - 2 * rank)
    orders = (Order(pairs, 0.1, 56, 0.4, 0.03, 1.1, bulge=0.5), Order(2, 0.62, 44, 0.2, 0.3, 1.0))
    division = grown(one_frame(0, 0, 0, length * 1.15, bend), orders, thread(), (15,), random, 2.0)
    return Blade(division, 2.6, 1.5, hair_length=7.0, hairs_per_axis=16 if rank == 0 else 9, ink=0.3)


def _crown_of(petal: str) -> Crown:
    def crown(sheet: Sheet, individual: Individual, stem: Tube, radius: float, fruiting: bool, share: float) -> Point:
        """A flat cluster: forking branches leave the stem one above the other and all end at one height."""
        random = stream(individual)
        (x, y), _ = stem.place(1.0)
        level = y - radius * 0.42
        places, lines = [], []
        count = 7 if share == 1.0 else 5
        for i in range(count):
            side = -1.0 if i % 2 else 1.0
            start, _ = stem.place(1.0 - 0.3 * (1 - i / (count - 1)) * share)
            out = side * radius * (1.0 - 0.92 * i / (count - 1)) * individual.near(1.0, 0.1)
            fork = np.array([x + out * 0.78, level + radius * 0.34])
            lines.append([start, (start[0] + out * 0.5, (start[1] + float(fork[1])) / 2 + radius * 0.1), fork])
            for spot in np.linspace(-1, 1, 5):
                place = np.array(
                    [
                        x + out + spot * radius * 0.24,
                        level + radius * 0.17 * (random.random_sample() - 0.5) + 0.05 * abs(out),
                    ]
                )
                places.append(place)
                lines.append([fork, (fork + place) / 2 + (spot * 4, 0), place + (0, 8)])
        d = line_path(_softened(np.array(lines)))
        sheet.path(d, stroke=INK, width=40, transform=TENTHS)
        sheet.path(d, stroke=individual.green_stem, width=25, transform=TENTHS)
        for place in sorted(places, key=lambda p: float(p[1])):
            size = 16.0 * (0.85 + 0.3 * random.random_sample())
            if fruiting:
                _dry_head(sheet, place, size)
            else:
                _small_head(sheet, place, size, petal, random)
        sheet.reach([(x - radius * 1.3, level - 20), (x + radius * 1.3, y)])
        return (x + radius * 0.5, level)

    return crown


def _softened(lines: Numbers) -> Numbers:
    """Lines of three points made into soft curves that start and end where they did."""
    t = np.linspace(0, 1, 9)[None, :, None]
    a, b, c = (lines[:, i : i + 1, :] for i in range(3))
    return a * (1 - t) ** 2 + 2 * b * t * (1 - t) + c * t * t


def _small_head(sheet: Sheet, place: Numbers, size: float, petal: str, random: np.random.RandomState) -> None:
    """One head seen from above at a slant: cup of bracts, rays, disc."""
    x, y = place.tolist()
    cup = np.array([(-0.42, 0.15), (-0.3, 1.15), (0.3, 1.15), (0.42, 0.15)]) * size + (x, y)
    sheet.path(outline_path(cup[None]), "#8DA066", INK, 8, transform=TENTHS)
    count = 4 + int(random.random_sample() * 2.4)
    turns = np.arange(count) * 2 * np.pi / count + random.random_sample() * 6.28
    rays = laid(RAY, np.zeros((count, 2)), turns, size, size * 0.86) * (1, 0.68) + (x, y)
    sheet.path(outline_path(rays), petal, INK, 6.5, transform=TENTHS)
    sheet.oval(x, y - size * 0.05, size * 0.4, size * 0.28, 0, "#E9E2C6", mix(INK, "#B79A5A", 0.4), 0.7)


def _dry_head(sheet: Sheet, place: Numbers, size: float) -> None:
    """One head in fruit: the rays fallen, the brown cup full of flat nutlets."""
    x, y = place.tolist()
    cup = np.array([(-0.4, -0.1), (-0.46, 0.5), (-0.24, 1.15), (0.24, 1.15), (0.46, 0.5), (0.4, -0.1)]) * size + (x, y)
    sheet.path(outline_path(cup[None]), "#A08A58", INK, 9, transform=TENTHS)
    sheet.oval(x, y - size * 0.08, size * 0.4, size * 0.24, 0, "#7A6238", INK, 0.8)


def _dry_head_lens(sheet: Sheet, individual: Individual) -> None:
    """One head in fruit much enlarged: overlapping brown bracts round a tuft of flat nutlets."""
    nutlets = np.stack([np.linspace(-34, 34, 8), np.full(8, -26.0)], axis=-1)
    turns = np.radians(np.linspace(-118, -62, 8) + individual.between(-3, 3))
    shape = np.array([(0.0, 0.1), (0.5, 0.3), (1.0, 0.24), (1.0, -0.24), (0.5, -0.3), (0.0, -0.1)])
    sheet.path(outline_path(laid(shape, nutlets, turns, 46.0, 30.0)), "#8C8468", INK, 14, transform=TENTHS)
    for row, (low, count) in enumerate(((-30.0, 5), (2.0, 5), (34.0, 3))):
        feet = np.stack([np.linspace(-44, 44, count), np.full(count, low + 44.0)], axis=-1)
        leaf = np.array([(0.0, 0.3), (0.6, 0.46), (1.0, 0.0), (0.6, -0.46), (0.0, -0.3)])
        d = outline_path(laid(leaf, feet, np.radians(np.linspace(-104, -76, count)), 62.0 - 6 * row, 38.0))
        sheet.path(d, mix("#B7A674", "#8C7A48", row / 2), INK, 15, transform=TENTHS)
    sheet.line([(0.0, 112.0), (0.0, 74.0)], individual.green_stem, 16)


def _head_lens_of(petal: str) -> HeadLens:
    def head_lens(sheet: Sheet, individual: Individual) -> None:
        """One head much enlarged from above: five broad three-toothed rays about a disc."""
        random = stream(individual)
        count = individual.count(4, 6)
        turns = np.arange(count) * 2 * np.pi / count + random.random_sample() * 6.28
        rays = laid(RAY, np.zeros((count, 2)), turns, 84.0, 300.0 / count)
        sheet.path(outline_path(rays + (2.5, 3.5)), "#8E9D7E", opacity=0.45, transform=TENTHS)
        sheet.path(outline_path(rays), petal, INK, 15, transform=TENTHS)
        folds = [
            laid(np.array([(0.4, s), (0.86, s * 1.3)]), np.zeros((count, 2)), turns, 84.0, 300.0 / count)
            for s in (-0.13, 0.13)
        ]
        sheet.path(line_path(np.concatenate(folds)), stroke=INK, width=7, opacity=0.6, transform=TENTHS)
        sheet.disc(0, 0, 33, "#E9E2C6", INK, 1.6)
        for i in range(19):
            out, turn = 27 * ((i + 0.5) / 19) ** 0.5, i * 2.39996
            sheet.disc(float(np.cos(turn)) * out, float(np.sin(turn)) * out, 5.0, "#F3EBC2", "#9A8148", 1.0)

    return head_lens


def _root(sheet: Sheet, individual: Individual, share: float) -> None:
    runner(sheet, individual, 230 * share, 15 * share)
