"""The bench of certificates still runs and compares like with like; how long it takes is nobody's test."""

from io import BytesIO

from pypdf import PdfReader

from courses.documents.certificate import draw_certificate

from . import certificates as bench


def squeezed(document: bytes) -> str:
    return "".join(PdfReader(BytesIO(document)).pages[0].extract_text().split())


def test_the_bare_page_holds_the_same_letters() -> None:
    (words,) = bench.records(1)
    bare = bench.bare_page(bench.lines_of(words), words.check_address)
    assert sorted(squeezed(bare)) == sorted(squeezed(draw_certificate(words)))


def test_every_side_is_measured() -> None:
    assert set(bench.measured(count=2, rounds=1)) == {"ours", "bare", "ratio"}
    assert all(value > 0 for value in bench.signing(count=2).values())
