"""The media rows of an archive, and the regions on them, to pictures."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from species.rules.darwin import terms
from species.rules.darwin.cells import Cells
from species.rules.darwin.facts import PictureFacts, RegionFacts
from species.rules.darwin.layouts import MEDIA, REGIONS
from species.rules.darwin.rows import ReadRow
from species.rules.darwin.slips import Notes, Remark, Wrong
from species.rules.darwin.words import SUBJECT_PARTS
from species.rules.regions import Frame, slip_of

_KINDS = ("StillImage", "http://purl.org/dc/dcmitype/StillImage")
_SUBTYPES = ("Photograph", "Drawing")


class PictureReader:
    """The pictures by the id of their specimen; regions are given to their pictures as these are asked for."""

    def __init__(self, rows: Mapping[str, Sequence[ReadRow]], notes: Notes, now: datetime) -> None:
        self.notes, self.now = notes, now
        self.media: dict[str, list[ReadRow]] = {}
        self.regions: dict[tuple[str, str], list[Cells]] = {}
        self.first: dict[str, int] = {}
        for row in rows.get(terms.MULTIMEDIA, ()):
            self.media.setdefault(row.core, []).append(row)
        for row in rows.get(terms.REGION, ()):
            cells = Cells(row, REGIONS, notes)
            self.regions.setdefault((row.core, cells.text("isROIOf", required=True)), []).append(cells)

    def of(self, core: str) -> tuple[PictureFacts, ...]:
        """The pictures of a specimen, in the order of their rows."""
        read = (self._picture(Cells(row, MEDIA, self.notes)) for row in self.media.get(core, ()))
        return tuple(each for each in read if each is not None)

    def note_regions_left(self) -> None:
        """Note the regions that lie on no picture; to be called last."""
        for (_core, picture), regions in self.regions.items():
            for cells in regions if picture else ():
                cells.wrong(Wrong.NO_SUCH_PICTURE, "isROIOf", value=picture)

    def _picture(self, cells: Cells) -> PictureFacts | None:
        identifier = cells.text("identifier", 200, required=True)
        if identifier in self.first:
            cells.wrong(Wrong.TWICE, "identifier", value=identifier, first=self.first[identifier])
        self.first.setdefault(identifier, cells.number)
        cells.one_of("type", cells.text("type", required=True), _KINDS)
        cells.text("metadataLanguageLiteral", required=True)
        rights = cells.text("rights", 500, required=True)
        subtype = cells.text("subtype")
        if subtype and cells.one_of("subtype", subtype, _SUBTYPES) and subtype == "Drawing":
            cells.wrong(Wrong.DRAWING, "subtype")
        part = cells.text("subjectPart")
        if part:
            cells.one_of("subjectPart", part, SUBJECT_PARTS)
        regions = self.regions.pop((cells.row.core, identifier), [])
        if not cells.text("accessURI"):
            cells.remark(Remark.NO_FILE, value=identifier)
            cells.keep_aside()
        for each in regions:
            if not each.text("character"):
                each.remark(Remark.NO_CHARACTER)
                each.keep_aside()
        return PictureFacts(
            id=identifier,
            owner=cells.text("Owner", 120) or cells.text("creator", 120),
            photographer=cells.text("creator", 120),
            licence=(cells.text("UsageTerms", 200) or cells.text("WebStatement", 200) or rights)[:200],
            part=cells.text("subjectPartLiteral", 60) or ("whole plant" if part == "entireOrganism" else part),
            caption=cells.text("caption", 300),
            alt_blind=cells.text("blindDescription", 300),
            alt_full=cells.text("description", 500),
            taken_at=cells.moment("CreateDate", self.now),
            path=cells.text("accessURI"),
            media_type=cells.text("format"),
            sha256=_hash(cells),
            regions=tuple(_region(each) for each in regions if each.text("character")),
            row=cells.number,
        )


def _hash(cells: Cells) -> str:
    """The SHA-256 of the file; another function is not read."""
    if function := cells.text("hashFunction"):
        cells.one_of("hashFunction", function, ["SHA-256"])
    return cells.text("hashValue", 64).casefold()


def _region(cells: Cells) -> RegionFacts:
    x, y = cells.number_in("xFrac", 0, 1, required=True), cells.number_in("yFrac", 0, 1, required=True)
    radius = cells.number_in("radius", 0, 1)
    width, height = (cells.number_in(column, 0, 1, required=not radius) for column in ("widthFrac", "heightFrac"))
    frame = Frame(x or 0, y or 0, 0 if radius else width or 0, 0 if radius else height or 0, radius or 0)
    if slip := slip_of(frame):
        cells.wrong(Wrong.BAD_REGION, reason=slip.value)
    return RegionFacts(
        frame, cells.text("character", 60), cells.text("state", 60), cells.text("identifier"), cells.number
    )
