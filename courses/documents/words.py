"""The finished words of a certificate: what page and paper print alike. No rule and no figure is left to decide."""

from dataclasses import dataclass

from courses.documents.facts import PlantName


@dataclass(frozen=True)
class PairWords:
    """One pair as it is printed."""

    gathered: PlantName
    mistaken: PlantName
    joined_by: str
    stages: str
    evidence: str


@dataclass(frozen=True)
class CertificateWords:
    """Every sentence of a certificate, translated, in the order of reading."""

    language: str
    title: str
    school: str
    number: str
    intro: str
    holder: str
    standard: str
    statement: str
    pairs_heading: str
    pairs: tuple[PairWords, ...]
    lines: tuple[tuple[str, str], ...]
    exception: str
    ownership: str
    remarks: tuple[str, ...]
    cautions_heading: str
    cautions: tuple[str, ...]
    check_sentence: str
    check_address: str
    qr_alt: str
