"""What a file claims to be by its name, and what it is by its first bytes. Only four kinds of picture are taken."""

from dataclasses import dataclass
from enum import StrEnum
from pathlib import PurePath


class Kind(StrEnum):
    """A kind of picture that is taken."""

    JPEG = "JPEG"
    PNG = "PNG"
    WEBP = "WebP"
    HEIC = "HEIC"


class Unfit(StrEnum):
    """Why a file is not even opened as a picture."""

    EMPTY = "the file is empty"
    OTHER_NAME = "its name ends in none of the kinds that are taken"
    OTHER_CONTENT = "it holds no picture of a kind that is taken"
    NAME_LIES = "it holds another kind of picture than its name says"


@dataclass(frozen=True)
class Mismatch:
    """Why a file is unfit, and the word that helps: the ending, or the kind that it holds."""

    why: Unfit
    word: str = ""


SUFFIXES = {
    ".jpg": Kind.JPEG,
    ".jpeg": Kind.JPEG,
    ".png": Kind.PNG,
    ".webp": Kind.WEBP,
    ".heic": Kind.HEIC,
    ".heif": Kind.HEIC,
}
# The brands of still pictures in HEVC, ISO/IEC 23008-12; an AVIF or a film has others.
_HEIC_BRANDS = {b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"}


def kind_by_content(head: bytes) -> Kind | None:
    """The kind of picture that the first 12 bytes announce."""
    if head.startswith(b"\xff\xd8\xff"):
        return Kind.JPEG
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return Kind.PNG
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return Kind.WEBP
    if head[4:8] == b"ftyp" and head[8:12] in _HEIC_BRANDS:
        return Kind.HEIC
    return None


def mismatch(name: str, head: bytes) -> Mismatch | None:
    """Why a file of this name that begins so is unfit; None when name and content agree."""
    suffix = PurePath(name).suffix.lower()
    if not head:
        return Mismatch(Unfit.EMPTY)
    if suffix not in SUFFIXES:
        return Mismatch(Unfit.OTHER_NAME, suffix)
    kind = kind_by_content(head)
    if kind is None:
        return Mismatch(Unfit.OTHER_CONTENT)
    return None if kind == SUFFIXES[suffix] else Mismatch(Unfit.NAME_LIES, kind.value)
