"""Pictures on paper: a photograph or plate in its box, and the small drawing of a state."""

from dataclasses import dataclass
from io import BytesIO

from reportlab.lib.colors import HexColor
from reportlab.lib.utils import ImageReader

from species.documents.page import WARM, Paper
from species.documents.signs.sketch import SIDE, Stroke


@dataclass(frozen=True)
class PrintedPicture:
    """The bytes of a JPEG, what it shows in words, and the line under it (empty for none)."""

    content: bytes
    alt: str
    caption: str


def draw_picture(paper: Paper, picture: PrintedPicture, x: float, top: float, width: float, height: float) -> None:
    """The picture as large as its box allows, in the middle, with a thin line round it."""
    image = ImageReader(BytesIO(picture.content))
    wide, high = image.getSize()
    scale = min(width / wide, height / high)
    w, h = wide * scale, high * scale
    left, bottom = x + (width - w) / 2, top - h
    with paper.element("Figure", alt=picture.alt) as canvas:
        canvas.drawImage(image, left, bottom, w, h)
    with paper.ornament() as canvas:
        canvas.setStrokeColor(WARM)
        canvas.setLineWidth(0.5)
        canvas.rect(left, bottom, w, h)


def draw_strokes(paper: Paper, strokes: tuple[Stroke, ...], x: float, top: float, side: float) -> None:
    """The drawing of a state as an ornament: the words beside it say the same."""
    scale = side / SIDE
    with paper.ornament() as canvas:
        canvas.saveState()
        canvas.translate(x, top)
        canvas.scale(scale, -scale)
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
        for stroke in strokes:
            path = canvas.beginPath()
            for letter, numbers in stroke.pieces:
                step = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}[letter]
                step(*numbers)
            canvas.setStrokeColor(HexColor(stroke.ink))
            canvas.setLineWidth(stroke.width)
            if stroke.fill:
                canvas.setFillColor(HexColor(stroke.fill))
            canvas.drawPath(path, stroke=int(bool(stroke.width)), fill=int(bool(stroke.fill)))
        canvas.restoreState()
