"""Reading a printed sheet back: its words, its structure, its fonts."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from io import BytesIO
from typing import Any

import pikepdf
from pypdf import PdfReader


def squeezed(text: str) -> str:
    return "".join(text.split())


def text_of(content: bytes) -> str:
    """All words of a document, without spaces."""
    return squeezed("".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages))


def pages_of(content: bytes) -> int:
    return len(PdfReader(BytesIO(content)).pages)


@dataclass(frozen=True)
class Read:
    """One element of the structure tree; `is_marked`: it stands on a page itself and does not only hold others."""

    role: str
    alt: str
    language: str
    is_marked: bool


def elements_of(content: bytes) -> list[Read]:
    """Every element of the structure tree, in the order of reading."""
    with pikepdf.open(BytesIO(content)) as document:
        return list(_below(document.Root.StructTreeRoot.K))


def _below(element: Any) -> Iterator[Read]:
    yield Read(str(element.S), str(element.get("/Alt", "")), str(element.get("/Lang", "")), "/Pg" in element)
    inner = element.get("/K")
    for each in inner if isinstance(inner, pikepdf.Array) else []:
        if isinstance(each, pikepdf.Dictionary):
            yield from _below(each)


def assert_can_be_read_aloud(content: bytes, title: str, language: str = "en-gb") -> None:
    """Tagged, with a language and a title that is shown, one first heading, and figures that are told in words."""
    document = pikepdf.open(BytesIO(content))
    assert str(document.Root.Lang) == language
    assert bool(document.Root.MarkInfo.Marked)
    assert bool(document.Root.ViewerPreferences.DisplayDocTitle)
    assert str(document.docinfo["/Title"]) == title
    elements = elements_of(content)
    assert [each.role for each in elements].count("/H1") == 1
    assert all(each.alt for each in elements if each.role == "/Figure")
    trees = list(document.Root.StructTreeRoot.ParentTree.Nums)[1::2]
    marks = sum(len(list(tree)) for tree in trees)
    assert marks == sum(each.is_marked for each in elements)


def assert_fonts_are_embedded(content: bytes) -> None:
    document = pikepdf.open(BytesIO(content))
    fonts = [font for page in document.pages for font in page.Resources.get("/Font", {}).values()]
    assert fonts
    for font in fonts:
        assert "/FontFile2" in font.FontDescriptor
        assert "/ToUnicode" in font


def _note_place(places: list[tuple[float, float]], text: str, _cm: Any, tm: Any, *_rest: Any) -> None:
    if text.strip():
        places.append((tm[4], tm[5]))


def assert_inside(content: bytes, margin: float) -> None:
    """Nothing is written nearer to the edge than the margin."""
    for page in PdfReader(BytesIO(content)).pages:
        places: list[tuple[float, float]] = []
        page.extract_text(visitor_text=partial(_note_place, places))
        assert min(y for _x, y in places) >= margin - 3
        assert min(x for x, _y in places) >= margin - 3
        assert max(x for x, _y in places) <= float(page.mediabox.width) - margin
