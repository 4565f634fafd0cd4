"""The embedded serif of all that is printed, and what it has no letters for."""

from functools import cache
from importlib.resources import files

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

SERIF, ITALIC = "Kenspeckle-Serif", "Kenspeckle-Serif-Italic"


class CannotPrint(Exception):
    """A text holds letters that the fonts lack; `letters` are those."""

    def __init__(self, letters: str) -> None:
        super().__init__(f"cannot be printed: {letters}")
        self.letters = letters


@cache
def register_fonts() -> None:
    """Make the serif and its italic known, once per process."""
    folder = files("fontpkg_noto_serif") / "files"
    for name, file in ((SERIF, "NotoSerif[wdth,wght].ttf"), (ITALIC, "NotoSerif-Italic[wdth,wght].ttf")):
        try:
            pdfmetrics.registerFont(TTFont(name, str(folder / file)))
        except TTFError as error:
            raise RuntimeError("The serif of the package fontpkg-noto-serif cannot be read.") from error


def unprintable(text: str) -> str:
    """The letters of a text that the serif lacks, each once, in order; empty where all can be printed."""
    register_fonts()
    known = pdfmetrics.getFont(SERIF).face.charToGlyph
    return "".join(dict.fromkeys(letter for letter in text if ord(letter) not in known and not letter.isspace()))
