"""Bringing an archive in: everything of it or nothing, with every problem and every remark."""

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import IO

from django.contrib.auth.models import User
from django.db import transaction

from species.actions.exchange.species_steps import keep_species
from species.actions.exchange.specimen_steps import SpecimenSteps
from species.actions.photographs import files_kept_on_success, take_away
from species.documents.archive.reading import ReadArchive, note_files_aside, read_archive
from species.documents.pictures import Limits
from species.models.exchange import ArchiveRun
from species.queries.archive_taxa import named_species
from species.queries.names import known_names
from species.rules.darwin import terms
from species.rules.darwin.losses import keep_aside_of_species, keep_aside_of_specimens
from species.rules.darwin.slips import KeptAside, Note, Notes, Wrong
from species.rules.darwin.specimen_reading import KnownPlants, read_specimens
from species.rules.darwin.taxon_reading import read_species

KINDS = {terms.TAXON: ArchiveRun.Kind.SPECIES, terms.OCCURRENCE: ArchiveRun.Kind.SPECIMENS}


@dataclass(frozen=True)
class Conditions:
    """How an archive is taken.

    `is_own`: it is the school's own, so that it is believed what serves for tests, and who of the school named what.
    `widths`: in px, of the files made of each picture.
    """

    widths: tuple[int, ...]
    limits: Limits
    by: User
    now: datetime
    is_own: bool = False
    dry_run: bool = False


@dataclass(frozen=True)
class Brought:
    """What became of an archive. With problems nothing of it was kept."""

    kind: str
    added: int
    unchanged: int
    pictures: int
    problems: tuple[Note, ...]
    remarks: tuple[Note, ...]
    aside: tuple[KeptAside, ...]


def bring_in(file: IO[bytes], size: int, conditions: Conditions) -> Brought:
    """Take an archive of species or of specimens. Raises BadArchive for what is no archive, or a trap."""
    notes = Notes()
    archive = read_archive(file, size, notes)
    if archive.core and archive.core not in KINDS:
        notes.add(Wrong.OTHER_CORE, "meta.xml", value=archive.core)
    if notes.wrong:
        return _answer(archive, notes)
    with files_kept_on_success() as stored, transaction.atomic():
        if archive.core == terms.TAXON:
            answer = _species(archive, notes, conditions)
        else:
            answer = _specimens(archive, notes, conditions, stored)
        nothing_kept = conditions.dry_run or bool(answer.problems)
        if not nothing_kept:
            _record(answer, conditions)
        transaction.set_rollback(nothing_kept)
    if nothing_kept:
        take_away(stored)
    return answer


def _species(archive: ReadArchive, notes: Notes, conditions: Conditions) -> Brought:
    facts = read_species(archive.rows, notes)
    keep_aside_of_species(archive.rows, facts, notes)
    note_files_aside(archive, set(), notes)
    added, unchanged = keep_species(facts, notes)
    return _answer(archive, notes, added, unchanged)


def _specimens(archive: ReadArchive, notes: Notes, conditions: Conditions, stored: list[str]) -> Brought:
    known = known_names()
    plants = KnownPlants({key: named_species(row) for key, row in known.species.items()}, known.names)
    facts = read_specimens(archive.rows, plants, notes, conditions.now)
    keep_aside_of_specimens(archive.rows, facts, notes)
    note_files_aside(archive, {picture.path for each in facts for picture in each.pictures}, notes)
    if notes.wrong:  # the pictures are looked at only where everything else is sound
        return _answer(archive, notes)
    steps = SpecimenSteps(
        known.species,
        archive.files,
        notes,
        stored,
        widths=conditions.widths,
        limits=conditions.limits,
        by=conditions.by,
        now=conditions.now,
        is_own=conditions.is_own,
    )
    for each in facts:
        steps.keep(each)
    return _answer(archive, notes, steps.added, steps.unchanged, steps.pictures)


def _answer(archive: ReadArchive, notes: Notes, added: int = 0, unchanged: int = 0, pictures: int = 0) -> Brought:
    kind = KINDS.get(archive.core)
    if notes.wrong:
        added = unchanged = pictures = 0
    return Brought(
        kind.value if kind else "",
        added,
        unchanged,
        pictures,
        tuple(notes.wrong),
        tuple(notes.remarks),
        tuple(notes.aside),
    )


def _record(answer: Brought, conditions: Conditions) -> None:
    ArchiveRun.objects.create(
        direction=ArchiveRun.Direction.IN,
        kind=answer.kind,
        at=conditions.now,
        by=conditions.by,
        is_own=conditions.is_own,
        with_pictures=answer.pictures > 0,
        counts={"added": answer.added, "unchanged": answer.unchanged, "pictures": answer.pictures},
        aside=[asdict(each) for each in answer.aside],
    )
