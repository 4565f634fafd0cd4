"""What printing certificates costs: two hundred of them, against bare pages of the same content.

    .venv/bin/python -m tests.bench.certificates

The floor draws the same lines of text in the same fonts and the same code of squares with the library's own canvas:
untagged, without the breaking of lines, which is done beforehand. CPU time of whole documents; every round measures
both sides one after the other; nothing is asserted. Signing is measured beside it.
"""

import os
import platform
import time
from collections.abc import Callable
from io import BytesIO
from statistics import median

os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
import django

django.setup()

import segno
from pypdf import PdfReader
from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from courses.documents.certificate import draw_certificate
from courses.documents.words import CertificateWords
from courses.queries.certificate_words import certificate_words
from courses.rules.tokens import genuine, new_key, signed
from species.documents.fonts import ITALIC, SERIF, register_fonts
from tests.factories.certificates import make_facts

CERTIFICATES, ROUNDS, PAIRS = 200, 5, 6
MODULE = 84 / 33

Line = tuple[str, float, float, float, str]


def records(count: int) -> list[CertificateWords]:
    """So many certificates of different people."""
    return [
        certificate_words(
            make_facts(
                PAIRS,
                number=f"2026-{number:04d}",
                holder=f"Holder Number {number}",
                check_address=f"https://school.example/check/{number:022d}/",
            )
        )
        for number in range(count)
    ]


def lines_of(words: CertificateWords) -> list[Line]:
    """Every line that the certificate prints, with its place, size and font, as it was broken."""
    found: list[Line] = []

    def note(text: str, _cm: object, matrix: list[float], font: dict[str, str] | None, size: float) -> None:
        if text.strip():
            name = ITALIC if font and "Italic" in str(font.get("/BaseFont")) else SERIF
            found.extend((each, matrix[4], matrix[5], size or 8, name) for each in text.split("\n") if each.strip())

    PdfReader(BytesIO(draw_certificate(words))).pages[0].extract_text(visitor_text=note)
    return found


def bare_page(lines: list[Line], address: str) -> bytes:
    """The same lines and the same code with nothing but the library."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=A4, invariant=1, initialFontName=SERIF)
    for text, x, y, size, font in lines:
        canvas.setFont(font, size)
        canvas.drawString(x, y, text)
    for row, squares in enumerate(segno.make(address, error="m", micro=False).matrix):
        for column, dark in enumerate(squares):
            if dark:
                canvas.rect(460 + column * MODULE, 130 - row * MODULE, MODULE, MODULE, stroke=0, fill=1)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def cpu_of(call: Callable[[], object]) -> float:
    """CPU seconds of one call."""
    started = time.process_time()
    call()
    return time.process_time() - started


def measured(count: int = CERTIFICATES, rounds: int = ROUNDS) -> dict[str, float]:
    """Median CPU milliseconds per certificate on either side, and the ratio of the medians."""
    register_fonts()
    all_words = records(count)
    broken = [(lines_of(words), words.check_address) for words in all_words[:1]] * count
    sides: dict[str, list[float]] = {"ours": [], "bare": []}
    for _round in range(rounds):
        sides["ours"].append(cpu_of(lambda: [draw_certificate(words) for words in all_words]))
        sides["bare"].append(cpu_of(lambda: [bare_page(lines, address) for lines, address in broken]))
    found = {name: median(times) / count * 1000 for name, times in sides.items()}
    return {**found, "ratio": found["ours"] / found["bare"]}


def signing(count: int = CERTIFICATES) -> dict[str, float]:
    """CPU milliseconds of signing and of verifying one credential of usual length."""
    key, address = new_key(), "https://school.example/issuer/keys/k.json"
    said = {
        "issuer": "https://school.example/issuer/",
        "id": "x",
        "credentialSubject": {"id": "urn:x", "text": "x" * 3000},
        "validFrom": "2026-01-01T00:00:00Z",
        "iss": "https://school.example/issuer/",
        "jti": "x",
        "sub": "urn:x",
        "nbf": 1767225600,
    }
    token = signed(said, key, address)
    return {
        "signing": cpu_of(lambda: [signed(said, key, address) for _each in range(count)]) / count * 1000,
        "verifying": cpu_of(lambda: [genuine(token, {address: key}) for _each in range(count)]) / count * 1000,
    }


def main() -> None:
    """Measure and print."""
    found = measured()
    print(f"{CERTIFICATES} certificates of {PAIRS} pairs, Python {platform.python_version()}, {os.cpu_count()} cores")
    print(f"ours {found['ours']:.1f} ms, bare {found['bare']:.1f} ms, ratio {found['ratio']:.2f}")
    print(", ".join(f"{name} {value:.1f} ms" for name, value in signing().items()))


if __name__ == "__main__":
    main()
