"""The rows of an archive of species to species, with everything that is wrong with them."""

from collections.abc import Iterator, Mapping, Sequence

from species.rules.darwin import terms
from species.rules.darwin.cells import Cells
from species.rules.darwin.facts import CommonNameFacts, PartFacts, ShowingFacts, SynonymFacts, TaxonFacts
from species.rules.darwin.layouts import COMMON_NAMES, DESCRIPTIONS, TAXA
from species.rules.darwin.names import key_of, name_and_author
from species.rules.darwin.rows import ReadRow
from species.rules.darwin.slips import Notes, Remark, Wrong
from species.rules.darwin.words import (
    ACCEPTED,
    DESCRIPTION_TYPES,
    KINGDOM,
    PHENOLOGY,
    SYNONYM,
    TEXT_LANGUAGE,
    USE,
    WIDER_NAME,
)
from species.rules.vocabulary import Edibility, Stage

Rows = Mapping[str, Sequence[ReadRow]]
_STATUS = (ACCEPTED, SYNONYM, WIDER_NAME)
_LONGEST_TEXT = {
    "life": 80, "status": 120, "hazard_toxin": 200, "hazard_parts": 200, "hazard_onset": 200, "hazard_severity": 200,
}  # fmt: skip
_FIELD_OF = {kind: field for field, kind in DESCRIPTION_TYPES.items()}


def read_species(rows: Rows, notes: Notes) -> tuple[TaxonFacts, ...]:
    """The species of an archive, in the order of its rows; notes gets the problems and the remarks."""
    return _Reader(rows, notes).read()


