"""What a camera wrote into a file beside the picture: how it was held, when and where, and which camera it was."""

import hashlib
import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from PIL import Image

ORIENTATION, MAKER, MODEL = 0x0112, 0x010F, 0x0110
SUB, TAKEN_AT, SERIAL = 0x8769, 0x9003, 0xA431
GPS, LATITUDE_SIDE, LATITUDE, LONGITUDE_SIDE, LONGITUDE = 0x8825, 1, 2, 3, 4
_UNREADABLE = (OSError, SyntaxError, ValueError, EOFError, TypeError, KeyError, ZeroDivisionError)


@dataclass(frozen=True)
class Place:
    """Where the camera was, in degrees; north and east are positive."""

    latitude: float
    longitude: float


@dataclass(frozen=True)
class CameraFacts:
    """What is kept of it, for sorting: never served. `camera` is a mark that tells one camera from another."""

    taken_at: datetime | None = None
    place: Place | None = None
    camera: str = ""


def is_turned(image: Image.Image) -> bool:
    """Whether the picture lies on its side. To say so, a PNG may have to be decoded to its end, and may raise."""
    return image.getexif().get(ORIENTATION) in (5, 6, 7, 8)


def camera_facts(image: Image.Image) -> CameraFacts:
    """What the file says, each thing by itself: what cannot be read or be true is left out."""
    try:
        exif = image.getexif()
    except _UNREADABLE:
        return CameraFacts()
    sub, gps = _part(exif, SUB), _part(exif, GPS)
    return CameraFacts(_taken_at(sub.get(TAKEN_AT) or exif.get(TAKEN_AT)), _place(gps), _mark(exif, sub))


def _part(exif: Image.Exif, tag: int) -> Mapping[int, Any]:
    try:
        return exif.get_ifd(tag)
    except _UNREADABLE:
        return {}


def _taken_at(word: object) -> datetime | None:
    """The moment by the camera's clock, without a zone. A month 13 is no moment."""
    try:
        return datetime.strptime(str(word).strip("\x00 "), "%Y:%m:%d %H:%M:%S") if word else None
    except ValueError:
        return None


def _place(gps: Mapping[int, Any]) -> Place | None:
    try:
        latitude = _degrees(gps[LATITUDE], str(gps[LATITUDE_SIDE]) in "Ss")
        longitude = _degrees(gps[LONGITUDE], str(gps[LONGITUDE_SIDE]) in "Ww")
    except _UNREADABLE:
        return None
    on_earth = abs(latitude) <= 90 and abs(longitude) <= 180  # a NaN is on no side of that
    return Place(latitude, longitude) if on_earth and (latitude or longitude) else None


def _degrees(parts: Any, is_negative: bool) -> float:
    degrees, minutes, seconds = (float(part) for part in parts)
    found = degrees + minutes / 60 + seconds / 3600
    if not math.isfinite(found):
        raise ValueError("no number")
    return round(-found if is_negative else found, 5)


def _mark(exif: Image.Exif, sub: Mapping[int, Any]) -> str:
    """Twelve hexadecimal digits for maker, model and serial number, so that none of them is kept."""
    words = [str(each).strip("\x00 ") for each in (exif.get(MAKER), exif.get(MODEL), sub.get(SERIAL)) if each]
    return hashlib.sha256("\n".join(words).encode()).hexdigest()[:12] if words else ""
