"""The page style of all rooms: embedded serif, ink and a warm line, and a paper that can be read aloud.

`Paper` draws like a canvas and tags what it draws: every text or figure belongs to an element of the structure
tree in the order of drawing, everything else is marked as ornament. Same input, same bytes.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import HexColor
from reportlab.lib.pagesizes import A4
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import XMP, PDFArray, PDFDictionary, PDFName, PDFPage, PDFString
from reportlab.pdfgen.canvas import Canvas

from species.documents.fonts import SERIF, CannotPrint, register_fonts, unprintable

INK, QUIET, RUST, WARM = HexColor("#2B2A26"), HexColor("#5A564C"), HexColor("#8C3A1E"), HexColor("#C9B99A")
MARGIN = 48.0
PAGE_WIDTH, PAGE_HEIGHT = A4


@dataclass
class _Element:
    """One element of the structure tree: a mark on a page, or (without a mark) what holds other elements."""

    role: str
    alt: str = ""
    language: str = ""
    page: int = 0
    mark: int | None = None
    scope: str = ""
    inner: list["_Element"] = field(default_factory=list)


class Paper:
    """A document under way, in points from the lower left corner of `size` (width, height)."""

    def __init__(
        self, title: str, language: str, author: str, subject: str = "", size: tuple[float, float] = A4
    ) -> None:
        register_fonts()
        self._out = BytesIO()
        self.width, self.height = size
        self.canvas = Canvas(self._out, pagesize=size, invariant=1, lang=language, initialFontName=SERIF)
        self.canvas.setTitle(title)
        self.canvas.setAuthor(author)
        self.canvas.setSubject(subject)
        self._marks = [0]
        self._open: list[_Element] = [_Element("Document")]
        about = _described(title, language, author)
        self.canvas._doc.Catalog.Metadata = XMP(creator=lambda _document: about)

    @contextmanager
    def element(self, role: str, alt: str = "", language: str = "", scope: str = "") -> Iterator[Canvas]:
        """What is drawn inside is one element: H1, H2, P, Figure (with `alt`), TH (with `scope`) and the like."""
        page = len(self._marks) - 1
        mark = self._marks[page]
        self.canvas._code.append(f"/{role} <</MCID {mark}>> BDC")
        self._marks[page] = mark + 1
        self._open[-1].inner.append(_Element(role, alt, language, page, mark, scope))
        yield self.canvas
        self.canvas._code.append("EMC")

    @contextmanager
    def group(self, role: str, scope: str = "") -> Iterator[None]:
        """The elements drawn inside belong to one that holds them: Table, TR, L, P and the like."""
        holder = _Element(role, scope=scope)
        self._open[-1].inner.append(holder)
        self._open.append(holder)
        yield
        self._open.pop()

    def turn(self) -> None:
        """Go on on the next page."""
        self.canvas.showPage()
        self._marks.append(0)

    @contextmanager
    def ornament(self) -> Iterator[Canvas]:
        """What is drawn inside says nothing and is passed over when read aloud."""
        self.canvas._code.append("/Artifact BMC")
        yield self.canvas
        self.canvas._code.append("EMC")

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 10,
        *,
        role: str = "P",
        font: str = SERIF,
        width: float = 0,
        bold: bool = False,
        colour: Any = INK,
        centred: bool = False,
        leading: float = 1.32,
        language: str = "",
    ) -> float:
        """Write a text, broken to a width in points where one is given; returns the y below the last line.

        Raises CannotPrint. The serif has one weight in print, so bold is the same letter with a thin outline.
        """
        missing = unprintable(text)
        if missing:
            raise CannotPrint(missing)
        lines = simpleSplit(text, font, size, width) if width else [text]
        with self.element(role, language=language):
            for line in lines:
                start = x - pdfmetrics.stringWidth(line, font, size) / 2 if centred else x
                self.write(start, y, line, size, font=font, bold=bold, colour=colour)
                y -= size * leading
        return y

    def write(
        self,
        x: float,
        y: float,
        line: str,
        size: float,
        *,
        font: str = SERIF,
        bold: bool = False,
        colour: Any = INK,
    ) -> None:
        """One line of letters, inside an element that is open. The letters have to be printable."""
        canvas = self.canvas
        written = canvas.beginText(x, y)
        written.setFont(font, size)
        written.setFillColor(colour)
        written.setStrokeColor(colour)
        canvas.setLineWidth(size * 0.028)
        written.setTextRenderMode(2 if bold else 0)
        written.textOut(line)
        written.setTextRenderMode(0)
        canvas.drawText(written)

    def rule(self, y: float, x1: float = MARGIN, x2: float = PAGE_WIDTH - MARGIN, width: float = 0.6) -> None:
        """A warm line across."""
        with self.ornament() as canvas:
            canvas.setStrokeColor(WARM)
            canvas.setLineWidth(width)
            canvas.line(x1, y, x2, y)

    def finish(self) -> bytes:
        """The finished document."""
        self.canvas.showPage()
        self._tag()
        self.canvas.save()
        return self._out.getvalue()

    def _tag(self) -> None:
        """The structure tree under one Document, in the order of drawing, with the way back per page."""
        document = self.canvas._doc
        catalogue = document.Catalog
        root = PDFDictionary({"Type": PDFName("StructTreeRoot")})
        whole = PDFDictionary({"Type": PDFName("StructElem"), "S": PDFName("Document"), "P": document.Reference(root)})
        pages = document.Pages.pages
        marked: list[list[Any]] = [[] for _ in pages]
        children = [self._structure_element(whole, each, pages, marked) for each in self._open[0].inner]
        ways_back: list[Any] = []
        for number, page in enumerate(pages):
            ways_back += [number, document.Reference(PDFArray(marked[number]))]
            _let_page_say(page, {"StructParents": number, "Tabs": PDFName("S")})
        whole.dict["K"] = PDFArray(children)
        root.dict["K"] = document.Reference(whole)
        root.dict["ParentTree"] = document.Reference(PDFDictionary({"Nums": PDFArray(ways_back)}))
        root.dict["ParentTreeNextKey"] = len(pages)
        catalogue.StructTreeRoot = root
        catalogue.MarkInfo = PDFDictionary({"Marked": "true"})
        catalogue.ViewerPreferences = PDFDictionary({"DisplayDocTitle": "true"})

    def _structure_element(
        self, parent: PDFDictionary, each: _Element, pages: list[PDFPage], marked: list[list[Any]]
    ) -> Any:
        """The element as the library writes it; each mark is noted with its page, in the order of its number."""
        document = self.canvas._doc
        values: dict[str, Any] = {
            "Type": PDFName("StructElem"),
            "S": PDFName(each.role),
            "P": document.Reference(parent),
        }
        if each.mark is not None:
            values |= {"Pg": document.Reference(pages[each.page]), "K": each.mark}
        if each.alt:
            values["Alt"] = PDFString(each.alt)
        if each.language:
            values["Lang"] = PDFString(each.language)
        if each.scope:
            values["A"] = PDFDictionary({"O": PDFName("Table"), "Scope": PDFName(each.scope)})
        made = PDFDictionary(values)
        reference = document.Reference(made)
        if each.mark is not None:
            marked[each.page].append(reference)
        else:
            made.dict["K"] = PDFArray([self._structure_element(made, one, pages, marked) for one in each.inner])
        return reference


def _described(title: str, language: str, author: str) -> str:
    """Title, language and author once more as XMP (ISO 16684-1), where readers look first; in ASCII."""
    said = (("title", "Alt", title), ("language", "Bag", language), ("creator", "Seq", author))
    rows = "".join(
        f"<dc:{name}><rdf:{kind}><rdf:li{' xml:lang=' + chr(34) + 'x-default' + chr(34) if kind == 'Alt' else ''}>"
        f"{escape(text)}</rdf:li></rdf:{kind}></dc:{name}>"
        for name, kind, text in said
    )
    packet = (
        '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" '
        f'xmlns:dc="http://purl.org/dc/elements/1.1/">{rows}</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="r"?>'
    )
    return packet.encode("ascii", "xmlcharrefreplace").decode("ascii")


def _let_page_say(page: PDFPage, entries: dict[str, Any]) -> None:
    """Entries that the library's page does not know of by itself."""
    page.__NoDefault__ = [*page.__NoDefault__, *entries]
    for name, value in entries.items():
        setattr(page, name, value)
