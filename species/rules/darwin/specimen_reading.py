"""The rows of an archive of specimens to specimens, with everything that is wrong with them."""

import hashlib
import re
from base64 import urlsafe_b64encode
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from species.rules.darwin import terms
from species.rules.darwin.cells import Cells, nearest
from species.rules.darwin.facts import NamedSpecies, OpinionFacts, PlaceFacts, SpecimenFacts
from species.rules.darwin.layouts import IDENTIFICATIONS, OCCURRENCES
from species.rules.darwin.names import name_and_author
from species.rules.darwin.picture_reading import PictureReader
from species.rules.darwin.rows import ReadRow
from species.rules.darwin.slips import Notes, Remark, Wrong
from species.rules.darwin.specimen_rows import NAME_WITHHELD
from species.rules.darwin.words import (
    BASES_OF_RECORD,
    LIFE_STAGES,
    REPRODUCTIVE_CONDITIONS,
    UNNAMED_PLANT,
    VERIFICATION,
)
from species.rules.names import squeezed
from species.rules.vocabulary import Settlement, Stage, Use

Rows = Mapping[str, Sequence[ReadRow]]
_KEY = re.compile(r"[A-Za-z0-9_-]{8,32}$")


class KnownPlants:
    """The species of the school by key and by every name."""

    def __init__(self, species: Mapping[str, NamedSpecies], names: Mapping[str, str]) -> None:
        """names: each name as it is written to the key of its species."""
        self.species, self.names = species, names
        self._by_name = {squeezed(name): key for name, key in names.items()}

    def called(self, full: str, key: str = "") -> NamedSpecies | None:
        """The species of this key and name, or of this name; a key whose species bears another name is not believed."""
        name = squeezed(name_and_author(full, "")[0])
        found = self.species.get(self._by_name.get(name, "") or self._by_name.get(squeezed(full), ""))
        return None if key in self.species and found is not None and found.key != key else found


def read_specimens(rows: Rows, known: KnownPlants, notes: Notes, now: datetime) -> tuple[SpecimenFacts, ...]:
    """The specimens of an archive, in the order of its rows; notes gets the problems and the remarks."""
    pictures = PictureReader(rows, notes, now)
    reader = _Reader(rows, known, notes, now)
    found = tuple(reader.specimen(row, pictures) for row in rows.get(terms.OCCURRENCE, ()))
    pictures.note_regions_left()
    return found


class _Reader:
    def __init__(self, rows: Rows, known: KnownPlants, notes: Notes, now: datetime) -> None:
        self.known, self.notes, self.now = known, notes, now
        self.opinions: dict[str, list[ReadRow]] = {}
        for row in rows.get(terms.IDENTIFICATION, ()):
            self.opinions.setdefault(row.core, []).append(row)

    def specimen(self, row: ReadRow, pictures: PictureReader) -> SpecimenFacts:
        cells = Cells(row, OCCURRENCES, self.notes)
        cells.one_of("basisOfRecord", cells.text("basisOfRecord", required=True), BASES_OF_RECORD)
        if status := cells.text("occurrenceStatus"):
            cells.one_of("occurrenceStatus", status, ["present"])
        opinions = tuple(self._opinions(row.core))
        named, settlement = self._named(cells, "scientificName", required=True), _settlement(cells)
        return SpecimenFacts(
            key=_key(cells),
            plant=cells.text("organismID"),
            seen_on=cells.day("eventDate", self.now.date()) or self.now.date(),
            stage=_stage(cells),
            species=named,
            settlement=settlement,
            place=_place(cells),
            form=cells.text("form", 60),
            opinions=opinions or self._only_opinion(cells, named, settlement),
            pictures=pictures.of(row.core),
            note=cells.text("occurrenceRemarks"),
            use=cells.choice("use", Use, required=False),
            plant_label=cells.text("organismLabel", 120),
            row=row.number,
        )

    def _named(self, cells: Cells, column: str, required: bool = False) -> NamedSpecies | None:
        full = cells.text(column, 240, required=required)
        if not full or full == UNNAMED_PLANT:
            return None
        found = self.known.called(full, cells.text("taxonID"))
        if found is None:
            cells.wrong(Wrong.UNKNOWN_NAME, column, value=full, nearest=nearest(full, self.known.names))
        return found

    def _only_opinion(
        self, cells: Cells, named: NamedSpecies | None, settlement: Settlement | None
    ) -> tuple[OpinionFacts, ...]:
        """Where no determinations come along, the name of the find is somebody's: nobody knows whose, and when."""
        if named is None or settlement is Settlement.UNDETERMINED:
            return ()
        at = cells.moment("eventDate", self.now) or self.now
        return (OpinionFacts("", "", at, cells.text("scientificName", 160), named, row=cells.number),)

    def _opinions(self, core: str) -> Iterator[OpinionFacts]:
        for row in self.opinions.get(core, ()):
            cells = Cells(row, IDENTIFICATIONS, self.notes)
            species = self._named(cells, "scientificName")
            said = cells.text("verbatimIdentification", 160) or cells.text("scientificName", 160)
            if not said:
                cells.wrong(Wrong.EMPTY, "verbatimIdentification")
            yield OpinionFacts(
                by_id=cells.text("identifiedByID", 200),
                by=", ".join(cells.several("identifiedBy", 120)),
                at=cells.moment("dateIdentified", self.now, required=True) or self.now,
                said=said,
                species=species,
                characters=cells.text("identificationRemarks"),
                id=cells.text("identificationID"),
                row=row.number,
            )


