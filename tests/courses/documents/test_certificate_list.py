"""The certificate on paper by the school's list for printed pages: PDF-1 to PDF-9, one test each by number.

Read back with pikepdf and pypdf, which did not write it; the code is read from the rendered page by ZXing.
"""

import hashlib
from html import unescape
from io import BytesIO
from unicodedata import normalize

import pikepdf
import pypdfium2
import pytest
import zxingcpp
from django.template.loader import render_to_string
from django.utils.html import strip_tags
from pypdf import PdfReader

from courses.documents.certificate import draw_certificate
from courses.queries.certificate_words import certificate_words
from tests.factories.certificates import make_facts

NAME = "Ægir Þórðarson-Łukasiewicz"


@pytest.fixture
def words():
    return certificate_words(make_facts(3, holder=NAME, remarks=("It holds at the stages named.",)))


@pytest.fixture
def drawn(words) -> bytes:
    return draw_certificate(words)


@pytest.fixture
def pdf(drawn):
    with pikepdf.open(BytesIO(drawn)) as opened:
        yield opened


def elements(pdf) -> list[pikepdf.Dictionary]:
    return list(pdf.Root.StructTreeRoot.K.K)


def squeezed(text: str) -> str:
    return normalize("NFC", "".join(text.split()))


def marked(pdf) -> list[tuple[str, int | None]]:
    """What the page draws, as (tag, number of the mark), in order; None where it is ornament."""
    found = []
    for instruction in pikepdf.parse_content_stream(pdf.pages[0]):
        if str(instruction.operator) in ("BDC", "BMC"):
            tag, *rest = instruction.operands
            found.append((str(tag), int(rest[0]["/MCID"]) if rest else None))
    return found


def test_pdf_1_every_mark_belongs_to_one_element_of_the_tree(pdf) -> None:
    numbers = [number for _tag, number in marked(pdf) if number is not None]
    assert numbers == list(range(len(numbers)))
    assert [int(each.K) for each in elements(pdf)] == numbers
    assert len(pdf.Root.StructTreeRoot.ParentTree.Nums[1]) == len(numbers)


def test_pdf_2_it_is_tagged_and_claims_no_more(pdf, drawn) -> None:
    assert bool(pdf.Root.MarkInfo.Marked)
    assert b"pdfuaid" not in drawn


def test_pdf_3_every_font_is_embedded_and_maps_to_letters(pdf) -> None:
    fonts = list(pdf.pages[0].Resources.Font.values())
    assert fonts
    assert [font for font in fonts if "/FontFile2" not in font.FontDescriptor or "/ToUnicode" not in font] == []


def test_pdf_4_language_and_title_stand_in_the_catalogue_and_both_descriptions(pdf, words) -> None:
    title = f"{words.title} {words.number}"
    assert (str(pdf.Root.Lang), str(pdf.docinfo.Title)) == (words.language, title)
    with pdf.open_metadata() as described:
        assert (described["dc:title"], list(described["dc:language"])) == (title, [words.language])
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
    latin = [each for each in elements(pdf) if str(each.get("/Lang", "")) == "la"]
    assert len(latin) == len(words.pairs)


def test_pdf_5_roles_alternatives_and_ornaments(pdf, words) -> None:
    roles = [str(each.S) for each in elements(pdf)]
    assert (roles.count("/H1"), roles.count("/H3"), roles.count("/Figure")) == (1, len(words.pairs), 1)
    figure = elements(pdf)[roles.index("/Figure")]
    assert str(figure.Alt) == words.qr_alt
    assert ("/Artifact", None) in marked(pdf)


def test_pdf_5_the_text_in_the_order_of_the_tags_is_that_of_the_page(drawn, words) -> None:
    page = render_to_string("courses/certificates/_words.html", {"words": words})
    printed = squeezed(PdfReader(BytesIO(drawn)).pages[0].extract_text())
    lost = [word for word in unescape(strip_tags(page)).split() if squeezed(word).strip(".,;:") not in printed]
    assert lost == []


def test_pdf_6_nothing_breaks_over_pages_however_much_it_says() -> None:
    most = certificate_words(make_facts(14, exception="One person decides. " * 4, remarks=("A remark. " * 8,)))
    with pikepdf.open(BytesIO(draw_certificate(most))) as opened:
        assert len(opened.pages) == 1
        opens = [str(each.operator) for each in pikepdf.parse_content_stream(opened.pages[0])]
        assert opens.count("BDC") + opens.count("BMC") == opens.count("EMC")


def test_pdf_7_it_is_not_locked_and_claims_no_archive_profile(pdf, drawn) -> None:
    assert not pdf.is_encrypted
    assert b"pdfaid" not in drawn


def test_pdf_8_the_page_says_the_same_and_the_code_leads_to_it(drawn, words) -> None:
    picture = pypdfium2.PdfDocument(drawn)[0].render(scale=2).to_pil()
    assert [code.text for code in zxingcpp.read_barcodes(picture)] == [words.check_address]
    assert words.check_address in render_to_string("courses/certificates/_words.html", {"words": words})


def test_pdf_9_the_same_record_gives_the_same_bytes(drawn) -> None:
    again = draw_certificate(certificate_words(make_facts(3, holder=NAME, remarks=("It holds at the stages named.",))))
    assert hashlib.sha256(again).hexdigest() == hashlib.sha256(drawn).hexdigest()
    other = draw_certificate(certificate_words(make_facts(3, holder="Another")))
    assert other != drawn


BLOCKS = [(0x00C0, 0x0180), (0x0180, 0x0250), (0x1E00, 0x1F00), (0x0386, 0x03CF), (0x1F00, 0x2000), (0x0400, 0x0500)]


@pytest.mark.parametrize(("first", "end"), BLOCKS)
def test_letters_of_latin_greek_and_cyrillic_come_back_as_they_were(first, end) -> None:
    """Every letter of the block, forty at a time."""
    letters = [chr(code) for code in range(first, end) if chr(code).isalpha()]
    for start in range(0, len(letters), 40):
        name = "".join(letters[start : start + 40])
        printed = PdfReader(BytesIO(draw_certificate(certificate_words(make_facts(1, holder=name))))).pages[0]
        assert squeezed(name) in squeezed(printed.extract_text())
