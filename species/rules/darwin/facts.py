"""What an archive says, as plain values: the same on the way out and on the way in.

`row` is the row in the file that it was read from, 0 on the way out. Empty words mean "not said".
"""

from dataclasses import dataclass, field
from datetime import date, datetime

from species.rules.regions import Frame
from species.rules.vocabulary import Edibility, Settlement, Stage, Use


@dataclass(frozen=True)
class CommonNameFacts:
    name: str
    language: str
    row: int = 0


@dataclass(frozen=True)
class SynonymFacts:
    """Another scientific name; `is_wider`: it covers the species and others."""

    name: str
    is_wider: bool = False
    row: int = 0


@dataclass(frozen=True)
class PartFacts:
    part: str
    months: tuple[int, ...]
    stages: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True)
class ShowingFacts:
    stage: Stage
    months: tuple[int, ...]


@dataclass(frozen=True)
class TaxonFacts:
    """A species. `texts` holds the fields named in `words.DESCRIPTION_TYPES`."""

    key: str
    name: str
    author: str
    family: str
    edibility: Edibility
    aggregate: str = ""
    height_from_cm: int | None = None
    height_to_cm: int | None = None
    moisture: int | None = None
    squares_britain: int | None = None
    squares_ireland: int | None = None
    leafless_stages: tuple[str, ...] = ()
    places_are_blurred: bool = False
    sources: tuple[str, ...] = ()
    hazard_sources: tuple[str, ...] = ()
    texts: dict[str, str] = field(default_factory=dict)
    common_names: tuple[CommonNameFacts, ...] = ()
    synonyms: tuple[SynonymFacts, ...] = ()
    parts: tuple[PartFacts, ...] = ()
    showings: tuple[ShowingFacts, ...] = ()
    row: int = 0


@dataclass(frozen=True)
class NamedSpecies:
    """A species as a specimen refers to it."""

    key: str
    name: str
    author: str = ""
    family: str = ""


@dataclass(frozen=True)
class OpinionFacts:
    """Who says what it is, when. `by_id` tells people apart without naming them; `by` only where they agreed."""

    by_id: str
    by: str
    at: datetime
    said: str
    species: NamedSpecies | None = None
    characters: str = ""
    id: str = ""
    row: int = 0


@dataclass(frozen=True)
class RegionFacts:
    frame: Frame
    character: str
    state: str = ""
    id: str = ""
    row: int = 0


@dataclass(frozen=True)
class PictureFacts:
    """A photograph. `path` is the file inside the archive, empty where the archive holds none."""

    id: str
    owner: str
    photographer: str
    licence: str
    part: str = ""
    caption: str = ""
    alt_blind: str = ""
    alt_full: str = ""
    taken_at: datetime | None = None
    path: str = ""
    media_type: str = ""
    sha256: str = ""
    regions: tuple[RegionFacts, ...] = ()
    row: int = 0


@dataclass(frozen=True)
class PlaceFacts:
    """Where it grew. `km`: the size of the cell that the position was blurred to; 0 where it is exact.

    `is_withheld`: the name of the place is kept back.
    """

    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    within_m: int = 0
    km: int = 0
    is_withheld: bool = False
    habitat: str = ""
    days_late: int | None = None


@dataclass(frozen=True)
class SpecimenFacts:
    """A specimen. What is None or empty among the last is in the owner's own archive only."""

    key: str
    plant: str
    seen_on: date
    stage: Stage | None
    species: NamedSpecies | None
    settlement: Settlement | None
    place: PlaceFacts
    form: str = ""
    opinions: tuple[OpinionFacts, ...] = ()
    pictures: tuple[PictureFacts, ...] = ()
    note: str = ""
    use: Use | None = None
    plant_label: str = ""
    row: int = 0
