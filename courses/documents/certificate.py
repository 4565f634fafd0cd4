"""The certificate on paper: one page A4, from finished words. Same words, same bytes."""

from reportlab.pdfgen.canvas import Canvas

from courses.documents.qr import qr_rows
from courses.documents.words import CertificateWords, PairWords
from species.documents.fonts import ITALIC
from species.documents.page import MARGIN, PAGE_HEIGHT, PAGE_WIDTH, QUIET, WARM, Paper

WIDTH = PAGE_WIDTH - 2 * MARGIN
QR_SIDE = 84.0
COLUMN_GAP = 18.0
FOOT = 52.0


def draw_certificate(words: CertificateWords) -> bytes:
    """The PDF. Raises species.documents.page.CannotPrint where a name holds letters that the fonts lack."""
    paper = Paper(f"{words.title} {words.number}", words.language, words.school, words.standard)
    _frame(paper)
    y = _head(paper, words)
    y = _pairs(paper, words, y)
    y = _figures(paper, words, y)
    _foot(paper, words, y)
    return paper.finish()


def _frame(paper: Paper) -> None:
    with paper.ornament() as canvas:
        canvas.setStrokeColor(WARM)
        for inset, width in ((22, 1.4), (27, 0.4)):
            canvas.setLineWidth(width)
            canvas.rect(inset, inset, PAGE_WIDTH - 2 * inset, PAGE_HEIGHT - 2 * inset)
        _sprig(canvas, PAGE_WIDTH / 2, PAGE_HEIGHT - 22)


def _sprig(canvas: Canvas, x: float, y: float) -> None:
    """A small umbel growing through the frame: eleven rays, each with its flower."""
    canvas.setFillColorRGB(1, 1, 1)
    canvas.rect(x - 30, y - 10, 60, 16, stroke=0, fill=1)
    canvas.setLineWidth(0.7)
    canvas.line(x, y - 14, x, y - 6)
    for step in range(-5, 6):
        top = y + 8 - step * step * 0.36
        canvas.line(x, y - 6, x + step * 4.6, top)
        canvas.circle(x + step * 4.6, top, 1.3, stroke=0, fill=0)
        canvas.setFillColor(WARM)
        canvas.circle(x + step * 4.6, top, 1.3, stroke=0, fill=1)


def _head(paper: Paper, words: CertificateWords) -> float:
    middle, y = PAGE_WIDTH / 2, PAGE_HEIGHT - 66
    y = paper.text(middle, y, words.school, 13, role="P", centred=True, bold=True, width=WIDTH)
    y = paper.text(middle, y - 10, words.title, 21, role="H1", centred=True)
    y = paper.text(middle, y + 6, words.number, 9.5, centred=True, colour=QUIET)
    y = paper.text(middle, y - 6, words.intro, 10, centred=True, colour=QUIET)
    y = paper.text(middle, y - 8, words.holder, 19, centred=True, bold=True, width=WIDTH)
    y = paper.text(middle, y + 3, words.standard, 10.5, centred=True, width=WIDTH)
    return paper.text(MARGIN, y - 6, words.statement, 8.6, width=WIDTH)


def _pairs(paper: Paper, words: CertificateWords, y: float) -> float:
    """Two columns of pairs; the type gets smaller where there are many."""
    paper.rule(y - 1)
    y = paper.text(MARGIN, y - 15, words.pairs_heading, 11.5, role="H2", bold=True)
    count = len(words.pairs)
    size = 8.2 if count <= 8 else 7.4 if count <= 12 else 6.9
    width = (WIDTH - COLUMN_GAP) / 2
    half = (count + 1) // 2
    lowest = y
    for column, pairs in enumerate((words.pairs[:half], words.pairs[half:])):
        x, at = MARGIN + column * (width + COLUMN_GAP), y
        for pair in pairs:
            at = _pair(paper, pair, x, at, width, size)
        lowest = min(lowest, at)
    return lowest


def _pair(paper: Paper, pair: PairWords, x: float, y: float, width: float, size: float) -> float:
    names = f"{pair.gathered.common} {pair.joined_by} {pair.mistaken.common}"
    y = paper.text(x, y, names, size + 1, role="H3", bold=True, width=width)
    latin = f"{pair.gathered.scientific} – {pair.mistaken.scientific}"
    y = paper.text(x, y, latin, size, font=ITALIC, width=width, colour=QUIET, language="la")
    evidence = f"{pair.stages}. {pair.evidence}" if pair.stages else pair.evidence
    return paper.text(x, y, evidence, size, width=width, leading=1.25) - size * 0.42


def _figures(paper: Paper, words: CertificateWords, y: float) -> float:
    paper.rule(y + 3)
    y -= 10
    third = WIDTH / 3
    for start in range(0, len(words.lines), 3):
        lowest = y
        for column, (label, value) in enumerate(words.lines[start : start + 3]):
            x = MARGIN + column * third
            paper.text(x, y, label, 7, colour=QUIET)
            lowest = min(lowest, paper.text(x, y - 10, value, 9, width=third - 8))
        y = lowest - 2
    return y


def _foot(paper: Paper, words: CertificateWords, y: float) -> None:
    width = WIDTH - QR_SIDE - 16
    y = min(y, FOOT + QR_SIDE + 24)
    paper.rule(y + 8)
    top = y - 6
    for sentence in (words.exception, *words.remarks, words.ownership):
        if sentence:
            top = paper.text(MARGIN, top, sentence, 7.6, width=width, bold=sentence == words.exception)
    top = paper.text(MARGIN, top, words.cautions_heading, 8.6, role="H2", bold=True)
    top = paper.text(MARGIN, top, " ".join(words.cautions), 7.4, width=width)
    top = paper.text(MARGIN, top - 2, words.check_sentence, 7.4, colour=QUIET)
    paper.text(MARGIN, top, words.check_address, 7.4, width=width)
    _qr(paper, words, PAGE_WIDTH - MARGIN - QR_SIDE, y - QR_SIDE + 2)


def _qr(paper: Paper, words: CertificateWords, x: float, y: float) -> None:
    rows = qr_rows(words.check_address)
    side = QR_SIDE / len(rows)
    with paper.element("Figure", alt=words.qr_alt) as canvas:
        canvas.setFillColorRGB(0, 0, 0)
        for number, row in enumerate(rows):
            for column, dark in enumerate(row):
                if dark:
                    canvas.rect(x + column * side, y + QR_SIDE - (number + 1) * side, side, side, stroke=0, fill=1)
