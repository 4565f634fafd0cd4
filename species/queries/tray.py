"""What came in and is not sorted yet, and which of it looks like one plant."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.utils import timezone

from species.models import Individual, Photo, Specimen
from species.queries.pictures import Picture, picture_of
from species.rules.grouping import SPOT_METRES, Shot, Spot, grouped, metres_between
from species.rules.likeness import from_text

LOOKED_AT = 300
"""How many pictures are compared with each other at once, the oldest first; the rest waits for the next look."""
_NEARBY_DEGREES = Decimal("0.0005")


@dataclass(frozen=True)
class Tile:
    """One picture of the tray with its key."""

    key: str
    picture: Picture


@dataclass(frozen=True)
class TrayGroup:
    """One specimen in the tray, its number on the page, and its pictures."""

    number: int
    specimen: Specimen
    tiles: tuple[Tile, ...]


@dataclass(frozen=True)
class Proposal:
    """Groups of the tray that look like one plant; `keys` as the page sends them back."""

    groups: tuple[TrayGroup, ...]

    @property
    def keys(self) -> str:
        return ",".join(group.specimen.key for group in self.groups)

    @property
    def numbers(self) -> str:
        return ", ".join(str(group.number) for group in self.groups)


def tray_groups() -> list[TrayGroup]:
    """Everything in the tray in the order in which it was photographed; four queries."""
    rows = Specimen.objects.in_the_tray().select_related("species", "individual__locality")
    rows = rows.prefetch_related("photos__renditions").order_by("seen_on", "pk")
    return [TrayGroup(number, row, tiles_of(row)) for number, row in enumerate(rows, start=1)]


def tiles_of(specimen: Specimen) -> tuple[Tile, ...]:
    """The pictures of a specimen that was read with its photographs."""
    photos = [photo for photo in specimen.photos.all() if photo.renditions.all()]
    return tuple(Tile(photo.key, picture_of(photo, blind=True)) for photo in photos)


def proposals_for(groups: Iterable[TrayGroup]) -> list[Proposal]:
    """Which of these look like one plant; reads what is there already. What somebody moved by hand is left alone."""
    open_groups = [group for group in groups if not any(photo.placed_by_hand for photo in group.specimen.photos.all())]
    photos = [(photo, group.number) for group in open_groups for photo in group.specimen.photos.all()][:LOOKED_AT]
    number_of = {photo.key: number for photo, number in photos}
    heads: dict[int, set[int]] = {group.number: {group.number} for group in open_groups}
    for together in grouped([_shot(photo) for photo, _number in photos]).groups:
        numbers = {number_of[key] for key in together}
        joined = set().union(*(heads[number] for number in numbers))
        for number in joined:
            heads[number] = joined
    by_number = {group.number: group for group in open_groups}
    found = {tuple(sorted(numbers)) for numbers in heads.values() if len(numbers) > 1}
    return [Proposal(tuple(by_number[number] for number in numbers)) for numbers in sorted(found)]


def _shot(photo: Photo) -> Shot:
    taken = timezone.localtime(photo.taken_at).replace(tzinfo=None) if photo.taken_at else None
    likeness = from_text(photo.likeness) if photo.likeness else None
    return Shot(photo.key, taken, photo.camera, _spot(photo), likeness)


def _spot(photo: Photo) -> Spot | None:
    if photo.latitude is None or photo.longitude is None:
        return None
    return Spot(float(photo.latitude), float(photo.longitude))


@dataclass(frozen=True)
class MetBefore:
    """A plant that was photographed at the same spot on another day."""

    individual: Individual
    day: date
    stage: str


def met_before(specimen: Specimen) -> list[MetBefore]:
    """Plants that stand where this one stands and were met on another day, the latest first; one query.

    Asks only when a picture of the specimen says where it was taken.
    """
    spots = [(photo, spot) for photo in specimen.photos.all() if (spot := _spot(photo))]
    if not spots:
        return []
    photo, here = spots[0]
    assert photo.latitude is not None
    assert photo.longitude is not None
    near = Photo.objects.filter(
        latitude__range=(photo.latitude - _NEARBY_DEGREES, photo.latitude + _NEARBY_DEGREES),
        longitude__range=(photo.longitude - 2 * _NEARBY_DEGREES, photo.longitude + 2 * _NEARBY_DEGREES),
    ).exclude(specimen__seen_on=specimen.seen_on)
    near = near.exclude(specimen=specimen).select_related("specimen__individual__locality")
    found: dict[int, MetBefore] = {}
    for other in near.order_by("-specimen__seen_on"):
        spot, row = _spot(other), other.specimen
        if spot and metres_between(here, spot) <= SPOT_METRES:
            found.setdefault(row.individual_id, MetBefore(row.individual, row.seen_on, row.get_stage_display()))
    return list(found.values())
