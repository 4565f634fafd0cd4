"""The part of a teaching picture on which a character can be seen, cut out by the page itself."""

from collections.abc import Collection
from dataclasses import dataclass

from django.urls import reverse

from species.models import Region
from species.rules.cropping import square_around
from species.rules.vocabulary import Use

SHARP_SIDE = 320
"""Pixels across below which a crop looks coarse on a phone: the smallest file that has them is sent (a choice)."""


@dataclass(frozen=True)
class Crop:
    """A part of a picture for an SVG: where the picture is, its size in px, and the part as a view box."""

    src: str
    width: int
    height: int
    view_box: str
    state: str
    drawn: bool


Crops = dict[tuple[int, str], dict[str, Crop]]
"""By species and stage: the crop of each character, by its key."""


def teaching_crops(species_ids: Collection[int]) -> Crops:
    """The crops of these species, the first for each character; at most two queries, however many."""
    rows = (
        Region.objects.filter(
            photo__specimen__species__in=species_ids,
            photo__specimen__use=Use.TEACHING,
            photo__specimen__retired_on__isnull=True,
        )
        .select_related("photo__specimen", "character", "state")
        .prefetch_related("photo__renditions")
        .order_by("photo__specimen_id", "photo__order", "pk")
    )
    found: Crops = {}
    for row in rows:
        crop = _crop(row)
        specimen = row.photo.specimen
        if crop is not None and specimen.species_id is not None:
            found.setdefault((specimen.species_id, specimen.stage), {}).setdefault(row.character.key, crop)
    return found


def _crop(row: Region) -> Crop | None:
    jpegs = [each for each in row.photo.renditions.all() if each.media_type == "image/jpeg"]
    if not jpegs:
        return None
    cuts = [(each, square_around(row.frame, each.width, each.height)) for each in jpegs]
    file, (x, y, side) = next((cut for cut in cuts if cut[1][2] >= SHARP_SIDE), cuts[-1])
    return Crop(
        src=reverse("species:photo", args=[row.photo.key, file.width]),
        width=file.width,
        height=file.height,
        view_box=f"{x} {y} {side} {side}",
        state=row.state.text if row.state else "",
        drawn=row.photo.specimen.is_drawn,
    )
