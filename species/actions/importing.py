"""Taking photographs into the bank, file by file: each is taken whole, or refused with its reason.

The command and the upload page both come here. A file that is there already (the same bytes) adds nothing.
"""

import hashlib
import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from enum import StrEnum

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from species.actions.determinations import determine
from species.actions.photographs import Credit, files_kept_on_success, keep_picture, take_away
from species.actions.specimens import Find, SpecimenRefusal, add_specimen, specimen_of
from species.documents.archives import BadArchive
from species.documents.pictures import BadPicture, Limits, Picture, Refusal, read_picture
from species.models import Photo, Species, Specimen
from species.rules.bank import Lack, Why, lacks
from species.rules.file_kinds import Mismatch, mismatch
from species.rules.likeness import NEAR, distance, from_text
from species.rules.manifest import Entry
from species.rules.tables.problems import Problem


class Outcome(StrEnum):
    """What became of a file."""

    TAKEN = "taken"
    THERE = "there already"
    REFUSED = "refused"


@dataclass(frozen=True)
class Alike:
    """A picture of another specimen that looks the same, and how many of 64 bits differ."""

    specimen: str
    differing: int
    other_use: bool


Reason = Mismatch | BadPicture | BadArchive | tuple[Problem, ...] | OSError | Why
"""Why a file, or a whole archive, was refused."""


@dataclass(frozen=True)
class FileReport:
    """What became of one file. `specimen` is the key of the row that has it, `reason` why it was refused."""

    file: str
    outcome: Outcome
    reason: Reason | None = None
    lacking: tuple[Lack, ...] = ()
    """Where the use was said but not everything that it needs: what is missing."""
    in_tray: bool = False
    specimen: str = ""
    same_as: str = ""
    """Where the same bytes came twice in one run: the file that came first."""
    alike: tuple[Alike, ...] = ()
    day_is_guess: bool = False
    name_is_note: bool = False


@dataclass(frozen=True)
class Incoming:
    """One file: its name, its size, how to read it, what is said about it, and a day where nothing else tells.

    `read` may raise OSError, or BadPicture where the file comes out of something that is broken.
    """

    name: str
    size: int
    read: Callable[[], bytes]
    entry: Entry = field(default_factory=Entry)
    fallback_day: date | None = None
    characters: str = ""
    problems: tuple[Problem, ...] = ()

    def said(self, entry: Entry | None, problems: tuple[Problem, ...]) -> "Incoming":
        """The same file with what a manifest says about it."""
        return replace(self, entry=entry or self.entry, problems=problems)


AHEAD = 2
"""How many files more than there are workers are read before their turn: more only fills the memory."""


