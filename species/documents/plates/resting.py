"""A plant in its resting season: the root with the stumps of old leaf stalks and buds, nothing green above."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from species.documents.plates.compound import TENTHS, line_path, outline_path
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix
from species.documents.plates.roots import YELLOW, draw_root, pale_skin
from species.documents.plates.svg import Point, Sheet
from species.documents.plates.tube import StemLook, Tube, draw_tube, tube
from species.documents.plates.unreliable import stream


@dataclass(frozen=True)
class Rest:
    """The resting root: its state, and how a cut through it looks.

    `cut` is a state of the character root_cut where the table keeps one for the species. `stumps` of old leaf
    stalks stand on it, `fingers` lie side by side in the cut, `core` is a ring in it, `skin` its colour if not pale.
    """

    state: str
    features: tuple[str, ...]
    cut: str = ""
    fingers: bool = False
    core: bool = False
    stumps: bool = True
    skin: str = ""


def resting_plate(individual: Individual, root: Callable[[Sheet, Individual], None], rest: Rest) -> Drawing:
    """Draw the root and what is left above it; the lens shows skin, the section the cut root."""
    sheet = Sheet()
    root(sheet, individual)
    if rest.stumps:
        _stumps(sheet, individual)
    return rooted(sheet, individual, rest, (10.0, 46.0), (6.0, 130.0))


def rooted(sheet: Sheet, individual: Individual, rest: Rest, skin_at: Point, cut_at: Point) -> Drawing:
    """A drawn root with its two insets, its skin and a cut through it, and its record."""
    skin, cut = sheet.layer(), sheet.layer()
    _skin_lens(skin, individual, rest.skin or pale_skin(individual))
    _root_section(cut, individual, rest)
    insets = (Inset(skin, skin_at), Inset(cut, cut_at, ("root_cut",)))
    characters = {"root_type": rest.state} if rest.state else {}
    if rest.cut:
        characters["root_cut"] = rest.cut
    return Drawing(sheet, characters, insets, False, rest.features)


def _stumps(sheet: Sheet, individual: Individual) -> None:
    """Withered bases of leaf stalks and the buds between them."""
    random = stream(individual)
    dry = StemLook("hairless", "plain", "ridged", "hollow", mix("#B79B6A", individual.green_stem, 0.15), ridges=12)
    for heading in np.linspace(-34, 34, individual.count(3, 5)).tolist():
        turn = np.radians(-90 + heading + individual.between(-6, 6))
        reach = individual.between(48, 120)
        foot = (heading * 0.45, 4.0)
        end = (foot[0] + float(np.cos(turn)) * reach, foot[1] + float(np.sin(turn)) * reach)
        stump = tube(foot, end, heading * 0.2, individual.between(15, 21), 11, 8)
        draw_tube(sheet, stump, dry, random)
        _torn_end(sheet, stump, random)
    for _ in range(individual.count(1, 3)):
        x = individual.between(-24, 24)
        bud = tube((x, 6.0), (x * 1.25, individual.between(-34, -22)), 2.0, 17, 3, 8)
        draw_tube(sheet, bud, StemLook("hairless", "plain", "round_smooth", "solid", "#D9DDB0"), random)


def _torn_end(sheet: Sheet, stump: Tube, random: np.random.RandomState) -> None:
    (x, y), heading = stump.place(1.0)
    turns = np.radians(heading + 50 * (random.random_sample(7) - 0.5))
    base = np.stack([x + (random.random_sample(7) - 0.5) * 10, np.full(7, y)], axis=-1)
    tip = base + np.stack([np.cos(turns), np.sin(turns)], axis=-1) * (6 + 16 * random.random_sample(7))[:, None]
    sheet.path(line_path(np.stack([base, tip], axis=1)), stroke=mix(INK, "#8A6C3C", 0.4), width=16, transform=TENTHS)


def _skin_lens(sheet: Sheet, individual: Individual, colour: str) -> None:
    """The skin of the root, much enlarged: wrinkles and scars of side roots."""
    random = stream(individual)
    spine = np.stack([np.linspace(-26, 20, 16), np.linspace(-130, 130, 16)], axis=-1)
    draw_root(sheet, Tube(spine, np.linspace(128, 112, 16)), colour, random, 60)


def _root_section(sheet: Sheet, individual: Individual, rest: Rest) -> None:
    """A root cut across: white; with a core ring, and with yellow drops where they showed."""
    random = np.random.RandomState(individual.rng.getrandbits(30))
    places = [(-34.0, -22.0, 40.0), (42.0, -30.0, 36.0), (4.0, 48.0, 38.0)] if rest.fingers else [(0.0, 0.0, 74.0)]
    for x, y, radius in places:
        turn = np.linspace(0, 2 * np.pi, 40, endpoint=False)
        edge = radius * (1 + 0.03 * np.sin(3 * turn + x) + 0.02 * np.sin(5 * turn))
        ring = np.stack([np.cos(turn), np.sin(turn)], axis=-1) * edge[:, None]
        sheet.path(outline_path((ring + (x, y))[None]), rest.skin or pale_skin(individual), INK, 22, transform=TENTHS)
        sheet.path(outline_path((ring * 0.9 + (x, y))[None]), "#FCF9EF", "#B9A77C", 9, transform=TENTHS)
        if rest.core:
            sheet.path(outline_path((ring * 0.46 + (x, y))[None]), "#F6EFD6", "#8A7448", 15, transform=TENTHS)
        spokes = np.stack([np.stack([ring[::4] * s + (x, y) for s in (0.56, 0.82)], axis=1)])[0]
        sheet.path(line_path(spokes), stroke="#CDBD92", width=9, transform=TENTHS)
        if rest.cut == "yellow_stain":
            for angle, out in zip(random.random_sample(5) * 6.28, 0.3 + 0.45 * random.random_sample(5), strict=True):
                sheet.disc(
                    x + np.cos(angle) * radius * out,
                    y + np.sin(angle) * radius * out,
                    radius * 0.11,
                    YELLOW,
                    "#8A6414",
                    1.2,
                )