class _Reader:
    def __init__(self, rows: Rows, notes: Notes) -> None:
        self.rows, self.notes = rows, notes
        self.core = [Cells(row, TAXA, notes) for row in rows.get(terms.TAXON, ())]
        self.names = _grouped(rows.get(terms.VERNACULAR_NAME, ()))
        self.texts = _grouped(rows.get(terms.DESCRIPTION, ()))
        self.synonyms: dict[str, list[SynonymFacts]] = {}

    def read(self) -> tuple[TaxonFacts, ...]:
        accepted = [cells for cells in self.core if self._is_accepted(cells)]
        known = {cells.row.core for cells in accepted}
        for cells in self.core:
            if cells not in accepted:
                self._synonym(cells, known)
        return tuple(self._taxon(cells) for cells in accepted)

    def _is_accepted(self, cells: Cells) -> bool:
        status = cells.text("taxonomicStatus")
        return status in ("", ACCEPTED) or not cells.one_of("taxonomicStatus", status, _STATUS)

    def _synonym(self, cells: Cells, known: set[str]) -> None:
        of = cells.text("acceptedNameUsageID", required=True)
        name = cells.text("scientificName", 120, required=True)
        if of and of not in known:
            cells.wrong(Wrong.NO_CORE_ROW, "acceptedNameUsageID", value=of)
        is_wider = cells.text("taxonomicStatus") == WIDER_NAME
        self.synonyms.setdefault(of, []).append(SynonymFacts(name, is_wider, cells.number))

    def _taxon(self, cells: Cells) -> TaxonFacts:
        if kingdom := cells.text("kingdom"):
            cells.one_of("kingdom", kingdom, [KINGDOM])
        full = cells.text("scientificName", 240, required=True)
        name, author = name_and_author(full, cells.text("scientificNameAuthorship", 120))
        if len(name) > 120:
            cells.wrong(Wrong.TOO_LONG, "scientificName", length=len(name), longest=120)
        texts, parts, showings = self._descriptions(cells.row.core)
        return TaxonFacts(
            key=self._key(cells, name),
            name=name,
            author=author,
            family=cells.text("family", 60, required=True),
            edibility=cells.choice("edibility", Edibility) or Edibility.NOT_EATEN,
            aggregate=cells.text("aggregate", 120),
            height_from_cm=cells.whole("heightFromCm", 0, 20_000),
            height_to_cm=cells.whole("heightToCm", 0, 20_000),
            moisture=cells.whole("moisture", 1, 12),
            squares_britain=cells.whole("squaresBritain", 0, 9_999),
            squares_ireland=cells.whole("squaresIreland", 0, 9_999),
            leafless_stages=cells.stages("leaflessStages", Stage),
            places_are_blurred=self._is_blurred(cells),
            sources=cells.several("sources"),
            hazard_sources=cells.several("hazardSources"),
            texts=texts,
            common_names=tuple(self._common_names(cells.row.core)),
            synonyms=tuple(self.synonyms.get(cells.row.core, ())),
            parts=tuple(parts),
            showings=tuple(showings),
            row=cells.number,
        )

    def _key(self, cells: Cells, name: str) -> str:
        """The id, where it is a key in the school's way; else one made of the name, which is remarked."""
        if key_of(cells.row.core) == cells.row.core:
            return cells.row.core
        key = key_of(name)
        if key:
            cells.remark(Remark.OWN_KEY, "taxonID", value=cells.row.core, key=key)
        return key

    def _is_blurred(self, cells: Cells) -> bool:
        """A species of which nothing is said is treated as if it were at risk: that harms nobody."""
        value = cells.text("placesAreBlurred").casefold()
        if value:
            cells.one_of("placesAreBlurred", value, ["yes", "no"])
        return value != "no"

    def _common_names(self, core: str) -> Iterator[CommonNameFacts]:
        seen: dict[tuple[str, str], int] = {}
        preferred: list[CommonNameFacts] = []
        others: list[CommonNameFacts] = []
        for row in self.names.get(core, ()):
            cells = Cells(row, COMMON_NAMES, self.notes)
            name, language = cells.text("vernacularName", 80, required=True), cells.text("language", 10, required=True)
            if (name, language) in seen:
                cells.wrong(Wrong.TWICE, "vernacularName", value=name, first=seen[name, language])
            seen.setdefault((name, language), row.number)
            facts = CommonNameFacts(name, language, row.number)
            (preferred if cells.text("isPreferredName").casefold() == "true" else others).append(facts)
        yield from (*preferred, *others)

    def _descriptions(self, core: str) -> tuple[dict[str, str], list[PartFacts], list[ShowingFacts]]:
        texts: dict[str, str] = {}
        parts: list[PartFacts] = []
        showings: list[ShowingFacts] = []
        for row in self.texts.get(core, ()):
            cells = Cells(row, DESCRIPTIONS, self.notes)
            kind, text = cells.text("type", required=True), cells.text("description", required=True)
            cells.one_of("language", cells.text("language", required=True), [TEXT_LANGUAGE])
            if kind == USE and cells.text("part"):
                parts.append(_part(cells, text))
            elif kind == PHENOLOGY and cells.text("stages"):
                self._showing(cells, showings)
            elif field := _FIELD_OF.get(kind):
                cells.text("description", _LONGEST_TEXT.get(field, 20_000))
                if field in texts:
                    cells.wrong(Wrong.TWICE, "type", value=kind, first=core)
                texts[field] = text
            elif kind:
                cells.one_of("type", kind, [*_FIELD_OF, USE, PHENOLOGY])
        return texts, parts, showings

    def _showing(self, cells: Cells, showings: list[ShowingFacts]) -> None:
        stage = cells.choice("stages", Stage)
        if stage is None:
            return
        if any(each.stage is stage for each in showings):
            cells.wrong(Wrong.TWICE, "stages", value=stage, first=cells.row.core)
        showings.append(ShowingFacts(stage, cells.months("months")))


def _part(cells: Cells, text: str) -> PartFacts:
    part = cells.text("part", 80)
    note = text.removeprefix(part).removeprefix(": ")
    return PartFacts(part, cells.months("months"), cells.stages("stages", Stage), note)


def _grouped(rows: Sequence[ReadRow]) -> dict[str, list[ReadRow]]:
    found: dict[str, list[ReadRow]] = {}
    for row in rows:
        found.setdefault(row.core, []).append(row)
    return found