class PhotoImport:
    """One run over several files. With `dry_run` everything is tried and nothing is kept."""

    def __init__(
        self, *, widths: Sequence[int], limits: Limits, by: User | None, now: datetime, dry_run: bool = False
    ) -> None:
        self.widths, self.limits, self.by, self.now, self.dry_run = widths, limits, by, now, dry_run
        self.today = timezone.localdate(now)
        self.species = {row.key: row for row in Species.objects.all()}
        rows = Photo.objects.exclude(likeness="").values_list("likeness", "specimen__key", "specimen__use")
        self.likenesses = [(from_text(text), key, use) for text, key, use in rows]
        self.came: dict[str, str] = {}
        self.refused: dict[str, FileReport] = {}
        self.day_of_group: dict[tuple[str, str], date] = {}

    def take_all(self, files: Iterable[Incoming], workers: int | None = None) -> Iterator[FileReport]:
        """Take files one after the other, in their order; the next ones are decoded meanwhile.

        workers: how many are decoded at the same time; as many as there are processors where nothing is said.
        """
        count = workers or os.cpu_count() or 1
        waiting: deque[tuple[Incoming, FileReport | Future[Picture]]] = deque()
        with ThreadPoolExecutor(count, "decoding") as pool:
            for each in files:
                waiting.append((each, self._begun(each, pool.submit)))
                if len(waiting) >= count + AHEAD:
                    yield self._reported(*waiting.popleft())
            while waiting:
                yield self._reported(*waiting.popleft())

    def take(self, incoming: Incoming) -> FileReport:
        """Take one file, or say why not; nothing of a refused file is kept."""
        return next(self.take_all([incoming], workers=1))

    def _begun(self, incoming: Incoming, submit: Callable[..., Future[Picture]]) -> FileReport | Future[Picture]:
        """The decoding of a file, under way; or what became of it, where that can be said without."""
        if incoming.problems:
            return FileReport(incoming.name, Outcome.REFUSED, incoming.problems)
        try:
            content = self._content(incoming)
        except (BadPicture, OSError) as reason:
            return FileReport(incoming.name, Outcome.REFUSED, reason)
        if isinstance(content, Mismatch):
            return FileReport(incoming.name, Outcome.REFUSED, content)
        sha256 = hashlib.sha256(content).hexdigest()
        if sha256 in self.came:
            return FileReport(incoming.name, Outcome.THERE, same_as=self.came[sha256])
        self.came[sha256] = incoming.name
        return self._there(incoming, sha256) or submit(read_picture, content, self.widths, self.limits)

    def _content(self, incoming: Incoming) -> bytes | Mismatch:
        if incoming.size > self.limits.bytes:  # before a byte of it is read
            raise BadPicture(Refusal.TOO_LARGE, f"{incoming.size} bytes, at most {self.limits.bytes}")
        content = incoming.read()
        return mismatch(incoming.name, content[:12]) or content

    def _there(self, incoming: Incoming, sha256: str) -> FileReport | None:
        """The report on a file whose bytes are there already; a name that comes along is taken."""
        known = Photo.objects.filter(original_sha256=sha256).select_related("specimen").first()
        if known is None:
            return None
        if not self.dry_run:
            with transaction.atomic():
                self._name(known.specimen, incoming)
        in_tray = known.specimen.is_in_the_tray
        return FileReport(incoming.name, Outcome.THERE, specimen=known.specimen.key, in_tray=in_tray)

    def _reported(self, incoming: Incoming, begun: FileReport | Future[Picture]) -> FileReport:
        """What became of a file; a copy of one that was refused is refused for the same reason."""
        report = self._ended(incoming, begun)
        if report.same_as in self.refused:
            report = replace(self.refused[report.same_as], file=incoming.name)
        if report.outcome is Outcome.REFUSED:
            self.refused[incoming.name] = report
        return report

    def _ended(self, incoming: Incoming, begun: FileReport | Future[Picture]) -> FileReport:
        if isinstance(begun, FileReport):
            return begun
        try:
            picture = begun.result()
        except BadPicture as reason:
            return FileReport(incoming.name, Outcome.REFUSED, reason)
        try:
            with files_kept_on_success() as stored, transaction.atomic():
                report = self._keep(incoming, picture, stored)
                transaction.set_rollback(self.dry_run)
        except SpecimenRefusal as refusal:
            return FileReport(incoming.name, Outcome.REFUSED, refusal.why, lacking=refusal.lacking)
        except IntegrityError:  # the same bytes came in by another request in this moment
            there = self._there(incoming, picture.sha256)
            if there is None:
                raise
            return there
        if self.dry_run:
            take_away(stored)
        return report

    def _keep(self, incoming: Incoming, picture: Picture, stored: list[str]) -> FileReport:
        entry, find = incoming.entry, self._find(incoming, picture)
        credit = Credit(entry.part, entry.photographer, entry.licence, entry.rights)
        if find.use and (lacking := lacks(find.stage, [credit.said])):
            raise SpecimenRefusal(Why.LACKS, lacking=lacking)
        if find.seen_on > self.today:
            raise SpecimenRefusal(Why.DAY_AHEAD)
        named_only = f"The manifest calls it: {entry.said}" if entry.species and self.by is None else ""
        specimen = specimen_of(find) or add_specimen(find, by=self.by, now=self.now, note=named_only)
        keep_picture(specimen, picture, credit, stored, by=self.by, now=self.now)
        self._name(specimen, incoming)
        return FileReport(
            incoming.name,
            Outcome.TAKEN,
            in_tray=specimen.is_in_the_tray,
            specimen=specimen.key,
            alike=self._alike(picture, specimen),
            day_is_guess=entry.day is None and self._camera_day(picture) is None,
            name_is_note=bool(named_only),
        )

    def _find(self, incoming: Incoming, picture: Picture) -> Find:
        """Pictures of one specimen were taken on one day: the first that tells it, tells it for all of them."""
        entry, day = incoming.entry, self._day(incoming, picture)
        if entry.specimen and entry.day is None:
            day = self.day_of_group.setdefault((entry.specimen, entry.locality), day)
        return Find(day, entry.stage, entry.use, entry.locality, entry.form, entry.specimen)

    def _day(self, incoming: Incoming, picture: Picture) -> date:
        return incoming.entry.day or self._camera_day(picture) or incoming.fallback_day or self.today

    def _camera_day(self, picture: Picture) -> date | None:
        """The day by the camera's clock, unless that clock is ahead of ours."""
        day = picture.facts.taken_at.date() if picture.facts.taken_at else None
        return day if day and day <= self.today else None

    def _name(self, specimen: Specimen, incoming: Incoming) -> None:
        """The name that came along is the first opinion, of whoever brings the file in.

        It is never a second one: the same table brought in by two people would confirm itself.
        """
        species = self.species.get(incoming.entry.species)
        if species is None or self.by is None or specimen.determinations.exists():
            return
        said, characters = incoming.entry.said or species.name, incoming.characters
        determine(specimen, said=said, species=species, characters=characters, now=self.now, by=self.by)

    def _alike(self, picture: Picture, specimen: Specimen) -> tuple[Alike, ...]:
        mine = from_text(picture.likeness)
        found = {
            key: Alike(key, differing, bool(use and specimen.use and use != specimen.use))
            for other, key, use in self.likenesses
            if key != specimen.key and (differing := distance(mine, other)) <= NEAR
        }
        self.likenesses.append((mine, specimen.key, specimen.use))
        return tuple(found.values())
