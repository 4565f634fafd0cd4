"""The flora as plain records, in the order of the tables. `row` is the row in the file of that record."""

from dataclasses import dataclass
from enum import StrEnum

from species.rules.vocabulary import Danger, Edibility, Frequency, Stage, Trust


class NameKind(StrEnum):
    """In what way another scientific name stands for the species."""

    SYNONYM = "synonym"
    AGGREGATE = "aggregate"
    INCLUDED = "included"
    """A close relative that the school does not tell from this species."""


@dataclass(frozen=True)
class SourceRecord:
    row: int
    key: str
    kind: str
    citation: str
    how_read: str


@dataclass(frozen=True)
class SpeciesRecord:
    row: int
    key: str
    name: str
    author: str
    aggregate: str
    family: str
    edibility: Edibility
    life: str
    height_from_cm: int | None
    height_to_cm: int | None
    habitat: str
    status: str
    moisture: int | None
    squares_britain: int | None
    squares_ireland: int | None
    leafless_stages: tuple[Stage, ...]
    blur_places: bool
    legal: str
    note: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class CommonNameRecord:
    row: int
    species: str
    name: str
    language: str


@dataclass(frozen=True)
class SynonymRecord:
    row: int
    species: str
    name: str
    kind: NameKind


@dataclass(frozen=True)
class PartRecord:
    row: int
    species: str
    part: str
    months: tuple[int, ...]
    stages: tuple[Stage, ...]
    note: str


@dataclass(frozen=True)
class ShowingRecord:
    row: int
    species: str
    stage: Stage
    months: tuple[int, ...]


@dataclass(frozen=True)
class HazardRecord:
    row: int
    species: str
    toxin: str
    parts: str
    signs: str
    onset: str
    severity: str
    uncertain: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class CharacterRecord:
    row: int
    key: str
    name: str
    organ: str
    sense: str
    stages: tuple[Stage, ...]
    reliability: str
    why: str
    needs_digging: bool


@dataclass(frozen=True)
class StateRecord:
    row: int
    character: str
    key: str
    text: str


@dataclass(frozen=True)
class ScoreRecord:
    """One line of the state table; no stages means at every stage of the character."""

    row: int
    species: str
    character: str
    state: str
    frequency: Frequency
    stages: tuple[Stage, ...]


@dataclass(frozen=True)
class PairRecord:
    row: int
    key: str
    gathered: str
    mistaken: str
    danger: Danger
    core: bool
    part: str
    what_goes_wrong: str
    where_together: str
    rule: str
    third_species: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class CombinationRecord:
    row: int
    pair: str
    gathered_stage: Stage
    mistaken_stage: Stage


@dataclass(frozen=True)
class PairCharacterRecord:
    """A character of a pair; exactly one of `character` (a key of the table) and `label` is filled."""

    row: int
    pair: str
    character: str
    label: str
    trust: Trust
    stages: tuple[Stage, ...]
    gathered: str
    mistaken: str
    one_way: str
    needs_digging: bool
    note: str


@dataclass(frozen=True)
class ModuleRecord:
    row: int
    key: str
    title: str
    text: str


@dataclass(frozen=True)
class ModuleMemberRecord:
    """A species or a pair at its place in a module."""

    row: int
    module: str
    member: str


@dataclass(frozen=True)
class Plants:
    """The tables that say what a species is, and on whose word."""

    sources: tuple[SourceRecord, ...]
    species: tuple[SpeciesRecord, ...]
    common_names: tuple[CommonNameRecord, ...]
    synonyms: tuple[SynonymRecord, ...]
    parts: tuple[PartRecord, ...]
    showings: tuple[ShowingRecord, ...]
    hazards: tuple[HazardRecord, ...]


@dataclass(frozen=True)
class Lookalikes:
    """The tables that say how species are told apart."""

    characters: tuple[CharacterRecord, ...]
    states: tuple[StateRecord, ...]
    scores: tuple[ScoreRecord, ...]
    pairs: tuple[PairRecord, ...]
    combinations: tuple[CombinationRecord, ...]
    pair_characters: tuple[PairCharacterRecord, ...]


@dataclass(frozen=True)
class Teaching:
    """The tables that say what is taught together."""

    modules: tuple[ModuleRecord, ...]
    species: tuple[ModuleMemberRecord, ...]
    pairs: tuple[ModuleMemberRecord, ...]


@dataclass(frozen=True)
class Flora:
    """All tables as read."""

    plants: Plants
    lookalikes: Lookalikes
    teaching: Teaching
