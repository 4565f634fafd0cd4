"""The finished words of a pair on paper: no rule is left to decide, every sentence is translated."""

from dataclasses import dataclass

from species.documents.printed_picture import PrintedPicture
from species.documents.signs.sketch import Stroke


@dataclass(frozen=True)
class Letterhead:
    """Whose paper it is, and the sentence that says whom to call: as the school has set them."""

    school: str
    call: str


@dataclass(frozen=True)
class PlantWords:
    """One side of a pair. `warning`: what the school says about eating it; `is_danger` puts it in rust."""

    common: str
    scientific: str
    warning: str
    is_danger: bool
    picture: PrintedPicture | None


@dataclass(frozen=True)
class StateWords:
    """One state with how often it is shown, and its drawing (without strokes: no drawing)."""

    text: str
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True)
class SignWords:
    """One character with what either plant shows; `note` is what to mind with it."""

    name: str
    gathered: str
    mistaken: str
    gathered_states: tuple[StateWords, ...]
    mistaken_states: tuple[StateWords, ...]
    note: str


@dataclass(frozen=True)
class SignGroup:
    """Characters under one heading; `empty` is said where there are none."""

    heading: str
    signs: tuple[SignWords, ...]
    empty: str = ""


@dataclass(frozen=True)
class PairWords:
    """Everything on the sheet of a pair, in the order of reading."""

    language: str
    letterhead: Letterhead
    title: str
    joined_by: str
    danger: str
    is_dangerous: bool
    gathered: PlantWords
    mistaken: PlantWords
    rule: str
    months: tuple[tuple[str, str], ...]
    """Short name of each month, and the word for it, January first."""
    telling: str
    stage: str
    groups: tuple[SignGroup, ...]
    never_heading: str
    never: tuple[tuple[str, str], ...]
    sections: tuple[tuple[str, str], ...]
    """Headings with their sentence: how it goes wrong, where they meet, third plants, what cannot be seen now."""
    cautions: tuple[str, ...]
