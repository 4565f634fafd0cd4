"""From a file as a camera wrote it to the files that are served: turned upright, stripped, in several widths.

Plain bytes in, plain bytes out; every refusal is a `BadPicture` with a reason.
"""

import hashlib
import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

import numpy as np
import pi_heif
from PIL import Image, ImageOps, UnidentifiedImageError

from species.rules.likeness import SIDE, fingerprint

pi_heif.register_heif_opener()
Image.init()  # the plug-ins that are not loaded by themselves, WebP among them
# Only these are opened, whatever the name of the file says; no vector format is among them.
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
EXIF_ORIENTATION, EXIF_TAKEN_AT, EXIF_SUB = 0x0112, 0x9003, 0x8769
JPEG_QUALITY, WEBP_QUALITY = 82, 76


class Refusal(StrEnum):
    """Why a file is not taken."""

    TOO_LARGE = "too large a file"
    NO_PICTURE = "no picture of a kind that is taken (JPEG, PNG, WebP, HEIC)"
    TOO_MANY_PIXELS = "too many pixels"
    TOO_SMALL = "too small to show a character"
    BROKEN = "broken or cut short"


class BadPicture(Exception):
    """A file that is not taken: the reason, and a figure where one helps."""

    def __init__(self, reason: Refusal, figure: str = "") -> None:
        super().__init__(f"{reason.value}{': ' + figure if figure else ''}")
        self.reason = reason
        self.figure = figure


@dataclass(frozen=True)
class Limits:
    """What is taken: bytes of the file, pixels of the picture, and the shortest useful long side."""

    bytes: int = 40_000_000
    pixels: int = 100_000_000
    shortest_long_side: int = 300


@dataclass(frozen=True)
class Rendition:
    """One file to be served. It holds no metadata."""

    width: int
    height: int
    media_type: str
    content: bytes


@dataclass(frozen=True)
class Picture:
    """What was read from a file: its upright size, when it was taken if it says so, and what is served of it."""

    sha256: str
    width: int
    height: int
    likeness: str
    taken_at: datetime | None
    renditions: tuple[Rendition, ...]


def read_picture(
    original: bytes, widths: Sequence[int], limits: Limits | None = None, with_webp: bool = True
) -> Picture:
    """Read one picture and make its renditions, never wider than the picture itself.

    widths: in px, of the upright picture. Raises BadPicture. The size limit is checked before the header is
    read, the pixel limit before anything is decoded.
    """
    limits = limits or Limits()
    if len(original) > limits.bytes:
        raise BadPicture(Refusal.TOO_LARGE, f"{len(original)} bytes, at most {limits.bytes}")
    image = _open(original, limits)
    turned = _is_turned(image)
    taken_at = _taken_at(image)
    full_width, full_height = (image.height, image.width) if turned else image.size
    widest = min(max(widths), full_width)
    upright = _decode(image, widest, turned)
    made: list[Rendition] = []
    for width in sorted({min(each, full_width) for each in widths}):
        height = max(1, round(full_height * width / full_width))
        sized = upright.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)
        made.append(Rendition(width, height, "image/jpeg", _encode(sized, "JPEG")))
        if with_webp:
            made.append(Rendition(width, height, "image/webp", _encode(sized, "WEBP")))
    small = np.asarray(upright.convert("L").resize((SIDE, SIDE), Image.Resampling.LANCZOS), dtype=float)
    return Picture(
        hashlib.sha256(original).hexdigest(),
        full_width,
        full_height,
        f"{fingerprint(small):016x}",
        taken_at,
        tuple(made),
    )


def _open(original: bytes, limits: Limits) -> Image.Image:
    try:
        image = Image.open(io.BytesIO(original), formats=FORMATS)
    except Image.DecompressionBombError as error:
        raise BadPicture(Refusal.TOO_MANY_PIXELS, str(limits.pixels)) from error
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise BadPicture(Refusal.NO_PICTURE) from error
    if image.width * image.height > limits.pixels:
        raise BadPicture(Refusal.TOO_MANY_PIXELS, f"{image.width} x {image.height}, at most {limits.pixels}")
    if max(image.size) < limits.shortest_long_side:
        raise BadPicture(Refusal.TOO_SMALL, f"{image.width} x {image.height}")
    return image


def _is_turned(image: Image.Image) -> bool:
    """Whether the picture lies on its side. To say so, a PNG may have to be decoded to its end."""
    try:
        return image.getexif().get(EXIF_ORIENTATION) in (5, 6, 7, 8)
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        raise BadPicture(Refusal.BROKEN) from error


def _decode(image: Image.Image, widest: int, turned: bool) -> Image.Image:
    """The picture upright, in RGB, at least `widest` px wide; a JPEG is decoded no larger than needed."""
    scale = widest / (image.height if turned else image.width)
    # the box must have the picture's own shape, or the decoder keeps the full size
    image.draft("RGB", (max(1, int(image.width * scale)), max(1, int(image.height * scale))))
    try:
        image.load()
        upright = ImageOps.exif_transpose(image)
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        raise BadPicture(Refusal.BROKEN) from error
    if upright.mode in ("RGBA", "LA", "PA", "P"):
        paper = Image.new("RGB", upright.size, "white")
        layered = upright.convert("RGBA")
        paper.paste(layered, mask=layered.getchannel("A"))
        return paper
    return upright.convert("RGB")


def _encode(image: Image.Image, kind: str) -> bytes:
    """The bytes of a fresh picture: nothing of the original's metadata goes along."""
    out = io.BytesIO()
    image.info = {}  # else a comment, a profile or a field of the original would be written again
    if kind == "JPEG":
        image.save(out, "JPEG", quality=JPEG_QUALITY, optimize=True, progressive=True)
    else:
        image.save(out, "WEBP", quality=WEBP_QUALITY, method=4)
    return out.getvalue()


def _taken_at(image: Image.Image) -> datetime | None:
    """The moment of taking as the camera wrote it, without a zone; None where it says nothing readable."""
    try:
        exif = image.getexif()
        word = exif.get_ifd(EXIF_SUB).get(EXIF_TAKEN_AT) or exif.get(EXIF_TAKEN_AT)
        return datetime.strptime(str(word).strip("\x00 "), "%Y:%m:%d %H:%M:%S") if word else None
    except (ValueError, OSError, SyntaxError):
        return None