def _key(cells: Cells) -> str:
    return own_key(cells, "occurrenceID", cells.row.core)


def own_key(cells: Cells, column: str, value: str) -> str:
    """An id that can be a key here as it stands, or one made of it: always the same one, which is remarked."""
    if not value or _KEY.match(value):
        return value
    key = urlsafe_b64encode(hashlib.sha256(value.encode()).digest()[:16]).decode().rstrip("=")
    cells.remark(Remark.OWN_KEY, column, value=value, key=key)
    return key


def _stage(cells: Cells) -> Stage | None:
    """The stage; flower and fruit say more than what the leaves do."""
    found: dict[str, Stage | None] = {}
    tables: tuple[tuple[str, dict[Stage, str]], ...] = (
        ("lifeStage", LIFE_STAGES),
        ("reproductiveCondition", REPRODUCTIVE_CONDITIONS),
    )
    for column, words in tables:
        if value := cells.text(column):
            stage_of = {word: stage for stage, word in words.items()}
            cells.one_of(column, value, list(stage_of))
            found[column] = stage_of.get(value)
    return found.get("reproductiveCondition") or found.get("lifeStage")


def _settlement(cells: Cells) -> Settlement | None:
    value = cells.text("identificationVerificationStatus")
    words = {word: settlement for settlement, word in VERIFICATION.items()}
    if value:
        cells.one_of("identificationVerificationStatus", value, list(words))
    return words.get(value)


def _place(cells: Cells) -> PlaceFacts:
    latitude, longitude = cells.number_in("decimalLatitude", -90, 90), cells.number_in("decimalLongitude", -180, 180)
    if (latitude is None) != (longitude is None):
        cells.wrong(Wrong.EMPTY, "decimalLatitude" if latitude is None else "decimalLongitude")
    if datum := cells.text("geodeticDatum"):
        cells.one_of("geodeticDatum", datum, ["EPSG:4326", "WGS84"])
    withheld = cells.text("informationWithheld")
    return PlaceFacts(
        name=cells.text("locality", 120),
        latitude=latitude,
        longitude=longitude,
        within_m=cells.whole("coordinateUncertaintyInMeters", 1, 20_040_000) or 0,
        km=cells.whole("blurredToKm", 1, 1_000) or 0,
        is_withheld=withheld == NAME_WITHHELD,
        habitat=cells.text("habitat", 200),
        days_late=cells.whole("daysLate", -200, 200),
    )
