"""Drawing many plates at once, on every core, through the same road that a camera's photograph takes."""

import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_context

from species.documents.pictures import Picture, read_picture
from species.documents.plates.catalogue import Plate, draw_plate
from species.documents.plates.raster import rasterise
from species.rules.regions import Frame

# as wide as a phone of 390 pixels shows it; rendering sets the time of the first start, and costs with every pixel
WIDTHS = (360,)
AT_ONCE = 4


@dataclass(frozen=True)
class Commission:
    """What is to be drawn, and for which specimen."""

    specimen: int
    species: str
    stage: str
    seed: int
    form: str


@dataclass(frozen=True)
class Shown:
    """A character that a drawing shows, in which state, and the box where it is best seen."""

    character: str
    state: str
    frame: Frame


@dataclass(frozen=True)
class Finished:
    """A drawing as it is stored."""

    specimen: int
    picture: Picture
    alt_blind: str
    alt_full: str
    shown: tuple[Shown, ...] = ()


def draw(commission: Commission) -> Finished:
    """Draw one plate and make the sizes that are served."""
    plate = draw_plate(commission.species, commission.stage, commission.seed, commission.form)
    picture = read_picture(rasterise(plate.svg, max(WIDTHS)), WIDTHS, with_webp=False)
    return Finished(commission.specimen, picture, plate.alt_blind, plate.alt_full, shown_on(plate))


def shown_on(plate: Plate) -> tuple[Shown, ...]:
    """One box for each character: the first is the enlarged detail, where there is one."""
    return tuple(
        Shown(character, plate.characters[character], Frame(box.x, box.y, box.width, box.height))
        for character, boxes in plate.regions.items()
        for box in boxes[:1]
    )


@contextmanager
def drawing(commissions: Sequence[Commission]) -> Iterator[Iterator[Finished]]:
    """Begin every drawing at once, on every core, and hand them over in order while other work goes on.

    What is not drawn yet is dropped when the work around it fails.
    """
    cores = os.cpu_count() or 1
    # spawned, not forked: a fork of a process with threads (the database, numpy) may never wake up
    with ProcessPoolExecutor(max_workers=cores, mp_context=get_context("spawn")) as pool:
        try:
            yield pool.map(draw, commissions, chunksize=AT_ONCE)
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise
