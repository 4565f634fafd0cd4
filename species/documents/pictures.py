"""From a file as a camera wrote it to the files that are served: turned upright, stripped, in several widths.

Plain bytes in, plain bytes out; every refusal is a `BadPicture` with a reason.
"""

import hashlib
import io
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import pi_heif
from PIL import Image, ImageOps, UnidentifiedImageError

from species.documents.cameras import CameraFacts, camera_facts, is_turned
from species.documents.colours import in_srgb
from species.documents.renditions import Rendition, renditions_of
from species.rules.likeness import SIDE, fingerprint

pi_heif.register_heif_opener()
Image.init()  # the plug-ins that are not loaded by themselves, WebP among them
# Only these are opened, whatever the name of the file says; no vector format is among them.
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
_UNREADABLE = (OSError, SyntaxError, ValueError, EOFError)


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
class Picture:
    """What was read from a file: its upright size, what the camera says of it, and what is served of it."""

    sha256: str
    width: int
    height: int
    likeness: str
    facts: CameraFacts
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
    facts = camera_facts(image)
    full_width, full_height = (image.height, image.width) if turned else image.size
    widest = min(max(widths), full_width)
    upright = _decode(image, widest, turned)
    made = renditions_of(upright, (full_width, full_height), widths, with_webp)
    small = np.asarray(upright.convert("L").resize((SIDE, SIDE), Image.Resampling.LANCZOS, reducing_gap=2.0), float)
    sha256, likeness = hashlib.sha256(original).hexdigest(), f"{fingerprint(small):016x}"
    return Picture(sha256, full_width, full_height, likeness, facts, made)


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
    try:
        return is_turned(image)
    except _UNREADABLE as error:
        raise BadPicture(Refusal.BROKEN) from error


def _decode(image: Image.Image, widest: int, turned: bool) -> Image.Image:
    """The picture upright, in sRGB, at least `widest` px wide; a JPEG is decoded no larger than needed."""
    scale = widest / (image.height if turned else image.width)
    # the box must have the picture's own shape, or the decoder keeps the full size
    image.draft("RGB", (max(1, int(image.width * scale)), max(1, int(image.height * scale))))
    try:
        image.load()
        profile = image.info.get("icc_profile")
        upright = ImageOps.exif_transpose(image)
    except _UNREADABLE as error:
        raise BadPicture(Refusal.BROKEN) from error
    if upright.mode in ("RGBA", "LA", "PA", "P"):
        layered = upright.convert("RGBA")
        colours = in_srgb(layered.convert("RGB"), profile)
        paper = Image.new("RGB", upright.size, "white")
        paper.paste(colours, mask=layered.getchannel("A"))
        return paper
    return in_srgb(upright, profile).convert("RGB")
