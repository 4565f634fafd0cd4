"""What can be wrong with an archive, as facts; what is worth saying without being wrong; the words stand elsewhere."""

from dataclasses import dataclass, field
from enum import StrEnum


class Wrong(StrEnum):
    """Why an archive is not brought in."""

    NO_META = "no meta.xml"
    BAD_XML = "not readable as XML"
    BAD_META = "meta.xml says something impossible"
    OTHER_CORE = "neither species nor specimens"
    FILE_MISSING = "a table is missing"
    TABLE_TOO_LARGE = "a table is too large"
    BROKEN = "a file in the archive is broken"
    NOT_TEXT = "not text in the encoding that meta.xml names"
    NOT_A_TABLE = "not readable as a table"
    CELLS = "another number of cells than columns"
    TWICE = "an id twice"
    NO_CORE_ROW = "a row that belongs to no core row"
    NULL_TEXT = "a word that stands for nothing"
    EMPTY = "empty"
    TOO_LONG = "too long"
    NOT_A_CHOICE = "not one of the choices"
    NOT_A_NUMBER = "not a number in range"
    NOT_A_DATE = "not a date"
    DAY_AHEAD = "a day that lies ahead"
    UNKNOWN_NAME = "no plant of that name"
    NAME_OF_TWO = "one name for two species"
    STORED_OTHERWISE = "stored under another key"
    NO_PICTURE = "the picture named in a row is not there"
    BAD_PICTURE = "the picture cannot be taken"
    HASH_DIFFERS = "the picture is another than the row says"
    DRAWING = "a drawing"
    UNKNOWN_CHARACTER = "no such character or state"
    BAD_REGION = "no region on a picture"
    NO_SUCH_PICTURE = "a region on a picture that is not in the archive"


class Remark(StrEnum):
    """What is worth saying of an archive that was brought in."""

    KEPT_ASIDE = "a term that has no place here"
    TABLE_ASIDE = "a table that has no place here"
    FILE_ASIDE = "a file that no table names"
    OWN_KEY = "it goes under another key"
    DIFFERS = "what is stored differs and stays"
    NO_FILE = "a picture without its file"
    NO_CHARACTER = "a region that shows no character"
    IN_TRAY = "it waits in the tray"
    OTHER_STANDING = "its name stands otherwise than the archive says"
    OTHER_PLACE = "a place of the same name lies elsewhere"


@dataclass(frozen=True)
class Note:
    """One problem or one remark, and where. `row` counts the header as row 1; 0 means the whole file."""

    what: Wrong | Remark
    file: str
    row: int = 0
    column: str = ""
    values: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class KeptAside:
    """A value that has no place in the school: kept with the record of the archive, and reported."""

    file: str
    row: int
    core: str
    term: str
    value: str


@dataclass
class Notes:
    """All that was found so far."""

    wrong: list[Note] = field(default_factory=list)
    remarks: list[Note] = field(default_factory=list)
    aside: list[KeptAside] = field(default_factory=list)

    def add(self, what: Wrong | Remark, file: str, row: int = 0, column: str = "", **values: object) -> None:
        """Note something; values are kept as text."""
        note = Note(what, file, row, column, tuple((name, str(value)) for name, value in values.items()))
        (self.wrong if isinstance(what, Wrong) else self.remarks).append(note)
