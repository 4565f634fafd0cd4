"""The files that are served of a picture: several widths, no metadata, and light enough for a telephone."""

import io
from collections.abc import Sequence
from dataclasses import dataclass

from PIL import Image, ImageFilter

JPEG, WEBP = "image/jpeg", "image/webp"
PHONE_WIDTH = 1200
"""The widest that a telephone of 390 px asks for: three pixels of the screen to one of the page."""
PHONE_BYTES = 150_000
"""The most that any file of that width or less may weigh."""
QUALITIES = {JPEG: (82, 70, 58, 46, 36, 28, 20), WEBP: (76, 64, 52, 40, 28, 18, 10)}
_SHARE = (1.0, 0.74, 0.6, 0.48, 0.39, 0.31, 0.24)
"""Roughly what a file weighs at each of these qualities, against the first; only to guess where to begin."""
WEBP_FROM = 480
"""Narrower than this a WebP is no lighter than the JPEG, and costs as much to make as everything else together."""
_SOFTER = (0.8, 1.6, 3.2, 6.4, 12.8)


@dataclass(frozen=True)
class Rendition:
    """One file to be served. It holds no metadata."""

    width: int
    height: int
    media_type: str
    content: bytes


def renditions_of(
    upright: Image.Image, full: tuple[int, int], widths: Sequence[int], with_webp: bool = True
) -> tuple[Rendition, ...]:
    """The files of an upright RGB picture, narrowest first, none wider than the picture itself.

    full: width and height in px of the picture as it was taken; `upright` may be smaller than that. Each size
    is made from the next larger one. Beside the JPEG there is a WebP for the widths that telephones ask for most.
    """
    made: list[Rendition] = []
    larger = upright
    for width in sorted({min(each, full[0]) for each in widths}, reverse=True):
        height = max(1, round(full[1] * width / full[0]))
        sized = larger.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=2.0)
        sized.info = {}  # else a comment, a profile or a field of the original would be written again
        content, step = _fitting(sized, JPEG)
        made.append(Rendition(width, height, JPEG, content))
        if with_webp and WEBP_FROM <= width <= PHONE_WIDTH:  # what one kind needs, the other needs about as well
            made.append(Rendition(width, height, WEBP, _fitting(sized, WEBP, step)[0]))
        larger = sized
    made.sort(key=lambda each: (each.width, each.media_type))
    return tuple(made)


def encoded(image: Image.Image, media_type: str) -> bytes:
    """The bytes of one file; those that a telephone is sent keep to PHONE_BYTES, at whatever quality that takes.

    A picture that is nothing but noise is softened at last, rather than sent too heavy.
    """
    return _fitting(image, media_type)[0]


def _fitting(image: Image.Image, media_type: str, step: int = 0) -> tuple[bytes, int]:
    """The bytes of a file, and at which step of quality they fit; `step` is where to begin."""
    qualities = QUALITIES[media_type]
    content = _saved(image, media_type, qualities[step])
    if image.width > PHONE_WIDTH:
        return content, step
    while len(content) > PHONE_BYTES and step < len(qualities) - 1:
        step = max(step + 1, _guess(len(content) / _SHARE[step]))
        content = _saved(image, media_type, qualities[step])
    for radius in _SOFTER:
        if len(content) <= PHONE_BYTES:
            break
        content = _saved(image.filter(ImageFilter.GaussianBlur(radius)), media_type, qualities[-1])
    return content, step


def _guess(at_best: float) -> int:
    """The first step at which a file that weighs so much at the best quality may be light enough."""
    fitting = (step for step, share in enumerate(_SHARE) if at_best * share <= PHONE_BYTES)
    return next(fitting, len(_SHARE) - 1)


def _saved(image: Image.Image, media_type: str, quality: int) -> bytes:
    out = io.BytesIO()
    if media_type == JPEG:
        image.save(out, "JPEG", quality=quality, optimize=True)
    else:
        image.save(out, "WEBP", quality=quality, method=1)  # more effort: three times as long, a tenth lighter
    return out.getvalue()
