"""What a participant tells in confidence, and what they agree to, as plain values."""

from collections.abc import Mapping
from dataclasses import dataclass

FIELDS = ("emergency_contact", "allergies", "medicines", "pregnancy", "mobility")


@dataclass(frozen=True)
class Notes:
    """What somebody told, in plain words."""

    emergency_contact: str = ""
    allergies: str = ""
    medicines: str = ""
    pregnancy: str = ""
    mobility: str = ""
    cannot_be_read: bool = False
    """Something was told and cannot be opened any more: whoever leads must ask."""

    @property
    def is_empty(self) -> bool:
        return not self.cannot_be_read and not any(getattr(self, name) for name in FIELDS)


@dataclass(frozen=True)
class Agreed:
    """What somebody agrees to, and the words of each, as they were shown."""

    words: Mapping[str, str]
    version: int = 1
