"""The certificate on paper, read back: the same words as on the page, tagged, embedded, and with a code that reads."""

from dataclasses import replace
from io import BytesIO

import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader

from courses.documents.certificate import draw_certificate
from courses.documents.facts import CertificateFacts, rounded_up
from courses.queries.certificate_words import certificate_words
from species.documents.fonts import CannotPrint
from tests.factories.certificates import make_facts

MOST_PAIRS = 14


def paper(pairs: int = 3, **fields: object) -> PdfReader:
    return PdfReader(BytesIO(draw_certificate(certificate_words(make_facts(pairs, **fields)))))


def squeezed(text: str) -> str:
    return "".join(text.split())


def printed(reader: PdfReader) -> str:
    return squeezed("".join(page.extract_text() for page in reader.pages))


@pytest.mark.parametrize("pairs", [1, 3, MOST_PAIRS])
def test_every_word_of_the_page_stands_on_the_paper(pairs) -> None:
    facts = make_facts(pairs, exception="One person decides.", remarks=("badleaf 1: photographs only (protected).",),
                       ownership="This certificate stays the property of the school.")  # fmt: skip
    words = certificate_words(facts)
    text = printed(PdfReader(BytesIO(draw_certificate(words))))
    sentences = [
        words.school, words.title, words.number, words.intro, words.holder, words.standard, words.statement,
        words.pairs_heading, words.exception, *words.remarks, words.ownership, words.cautions_heading, *words.cautions,
        words.check_sentence, words.check_address,
        *(part for line in words.lines for part in line),
        *(
            part
            for pair in words.pairs
            for part in (
                f"{pair.gathered.common} {pair.joined_by} {pair.mistaken.common}",
                pair.gathered.scientific, pair.mistaken.scientific, pair.stages, pair.evidence,
            )
        ),
    ]  # fmt: skip
    assert [each for each in sentences if squeezed(each) not in text] == []


def test_the_figures_are_those_of_the_record() -> None:
    text = printed(paper(2))
    assert squeezed("24 specimens (21 by photograph, 3 live at 2 meetings): none would have been gathered") in text
    assert squeezed("at most 17.3 % missed") in text  # 17.25, never rounded in favour of the holder
    assert squeezed("1 would have been gathered") in text
    assert squeezed("one in 5 or more") in text


@pytest.mark.parametrize("pairs", [1, 8, 9, 12, MOST_PAIRS])
def test_it_fits_one_page_with_room_for_the_longest_words(pairs) -> None:
    exception = "The school has one person who decides, and that person also taught and assessed the holder."
    reader = paper(pairs, exception=exception, ownership=f"This certificate stays the property of {'Wild ' * 22}Food.")
    assert len(reader.pages) == 1
    lowest = []
    reader.pages[0].extract_text(visitor_text=lambda text, _cm, tm, *_rest: text.strip() and lowest.append(tm[5]))
    assert min(lowest) > 30  # inside the frame


@pytest.mark.parametrize("pairs", [1, MOST_PAIRS])
def test_long_names_stay_inside_the_frame_and_on_the_page(pairs) -> None:
    facts = make_facts(
        pairs, holder="Wilhelmina Theodora " * 4 + "Longname", school="School of Wild Food of the Long Coast " * 3,
        decider="Bartholomew Maximilian Longername-Longestname", region="The Long Coast and the Hills behind it",
    )  # fmt: skip
    words = certificate_words(facts)
    words = replace(words, standard=f"passed the pairs below of the standard {'Leader of walks ' * 5}, version 12")
    page = pypdfium2.PdfDocument(draw_certificate(words))
    assert len(page) == 1
    text = page[0].get_textpage()
    left, right, low = zip(
        *((box[0], box[2], box[1]) for box in map(text.get_rect, range(text.count_rects()))), strict=True
    )
    assert min(left) > 27 < min(low)  # where the inner line of the frame stands
    assert max(right) < page[0].get_width() - 27


def test_it_says_its_language_and_title_and_can_be_read_aloud() -> None:
    reader = paper()
    root = reader.root_object
    assert root["/Lang"] == "en"
    assert reader.metadata.title == "Certificate of identification No. 2026-0007"
    assert root["/MarkInfo"]["/Marked"]
    elements = [each.get_object() for each in root["/StructTreeRoot"]["/K"].get_object()["/K"]]
    roles = [each["/S"] for each in elements]
    assert roles.count("/H1") == 1
    assert roles.count("/H3") == 3
    figure = elements[roles.index("/Figure")]
    assert "2026-0007" in figure["/Alt"]


def test_every_font_is_embedded() -> None:
    fonts = [font.get_object() for font in paper().pages[0]["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "Helvetica" not in font["/BaseFont"]


def test_the_same_record_gives_the_same_bytes() -> None:
    facts = make_facts(4)
    assert draw_certificate(certificate_words(facts)) == draw_certificate(certificate_words(facts))


@pytest.mark.parametrize("pairs", [1, MOST_PAIRS])
def test_the_code_leads_to_the_check_page(pairs) -> None:
    drawn = draw_certificate(certificate_words(make_facts(pairs)))
    picture = pypdfium2.PdfDocument(drawn)[0].render(scale=2).to_pil()
    assert [code.text for code in zxingcpp.read_barcodes(picture)] == ["https://school.example/check/abcDEF123/"]


def test_a_name_that_the_fonts_lack_is_refused_with_its_letters() -> None:
    with pytest.raises(CannotPrint) as refused:
        paper(holder="花 Participant")
    assert refused.value.letters == "花"


@pytest.mark.parametrize("name", ["Séamus Ó hÉigeartaigh", "Łucja Żółć", "Ελένη", "Наталія"])
def test_names_in_latin_greek_and_cyrillic_are_printed(name) -> None:
    assert squeezed(name) in printed(paper(holder=name))


def test_a_record_comes_back_from_storage_as_it_was() -> None:
    facts = make_facts(3, remarks=("One.",))
    assert CertificateFacts.from_json(facts.as_json()) == facts
    stored = facts.as_json()
    del stored["remarks"]
    assert CertificateFacts.from_json(stored) == replace(facts, remarks=())


@pytest.mark.parametrize(
    ("number", "places", "rounded"),
    [
        (17.25, 1, 17.3),
        (17.2, 1, 17.2),
        (17.2001, 1, 17.3),
        (7.000000000000001, 1, 7.0),
        (0.12341, 4, 0.1235),
        (0, 1, 0),
    ],
)
def test_limits_are_rounded_up(number, places, rounded) -> None:
    assert rounded_up(number, places) == rounded
