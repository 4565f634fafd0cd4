"""The tables of the two archives: which file, what a row is, and which term stands in which column."""

from collections.abc import Iterator
from dataclasses import dataclass

from species.rules.darwin import terms
from species.rules.darwin.terms import AC, DC, DCTERMS, DWC, GBIF, OURS, PHOTOSHOP, XMP, XMP_RIGHTS


@dataclass(frozen=True)
class Column:
    """One column. `holds_list`: several values stand in one cell, separated by " | "."""

    term: str
    holds_list: bool = False

    @property
    def name(self) -> str:
        """What stands in the header: the term without its vocabulary."""
        return self.term.rsplit("/", 1)[1]


@dataclass(frozen=True)
class Layout:
    """A table: the first column of a core is its id, that of an extension points to the core."""

    file: str
    row_type: str
    columns: tuple[Column, ...]

    @property
    def terms(self) -> frozenset[str]:
        return frozenset(each.term for each in self.columns)


def _columns(vocabulary: str, names: str) -> Iterator[Column]:
    """Columns of one vocabulary; a star behind a name says that the cell holds a list."""
    for name in names.split():
        yield Column(vocabulary + name.rstrip("*"), name.endswith("*"))


TAXA = Layout(
    "taxon.csv",
    terms.TAXON,
    (
        *_columns(
            DWC,
            "taxonID scientificName scientificNameAuthorship taxonRank kingdom family genus nomenclaturalCode"
            " taxonomicStatus acceptedNameUsageID acceptedNameUsage",
        ),
        *_columns(
            OURS,
            "edibility aggregate heightFromCm heightToCm moisture squaresBritain squaresIreland leaflessStages*"
            " placesAreBlurred sources* hazardSources*",
        ),
    ),
)
COMMON_NAMES = Layout(
    "vernacularname.csv",
    terms.VERNACULAR_NAME,
    (
        *_columns(DWC, "taxonID vernacularName"),
        *_columns(DCTERMS, "language"),
        *_columns(GBIF, "isPreferredName"),
    ),
)
DESCRIPTIONS = Layout(
    "description.csv",
    terms.DESCRIPTION,
    (
        *_columns(DWC, "taxonID"),
        *_columns(DC, "description type language"),
        *_columns(OURS, "part stages* months*"),
    ),
)
OCCURRENCES = Layout(
    "occurrence.csv",
    terms.OCCURRENCE,
    (
        *_columns(
            DWC,
            "occurrenceID basisOfRecord occurrenceStatus organismID recordedBy* eventDate taxonID scientificName"
            " taxonRank kingdom family lifeStage reproductiveCondition locality habitat decimalLatitude"
            " decimalLongitude geodeticDatum coordinateUncertaintyInMeters dataGeneralizations informationWithheld"
            " identificationVerificationStatus occurrenceRemarks",
        ),
        *_columns(OURS, "form blurredToKm use organismLabel daysLate"),
    ),
)
IDENTIFICATIONS = Layout(
    "identification.csv",
    terms.IDENTIFICATION,
    tuple(
        _columns(
            DWC,
            "occurrenceID identificationID identifiedBy* identifiedByID dateIdentified taxonID scientificName"
            " identificationQualifier verbatimIdentification identificationRemarks",
        )
    ),
)
MEDIA = Layout(
    "multimedia.csv",
    terms.MULTIMEDIA,
    (
        *_columns(DWC, "occurrenceID"),
        *_columns(DCTERMS, "identifier type"),
        *_columns(AC, "subtype metadataLanguageLiteral"),
        *_columns(DC, "rights"),
        *_columns(XMP_RIGHTS, "WebStatement UsageTerms Owner"),
        *_columns(DC, "creator"),
        *_columns(PHOTOSHOP, "Credit"),
        *_columns(AC, "caption subjectPart subjectPartLiteral"),
        *_columns(DCTERMS, "description"),
        *_columns(OURS, "blindDescription"),
        *_columns(XMP, "CreateDate"),
        *_columns(AC, "hasROI*"),
        *_columns(AC, "accessURI"),
        *_columns(DC, "format"),
        *_columns(AC, "variant hashFunction hashValue"),
    ),
)
REGIONS = Layout(
    "region.csv",
    terms.REGION,
    (
        *_columns(DWC, "occurrenceID"),
        *_columns(DCTERMS, "identifier"),
        *_columns(AC, "isROIOf xFrac yFrac widthFrac heightFrac radius"),
        *_columns(OURS, "character state"),
    ),
)
SPECIES_ARCHIVE = (TAXA, COMMON_NAMES, DESCRIPTIONS)
SPECIMEN_ARCHIVE = (OCCURRENCES, IDENTIFICATIONS, MEDIA, REGIONS)
