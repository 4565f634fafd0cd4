"""Drawing regions on a photograph, and rubbing them out."""

from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction

from species.models import Character, CharacterState, Photo, Region
from species.rules.regions import Frame, Shape, Slip, slip_of


class RegionRefusal(Exception):
    """The region cannot be drawn so."""

    def __init__(self, slip: Slip) -> None:
        super().__init__(slip.value)
        self.slip = slip


def draw_region(
    photo: Photo,
    frame: Frame,
    character: Character,
    state: CharacterState | None = None,
    *,
    by: User | None,
    now: datetime,
) -> Region:
    """Draw a region; the same one again changes nothing. Raises RegionRefusal.

    Raises ValueError for a state of another character, which no page offers.
    """
    if slip := slip_of(frame):
        raise RegionRefusal(slip)
    if state is not None and state.character_id != character.pk:
        raise ValueError(f"{state} is no state of {character}")
    is_circle = frame.shape is Shape.CIRCLE
    with transaction.atomic():
        row, _made = Region.objects.get_or_create(
            photo=photo,
            character=character,
            state=state,
            x=_fraction(frame.x),
            y=_fraction(frame.y),
            width=None if is_circle else min(_fraction(frame.width), 1 - _fraction(frame.x)),
            height=None if is_circle else min(_fraction(frame.height), 1 - _fraction(frame.y)),
            radius=_fraction(frame.radius) if is_circle else None,
            defaults={"drawn_by": by, "drawn_at": now},
        )
        return row


def rub_out_region(photo: Photo, pk: int) -> bool:
    """Remove a region of this photograph; whether there was one."""
    deleted, _by_model = Region.objects.filter(photo=photo, pk=pk).delete()
    return bool(deleted)


def _fraction(value: float) -> Decimal:
    return Decimal(str(round(value, 4)))
