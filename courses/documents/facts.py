"""The frozen record of a certificate: everything that is printed, as it stood on the day of issue.

It is stored as JSON on the certificate, so a reprint years later shows the same words and figures.
"""

from dataclasses import asdict, dataclass
from datetime import date
from math import ceil
from typing import Any


def rounded_up(number: float, places: int) -> float:
    """A limit to so many places, never below what it was: rounding must not flatter the holder."""
    scale = 10**places
    return ceil(round(number * scale, 6)) / scale  # the inner rounding takes off what binary fractions add


@dataclass(frozen=True)
class PlantName:
    """A plant as it is printed: its common and its scientific name."""

    common: str
    scientific: str


@dataclass(frozen=True)
class PairEvidence:
    """One passed pair, with the evidence on its dangerous species.

    stages: words of the stages shown; specimens: decided on in all, of which `live` were living, at so many
    occasions; misses: how many of them would have been gathered; limit: the share of misses that the figures
    support at most (0 to 1), at the certainty of the standard.
    """

    key: str
    gathered: PlantName
    mistaken: PlantName
    stages: tuple[str, ...]
    specimens: int
    live: int
    occasions: int
    misses: int
    limit: float
    recognised: int
    photographs_only: str = ""

    @property
    def by_photo(self) -> int:
        """Specimens of the dangerous species that were decided on by their photographs."""
        return self.specimens - self.live


@dataclass(frozen=True)
class CertificateFacts:
    """What a certificate says. Dates without time are days in the school's zone."""

    number: str
    key: str
    check_address: str
    school: str
    region: str
    holder: str
    standard: str
    version: int
    purpose: str
    tolerated_share: str
    false_pass: str
    pairs: tuple[PairEvidence, ...]
    first_evidence: date
    last_evidence: date
    issued_on: date
    valid_from: date
    valid_until: date
    decider: str
    exception: str = ""
    remarks: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    language: str = "en"
    ownership: str = ""  # empty on those that were issued before it was printed

    def as_json(self) -> dict[str, Any]:
        """Plain values; days as ISO 8601 text."""
        return {name: value.isoformat() if isinstance(value, date) else value for name, value in asdict(self).items()}

    @classmethod
    def from_json(cls, stored: dict[str, Any]) -> "CertificateFacts":
        """The record as it was frozen. KeyError or TypeError where a field without a default is lacking."""
        values = dict(stored)
        for name in ("first_evidence", "last_evidence", "issued_on", "valid_from", "valid_until"):
            values[name] = date.fromisoformat(values[name])
        values["pairs"] = tuple(_pair(each) for each in values["pairs"])
        for name in ("remarks", "cautions"):
            values[name] = tuple(values.get(name, ()))
        return cls(**values)


def _pair(stored: dict[str, Any]) -> PairEvidence:
    values = dict(stored)
    values["gathered"] = PlantName(**values["gathered"])
    values["mistaken"] = PlantName(**values["mistaken"])
    values["stages"] = tuple(values["stages"])
    return PairEvidence(**values)
