"""What stands in the way of a step with a specimen of the bank: the codes, worded elsewhere."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Why(StrEnum):
    """Why something cannot be done with a specimen."""

    IN_USE = "something points to it"
    WAS_PUBLIC = "it has been shown for teaching"
    NO_STAGE = "it has no stage"
    DAY_AHEAD = "its day lies ahead"
    RETIRED = "it was taken out of the bank"
    OTHER_USE = "the same plant on the same day serves for the other use"
    LACKS = "something has to be said first"
    SORTED = "it left the tray already"
    ONLY_PICTURE = "it is the only picture of the specimen"
    ELSEWHERE = "the picture belongs to another specimen"
    UNSORTED = "it lies in the tray still"
    DAYS_DIFFER = "the pictures were taken on different days"
    NAMES_DIFFER = "they were given different names"
    NONE_LEFT = "no picture would be left"
    NONE_CHOSEN = "nothing was chosen"


class Lack(StrEnum):
    """What has to be said before a specimen leaves the tray."""

    STAGE = "stage"
    PART = "part shown"
    RIGHTS = "rights holder"
    LICENCE = "licence"


@dataclass(frozen=True)
class Said:
    """What is said of one picture: the part shown, whose it is, and under which licence it may be shown."""

    part: str = ""
    rights_holder: str = ""
    licence: str = ""


def lacks(stage: str, pictures: Iterable[Said]) -> tuple[Lack, ...]:
    """What is still to be said of a specimen and its pictures before anybody is taught or tested with it."""
    said = list(pictures)
    missing = {
        Lack.STAGE: not stage.strip(),
        Lack.PART: not all(each.part.strip() for each in said),
        Lack.RIGHTS: not all(each.rights_holder.strip() for each in said),
        Lack.LICENCE: not all(each.licence.strip() for each in said),
    }
    return tuple(lack for lack, is_missing in missing.items() if is_missing)
