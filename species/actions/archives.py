"""A ZIP archive of photographs, with or without a manifest, as files that can be brought in one by one."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import IO

from species.actions.importing import Incoming
from species.documents.archives import ArchiveLimits, ArchiveRefusal, BadArchive, BrokenMember, Member, members_of
from species.queries.names import known_names
from species.rules.manifest import Entry, Manifest, plain_path, read_manifest

MANIFEST = "manifest.csv"
LARGEST_MANIFEST = 5_000_000


@dataclass(frozen=True)
class Unpacked:
    """The photographs of an archive as they can be brought in, and what is wrong with its manifest as a whole."""

    files: tuple[Incoming, ...]
    manifest: Manifest


def opened_archive(
    file: IO[bytes], size: int, entry: Entry, today: date, limits: ArchiveLimits, characters: str = ""
) -> Unpacked:
    """What lies in an archive. Raises BadArchive.

    A file `manifest.csv` on its top level says what the pictures are; `entry` is what is said about all others.
    Where the manifest cannot be used at all, no file is given: half of it would be brought in wrongly.
    """
    members = members_of(file, size, limits)
    tables = [each for each in members if each.name.casefold() == MANIFEST]
    pictures = {plain_path(each.name): each for each in members if each not in tables}
    manifest = _manifest(tables[0], set(pictures)) if tables else Manifest()
    if manifest.of_table and not manifest.entries:
        return Unpacked((), manifest)
    return Unpacked(tuple(_incoming(pictures, manifest, entry, today, characters)), manifest)


def _manifest(member: Member, files: set[str]) -> Manifest:
    if member.size > LARGEST_MANIFEST:
        raise BadArchive(ArchiveRefusal.TOO_MUCH, MANIFEST)
    try:
        content = member.read()
    except BrokenMember as error:
        raise BadArchive(ArchiveRefusal.NO_ARCHIVE, MANIFEST) from error
    return read_manifest(MANIFEST, content, files, known_names().names)


def _incoming(
    pictures: dict[str, Member], manifest: Manifest, entry: Entry, today: date, characters: str
) -> Iterator[Incoming]:
    for name, member in sorted(pictures.items()):
        base = Incoming(name, member.size, member.read, entry, today, characters)
        said = manifest.entries.get(name)
        if said is not None:
            base = replace(base, characters="")
        yield base.said(said, manifest.of_file.get(name, ()))
