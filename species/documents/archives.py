"""A ZIP archive of photographs, looked through before anything of it is unpacked.

An archive that is a trap in any of its members is refused whole: more members or more bytes than the limits, a
member that unpacks to many times its size, a way out of the folder, a link, a lock. Members are read one at a
time, into memory only and never under their own names. An archive inside an archive is never opened.
"""

import stat
import struct
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import partial
from typing import IO

_END = struct.Struct("<4s4H2LH")
_END_MARK = b"PK\x05\x06"
_LONGEST_COMMENT = 0xFFFF
_BYTES_OF_AN_ENTRY = 1_000
"""What one line of the list of contents may take up: a path and what is said beside it."""
_SMALL = 1_000_000
"""Below this a high ratio is no trap: a table of a few lines repeats itself."""


class ArchiveRefusal(StrEnum):
    """Why an archive is not taken."""

    NO_ARCHIVE = "no ZIP archive, or cut short"
    TOO_LARGE = "too large a file"
    TOO_MANY = "too many files in it"
    TOO_MUCH = "unpacks to too much"
    TOO_DENSE = "a file in it unpacks to many times its size"
    LEAVES_FOLDER = "a path in it leads out of the folder"
    LINK = "a link is in it"
    LOCKED = "it is locked with a password"
    TWICE = "two files in it have the same path"


class BadArchive(Exception):
    """An archive that is not taken: the reason, and the member or the figure that it is about."""

    def __init__(self, reason: ArchiveRefusal, figure: str = "") -> None:
        super().__init__(f"{reason.value}{': ' + figure if figure else ''}")
        self.reason = reason
        self.figure = figure


class BrokenMember(OSError):
    """A member that cannot be unpacked: its bytes do not fit what the archive says of them."""


@dataclass(frozen=True)
class ArchiveLimits:
    """What is taken: bytes of the archive, files in it, bytes in all of them, and bytes per packed byte."""

    bytes: int = 500_000_000
    members: int = 500
    unpacked: int = 2_000_000_000
    ratio: int = 20


@dataclass(frozen=True)
class Member:
    """One file of an archive: its path, its size unpacked, and how to read it (raises BrokenMember)."""

    name: str
    size: int
    read: Callable[[], bytes]


def members_of(file: IO[bytes], size: int, limits: ArchiveLimits | None = None) -> tuple[Member, ...]:
    """The files of an archive, folders and what systems hide in it left out; nothing is unpacked yet.

    size: bytes of the archive. Raises BadArchive. The archive has to stay open while members are read.
    """
    limits = limits or ArchiveLimits()
    if size > limits.bytes:
        raise BadArchive(ArchiveRefusal.TOO_LARGE, f"{size} bytes, at most {limits.bytes}")
    _check_length_of_list(file, size, limits)
    try:
        archive = zipfile.ZipFile(file)
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, struct.error) as error:
        raise BadArchive(ArchiveRefusal.NO_ARCHIVE) from error
    entries = [each for each in archive.infolist() if not each.is_dir()]
    _check_all(entries, limits)
    for each in entries:
        _check(each, limits)
    shown = [each for each in entries if not _is_hidden(each.filename)]
    return tuple(Member(each.filename, each.file_size, partial(_read, archive, each)) for each in shown)


def _check_length_of_list(file: IO[bytes], size: int, limits: ArchiveLimits) -> None:
    """The list of contents is read in one piece, so its length is looked at first."""
    file.seek(max(0, size - _LONGEST_COMMENT - _END.size))
    tail = file.read(_LONGEST_COMMENT + _END.size)
    place = tail.rfind(_END_MARK)
    if place < 0 or len(tail) - place < _END.size:
        raise BadArchive(ArchiveRefusal.NO_ARCHIVE)
    _mark, _disk, _start, _here, entries, length, _offset, _comment = _END.unpack_from(tail, place)
    if entries > limits.members or length > limits.members * _BYTES_OF_AN_ENTRY:
        raise BadArchive(ArchiveRefusal.TOO_MANY, str(limits.members))
    file.seek(0)


def _check_all(entries: list[zipfile.ZipInfo], limits: ArchiveLimits) -> None:
    if len(entries) > limits.members:
        raise BadArchive(ArchiveRefusal.TOO_MANY, str(limits.members))
    unpacked = sum(each.file_size for each in entries)
    if unpacked > limits.unpacked:
        raise BadArchive(ArchiveRefusal.TOO_MUCH, f"{unpacked} bytes, at most {limits.unpacked}")
    names: set[str] = set()
    for each in entries:
        if each.filename.casefold() in names:
            raise BadArchive(ArchiveRefusal.TWICE, each.filename)
        names.add(each.filename.casefold())


def _check(entry: zipfile.ZipInfo, limits: ArchiveLimits) -> None:
    parts = entry.filename.replace("\\", "/").split("/")
    if ".." in parts or parts[0] == "" or ":" in parts[0] or "\0" in entry.orig_filename:
        raise BadArchive(ArchiveRefusal.LEAVES_FOLDER, entry.filename)
    if stat.S_ISLNK(entry.external_attr >> 16):
        raise BadArchive(ArchiveRefusal.LINK, entry.filename)
    if entry.flag_bits & 0x1:
        raise BadArchive(ArchiveRefusal.LOCKED, entry.filename)
    if entry.file_size > max(_SMALL, limits.ratio * entry.compress_size):
        raise BadArchive(ArchiveRefusal.TOO_DENSE, entry.filename)


def _is_hidden(name: str) -> bool:
    """What a system puts beside the photographs: its own folders and files with a dot in front."""
    return any(part.startswith(".") or part == "__MACOSX" for part in name.split("/"))


def _read(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """One member; never more than the archive said it holds."""
    try:
        with archive.open(entry) as member:
            content = member.read(entry.file_size + 1)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as error:
        raise BrokenMember(entry.filename) from error
    if len(content) != entry.file_size:
        raise BrokenMember(entry.filename)
    return content
