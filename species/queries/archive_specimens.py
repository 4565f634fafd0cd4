"""The specimens of the bank as an archive says them: for everybody, or for the school itself."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from django.db.models import Q

from species.models import Determination, Locality, Photo, PhotoRendition, Region, Specimen
from species.queries.archive_people import has_agreed, id_of, name_of
from species.queries.archive_taxa import named_species
from species.rules.darwin.facts import OpinionFacts, PictureFacts, PlaceFacts, RegionFacts, SpecimenFacts
from species.rules.darwin.places import blurred
from species.rules.darwin.words import licence_address
from species.rules.vocabulary import Settlement, Stage, Use

PLACE_WITHHELD = "Place withheld"
"""How the name of a place begins that came in without one, being kept back: it is kept back again."""
PLACE_UNKNOWN = "Place not recorded"


@dataclass(frozen=True)
class Scope:
    """What goes out. `is_own`: for the school itself, with exact places, all names and notes.

    `with_assessment` asks for `is_own`: what serves for tests is never public. `agreed`: the ids of those who
    agreed to be named. ValueError for a public archive of what serves for tests.
    """

    is_own: bool = False
    with_pictures: bool = False
    with_assessment: bool = False
    agreed: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if self.with_assessment and not self.is_own:
            raise ValueError("What serves for tests is never public.")


@dataclass(frozen=True)
class ToArchive:
    """The specimens, the files of their pictures by path, and how much was left out and why."""

    specimens: tuple[SpecimenFacts, ...]
    files: dict[str, PhotoRendition] = field(default_factory=dict)
    drawn: int = 0
    without_licence: int = 0


def specimens_to_archive(scope: Scope) -> ToArchive:
    """What goes out; a constant number of queries. Drawings never do: a drawing is no observation."""
    bank = Specimen.objects.in_the_bank()
    if not scope.with_assessment:
        bank = bank.for_teaching()
    rows = list(
        bank.photographed()
        .select_related("individual__locality", "species")
        .prefetch_related(
            "determinations__species",
            "determinations__determiner",
            "determinations__link",
            "photos__renditions",
            "photos__regions__character",
            "photos__regions__state",
        )
        .order_by("key")
    )
    collector = _Collector(scope, rows)
    specimens = tuple(collector.specimen(row) for row in rows)
    return ToArchive(specimens, collector.files, bank.drawn().count(), collector.without_licence)


def places_at_risk() -> frozenset[int]:
    """The localities of which nothing exact is ever said: somebody saw a plant there whose places are blurred."""
    at_risk = Q(species__place_is_blurred=True) | Q(determinations__species__place_is_blurred=True)
    return frozenset(Specimen.objects.filter(at_risk).values_list("individual__locality", flat=True))


class _Collector:
    def __init__(self, scope: Scope, rows: Iterable[Specimen]) -> None:
        self.scope, self.at_risk = scope, places_at_risk()
        self.files: dict[str, PhotoRendition] = {}
        self.without_licence = 0
        self.plants: dict[int, str] = {}
        for row in sorted(rows, key=lambda each: (each.seen_on, each.key)):
            self.plants.setdefault(row.individual_id, f"plant-{row.key}")

    def specimen(self, row: Specimen) -> SpecimenFacts:
        own = self.scope.is_own
        pictures = [self._picture(photo) for photo in row.photos.all()]
        return SpecimenFacts(
            key=row.key,
            plant=self.plants[row.individual_id],
            seen_on=row.seen_on,
            stage=Stage(row.stage) if row.stage else None,
            species=named_species(row.species) if row.species else None,
            settlement=Settlement(row.settlement),
            place=self._place(row.individual.locality),
            form=row.form,
            opinions=tuple(self._opinion(each) for each in row.determinations.all()),
            pictures=tuple(each for each in pictures if each),
            note=row.note if own else "",
            use=Use(row.use) if own and row.use else None,
            plant_label=row.individual.label if own else "",
        )

    def _place(self, place: Locality) -> PlaceFacts:
        name = "" if place.name.startswith(PLACE_UNKNOWN) else place.name
        latitude, longitude = place.latitude, place.longitude
        if self.scope.is_own:
            return PlaceFacts(
                name,
                None if latitude is None else float(latitude),
                None if longitude is None else float(longitude),
                habitat=place.habitat,
                days_late=place.days_late,
            )
        withheld = place.pk in self.at_risk or name.startswith(PLACE_WITHHELD)
        shown = PlaceFacts(is_withheld=True) if withheld else PlaceFacts(name, habitat=place.habitat)
        if latitude is None or longitude is None:
            return shown
        km = max(place.blurred_to_km, 1)
        cell = blurred(float(latitude), float(longitude), km)
        return PlaceFacts(
            shown.name, cell.latitude, cell.longitude, cell.within_m, km, shown.is_withheld, shown.habitat
        )

    def _opinion(self, row: Determination) -> OpinionFacts:
        named = self.scope.is_own or has_agreed(row, self.scope.agreed)
        return OpinionFacts(
            by_id=id_of(row),
            by=name_of(row) if named else "",
            at=row.determined_at,
            said=row.said,
            species=named_species(row.species) if row.species else None,
            characters=row.characters,
        )

    def _picture(self, photo: Photo) -> PictureFacts | None:
        """A picture; None where nobody says whose it is, or where its licence keeps it in the school."""
        owner = photo.rights_holder or photo.photographer
        may_go = self.scope.is_own or licence_address(photo.licence)
        if not (owner and photo.licence and may_go):
            self.without_licence += 1
            return None
        best = self._best_file(photo)
        path = f"pictures/{photo.key}.jpg" if best else ""
        if best:
            self.files[path] = best
        return PictureFacts(
            id=photo.key,
            owner=owner,
            photographer=photo.photographer,
            licence=photo.licence,
            part=photo.part,
            caption=photo.caption,
            alt_blind=photo.alt_blind,
            alt_full=photo.alt_full,
            taken_at=photo.taken_at,
            path=path,
            media_type=best.media_type if best else "",
            regions=tuple(_region(each) for each in photo.regions.all()),
        )

    def _best_file(self, photo: Photo) -> PhotoRendition | None:
        if not self.scope.with_pictures:
            return None
        files = [each for each in photo.renditions.all() if each.media_type == "image/jpeg"]
        return max(files, key=lambda each: each.width, default=None)


def _region(row: Region) -> RegionFacts:
    return RegionFacts(row.frame, row.character.key, row.state.key if row.state else "")
