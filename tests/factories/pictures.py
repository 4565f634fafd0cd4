"""Makers of files as cameras and telephones write them, with everything that must not be served in them."""

import zlib
from io import BytesIO

import numpy as np
import pillow_heif
from PIL import Image
from PIL.PngImagePlugin import PngInfo

SERIAL, MAKER, WORDS = "SN-4711-0815", "Camera Works of Nowhere", "garden gate of the finder"
TELLTALES = [text.encode() for text in (SERIAL, MAKER, WORDS)]
GPS_LATITUDE = (51.0, 28.0, 40.5)
XMP = f'<x:xmpmeta xmlns:x="adobe:ns:meta/"><note>{WORDS}</note></x:xmpmeta>'.encode()
CORNERS = {"red": (200, 30, 30), "green": (30, 160, 40), "blue": (40, 60, 200), "white": (240, 240, 240)}
"""The colours of an upright picture's corners: upper left, upper right, lower left, lower right."""


def upright(width: int = 480, height: int = 360, seed: int = 0) -> Image.Image:
    """A picture whose corners tell how it lies, different for every seed."""
    waves = np.random.default_rng(seed).integers(60, 190, (6, 8, 3), dtype=np.uint8)
    image = Image.fromarray(waves).resize((width, height), Image.Resampling.BICUBIC)
    side = width // 6
    places = [(0, 0), (width - side, 0), (0, height - side), (width - side, height - side)]
    for colour, place in zip(CORNERS.values(), places, strict=True):
        image.paste(colour, (*place, place[0] + side, place[1] + side))
    return image


def corners_of(image: Image.Image) -> list[str]:
    """The colour at each corner, in reading order, by its nearest name."""
    width, height = image.size
    spots = [(8, 8), (width - 9, 8), (8, height - 9), (width - 9, height - 9)]
    found = [np.array(image.convert("RGB").getpixel(spot), dtype=int) for spot in spots]
    return [min(CORNERS, key=lambda name: abs(pixel - CORNERS[name]).sum()) for pixel in found]


def exif(orientation: int = 1, taken: str = "2026:04:12 10:11:12") -> Image.Exif:
    """What a camera writes: maker, serial number, place, day, and how it was held."""
    tags = Image.Exif()
    tags[0x010F], tags[0x0112], tags[0x9286] = MAKER, orientation, WORDS
    tags.get_ifd(0x8769).update({0xA431: SERIAL, 0x9003: taken})
    tags.get_ifd(0x8825).update({1: "N", 2: GPS_LATITUDE, 3: "W", 4: (2.0, 35.0, 0.0)})
    return tags


# How the sensor's picture lies for each orientation, so that turning it back gives the upright one.
_LYING = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def jpeg(orientation: int = 1, seed: int = 0, taken: str = "2026:04:12 10:11:12") -> bytes:
    """A camera's JPEG, held in one of the eight ways."""
    turn = _LYING[orientation]
    image = upright(seed=seed) if turn is None else upright(seed=seed).transpose(turn)
    out = BytesIO()
    image.save(out, "JPEG", quality=92, exif=exif(orientation, taken), xmp=XMP, comment=WORDS.encode())
    return out.getvalue()


def png(seed: int = 0) -> bytes:
    """A PNG with text and camera fields."""
    fields = PngInfo()
    fields.add_text("Author", WORDS)
    out = BytesIO()
    upright(seed=seed).save(out, "PNG", pnginfo=fields, exif=exif())
    return out.getvalue()


def webp(seed: int = 0) -> bytes:
    """A WebP with camera fields."""
    out = BytesIO()
    upright(seed=seed).save(out, "WEBP", exif=exif(), xmp=XMP)
    return out.getvalue()


def heic(seed: int = 0) -> bytes:
    """A telephone's HEIC."""
    out = BytesIO()
    pillow_heif.from_pillow(upright(seed=seed)).save(out, quality=90, exif=exif().tobytes(), xmp=XMP)
    return out.getvalue()


def huge_png_header() -> bytes:
    """A few bytes that promise a picture of 50 000 by 50 000 pixels."""
    out = BytesIO()
    Image.new("1", (400, 400)).save(out, "PNG")
    data = bytearray(out.getvalue())
    data[16:24] = (50_000).to_bytes(4, "big") * 2
    data[29:33] = zlib.crc32(bytes(data[12:29])).to_bytes(4, "big")
    return bytes(data)
