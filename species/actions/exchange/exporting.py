"""Writing an archive of species or of specimens, and writing down that it left."""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from functools import partial
from typing import IO

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from species.documents.archive.eml import About
from species.documents.archive.writing import Enclosed, write_archive
from species.models import PhotoRendition
from species.models.exchange import ArchiveRun
from species.queries.archive_specimens import Scope, specimens_to_archive
from species.queries.archive_taxa import species_to_archive
from species.rules.darwin.facts import PictureFacts, SpecimenFacts
from species.rules.darwin.rows import Table, Written
from species.rules.darwin.specimen_rows import specimen_tables
from species.rules.darwin.taxon_rows import species_tables
from species.rules.vocabulary import Use


class NotConfirmed(Exception):
    """What serves for tests leaves only where a known person said so a second time."""


def write_species(out: IO[bytes], *, publisher: str, by: User | None, now: datetime) -> Written:
    """An archive of all species, and a line in the record of archives."""
    tables = species_tables(species_to_archive())
    title = _("Plants taught by %(who)s") % {"who": publisher}
    abstract = _("Names, hazards, parts used and months of the plants that are taught.")
    write_archive(out, tables, _about("species", title, abstract, publisher, now))
    written = Written(_rows(tables))
    _record(ArchiveRun.Kind.SPECIES, Scope(), written, by, now)
    return written


def write_specimens(
    out: IO[bytes], scope: Scope, *, publisher: str, by: User | None, now: datetime, confirmed: bool = False
) -> Written:
    """An archive of specimens, and a line in the record of archives, both or neither.

    Raises NotConfirmed where the scope holds what serves for tests and nobody stands for it, `confirmed`.
    """
    if scope.with_assessment and not (confirmed and by):
        raise NotConfirmed
    with transaction.atomic():
        found = specimens_to_archive(scope)
        hashes = dict(_hashes(found.files))
        specimens = [_with_hashes(each, hashes) for each in found.specimens]
        tables = specimen_tables(specimens)
        title = _("Specimens named by %(who)s") % {"who": publisher}
        about = _about("specimens", title, _("Plants photographed, with every determination."), publisher, now)
        files = {path: row for path, row in found.files.items() if path in hashes}
        enclosed = [Enclosed(path, partial(_content, row)) for path, row in files.items()]
        write_archive(out, tables, about, enclosed)
        written = Written(
            _rows(tables),
            len(enclosed),
            sum(each.use is Use.ASSESSMENT for each in specimens),
            found.drawn,
            found.without_licence,
            len(found.files) - len(hashes),
        )
        _record(ArchiveRun.Kind.SPECIMENS, scope, written, by, now)
    return written


def _about(what: str, title: str, abstract: str, publisher: str, now: datetime) -> About:
    day = timezone.localdate(now)
    rights = _("Every picture is under the licence that stands with it. Ask the publisher about anything else.")
    return About(f"{what}-{day.isoformat()}", title, publisher, day, abstract, rights)


def _hashes(files: Mapping[str, PhotoRendition]) -> Iterator[tuple[str, str]]:
    """The SHA-256 of each file that is there; one that is lost is left out."""
    for path, row in files.items():
        try:
            yield path, hashlib.sha256(_content(row)).hexdigest()
        except FileNotFoundError:
            continue


def _content(row: PhotoRendition) -> bytes:
    with row.file.open("rb") as file:
        content: bytes = file.read()
    return content


def _with_hashes(specimen: SpecimenFacts, hashes: Mapping[str, str]) -> SpecimenFacts:
    return replace(specimen, pictures=tuple(_with_hash(each, hashes) for each in specimen.pictures))


def _with_hash(picture: PictureFacts, hashes: Mapping[str, str]) -> PictureFacts:
    if picture.path in hashes:
        return replace(picture, sha256=hashes[picture.path])
    return replace(picture, path="", media_type="")


def _rows(tables: tuple[Table, ...]) -> dict[str, int]:
    return {each.layout.file: len(each.rows) for each in tables}


def _record(kind: ArchiveRun.Kind, scope: Scope, written: Written, by: User | None, now: datetime) -> None:
    ArchiveRun.objects.create(
        direction=ArchiveRun.Direction.OUT,
        kind=kind,
        at=now,
        by=by,
        is_own=scope.is_own,
        with_pictures=scope.with_pictures,
        with_assessment=scope.with_assessment,
        counts={**written.rows, "pictures": written.pictures, "for assessment": written.for_assessment},
        named=sorted(scope.agreed),
    )
