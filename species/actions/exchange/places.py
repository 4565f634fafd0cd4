"""The places of an archive: those of the school where they are the same, else new ones."""

from decimal import Decimal

from species.models import Locality
from species.queries.archive_specimens import PLACE_UNKNOWN, PLACE_WITHHELD
from species.rules.darwin.facts import PlaceFacts
from species.rules.darwin.layouts import OCCURRENCES
from species.rules.darwin.places import blurred, in_degrees
from species.rules.darwin.slips import KeptAside, Notes, Remark
from species.rules.darwin.terms import DWC

_WITHIN = DWC + "coordinateUncertaintyInMeters"


class PlacesOfArchive:
    """Finds or makes the locality of each place, once for each."""

    def __init__(self, notes: Notes) -> None:
        self.notes = notes
        self.found: dict[PlaceFacts, Locality] = {}
        self.by_name = {row.name.casefold(): row for row in Locality.objects.all()}

    def locality(self, place: PlaceFacts, row: int) -> Locality:
        """The locality of a place; a stored one of the same name is meant only where it lies there."""
        if place.within_m and not place.km:
            value = str(place.within_m)
            self.notes.aside.append(KeptAside(OCCURRENCES.file, row, "", _WITHIN, value))
        if place not in self.found:
            self.found[place] = self._locality(place, row)
        return self.found[place]

    def _locality(self, place: PlaceFacts, row: int) -> Locality:
        name = place.name or self._made_up(place)
        known = self.by_name.get(name.casefold())
        if known is not None and _lies_there(known, place):
            return known
        if known is not None:
            other = f"{name[:90]} ({_position(place)})"
            self.notes.add(Remark.OTHER_PLACE, OCCURRENCES.file, row, "locality", value=name, other=other)
            name = other
        made = self.by_name.get(name.casefold()) or Locality.objects.create(
            name=name,
            latitude=_decimal(place.latitude),
            longitude=_decimal(place.longitude),
            blurred_to_km=place.km or 1,
            days_late=place.days_late or 0,
            habitat=place.habitat,
        )
        return self.by_name.setdefault(name.casefold(), made)

    def _made_up(self, place: PlaceFacts) -> str:
        if place.is_withheld:
            return f"{PLACE_WITHHELD} ({_position(place)})" if place.latitude is not None else PLACE_WITHHELD
        return PLACE_UNKNOWN if place.latitude is None else f"{PLACE_UNKNOWN} ({_position(place)})"


def _lies_there(known: Locality, place: PlaceFacts) -> bool:
    if known.latitude is None or known.longitude is None or place.latitude is None or place.longitude is None:
        return known.latitude is None and place.latitude is None
    here = float(known.latitude), float(known.longitude)
    if here == (place.latitude, place.longitude):
        return True
    cell = blurred(*here, place.km) if place.km else None
    return cell is not None and (cell.latitude, cell.longitude) == (place.latitude, place.longitude)


def _position(place: PlaceFacts) -> str:
    if place.latitude is None or place.longitude is None:
        return "no position"
    return f"{in_degrees(place.latitude, 5)}, {in_degrees(place.longitude, 5)}"


def _decimal(degrees: float | None) -> Decimal | None:
    return None if degrees is None else Decimal(in_degrees(degrees, 5))
