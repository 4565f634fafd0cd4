"""Regions of photographs as pages draw them: where a character can be seen."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass

from species.models import Region
from species.rules.regions import Frame, Pixels, Shape, in_pixels


@dataclass(frozen=True)
class RegionShown:
    """One region of a photograph.

    `frame` is in fractions of the picture, `pixels` on the picture as it was taken, for an SVG whose viewBox has
    that size; `label_x`, `label_y` are where its number stands, and `number` counts from 1 within the photograph.
    """

    pk: int
    number: int
    character_key: str
    character: str
    state_key: str
    state: str
    frame: Frame
    pixels: Pixels

    @property
    def is_circle(self) -> bool:
        return self.frame.shape is Shape.CIRCLE

    @property
    def label_x(self) -> int:
        return self.pixels.x + self.pixels.width // 2

    @property
    def label_y(self) -> int:
        return self.pixels.y + self.pixels.height // 2


def regions_of(photo_ids: Collection[int]) -> dict[int, list[RegionShown]]:
    """The regions of these photographs, in the order in which they were drawn; one query, however many.

    A photograph without regions has an empty list.
    """
    rows = Region.objects.filter(photo__in=photo_ids).select_related("photo", "character", "state").order_by("pk")
    found: dict[int, list[RegionShown]] = defaultdict(list, {pk: [] for pk in photo_ids})
    for row in rows:
        found[row.photo_id].append(_shown(row, len(found[row.photo_id]) + 1))
    return found


def _shown(row: Region, number: int) -> RegionShown:
    return RegionShown(
        row.pk,
        number,
        row.character.key,
        row.character.name,
        row.state.key if row.state else "",
        row.state.text if row.state else "",
        row.frame,
        in_pixels(row.frame, row.photo.width, row.photo.height),
    )
