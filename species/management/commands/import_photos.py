"""`manage.py import_photos`: a folder or a ZIP archive of photographs into the bank."""

import json
import time
from argparse import ArgumentParser, RawDescriptionHelpFormatter
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from species.actions.archives import Unpacked, opened_archive
from species.actions.importing import FileReport, Incoming, Outcome, PhotoImport
from species.documents.archives import ArchiveLimits, BadArchive
from species.documents.pictures import Limits
from species.queries.import_sentences import sentence_on_refusal
from species.queries.names import known_names
from species.queries.table_sentences import sentence_about
from species.rules.manifest import Entry, Manifest, plain_path, read_manifest

EPILOG = """
The manifest is a CSV table (UTF-8) with one row for each file. Only the column file is needed.

  file          path in the folder
  species       any name the school knows, common or scientific; it counts as the opinion of --by, and a second
                person has to agree before the specimen is used in a test. Empty: nobody says yet.
  stage         seedling, rosette, leafy, flower, fruit or dormant
  use           teaching or assessment; empty: it waits in the tray to be sorted, and nobody is shown it. With a
                use, stage, part, licence and whose picture it is have to be said as well
  locality      name of the place, made where it is new
  date          of the find, as 2026-04-12; else the camera's day, else the day of the file
  form          what is unusual about the plant; typical where nothing is said
  part          what the picture shows: leaf, stem, whole plant
  photographer  as it is to be printed
  licence       under which the picture may be shown
  rights        whose picture it is; the photographer's where nothing is said
  specimen      a name of your own: files with the same one are pictures of one plant at one time, and count once

A file that no row names is taken all the same: into the tray, without a name. Everything is looked at, and a
folder that was brought in before adds nothing. In a ZIP archive the manifest is the file manifest.csv in it.
The command ends with status 1 if a file was refused.
"""


class Command(BaseCommand):
    """Take what can be taken, and say of every other file why not."""

    help = "Bring a folder or a ZIP archive of photographs (JPEG, PNG, WebP, HEIC) into the bank; repeatable."

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> Any:
        kwargs.update(epilog=EPILOG, formatter_class=RawDescriptionHelpFormatter)
        return super().create_parser(prog_name, subcommand, **kwargs)

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("folder", type=Path, help="folder of the photographs, with all inside it, or a ZIP archive")
        parser.add_argument("--manifest", type=Path, help="CSV table with one row for each file; see below")
        parser.add_argument("--by", metavar="EMAIL", help="account of whoever brings them in and says the names")
        parser.add_argument("--dry-run", action="store_true", help="try everything, keep nothing")
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        files, total, manifest = self._found(options["folder"], options["manifest"])
        run = PhotoImport(
            widths=settings.PHOTO_WIDTHS,
            limits=Limits(bytes=settings.PHOTO_LARGEST_BYTES, pixels=settings.PHOTO_LARGEST_PIXELS),
            by=account(options["by"]),
            now=timezone.now(),
            dry_run=options["dry_run"],
        )
        reports = list(run.take_all(self._with_progress(files, total)))
        if options["json"]:
            self.stdout.write(json.dumps(_as_json(reports, manifest, options), indent=2, ensure_ascii=False))
        else:
            self._print(reports, manifest, options["dry_run"])
        refused = sum(each.outcome == Outcome.REFUSED for each in reports) + len(manifest.of_table)
        if refused:
            raise CommandError(f"{refused} refused, with the reason above; everything else was taken.")

    def _found(self, folder: Path, manifest: Path | None) -> tuple[Iterator[Incoming], int, Manifest]:
        """The files, how many they are, and what is said about them."""
        if folder.suffix.lower() == ".zip" and folder.is_file():
            unpacked = self._unpacked(folder, manifest)
            return iter(unpacked.files), len(unpacked.files), unpacked.manifest
        if not folder.is_dir():
            raise CommandError(f"{folder} is no folder and no ZIP archive; name that of the photographs.")
        paths = list(pictures_in(folder, manifest))
        said = self._manifest(manifest, {name for name, _path in paths})
        return incoming(paths, said), len(paths), said

    def _unpacked(self, path: Path, manifest: Path | None) -> Unpacked:
        if manifest is not None:
            raise CommandError("The manifest of an archive lies in it, as manifest.csv; leave out --manifest.")
        file = path.open("rb")  # stays open while the pictures are read
        try:
            unpacked = opened_archive(file, path.stat().st_size, Entry(), timezone.localdate(), ArchiveLimits())
        except BadArchive as reason:
            file.close()
            raise CommandError(f"{path.name}: {sentence_on_refusal(reason)}") from None
        self._usable(unpacked.manifest)
        return unpacked

    def _usable(self, manifest: Manifest) -> None:
        if not manifest.entries and manifest.of_table:
            for problem in manifest.of_table:
                self.stderr.write(sentence_about(problem))
            raise CommandError("The manifest cannot be used; nothing was brought in.")

    def _manifest(self, path: Path | None, files: set[str]) -> Manifest:
        if path is None:
            return Manifest()
        try:
            content = path.read_bytes()
        except OSError as error:
            raise CommandError(f"{path} cannot be read ({error.strerror}); name the manifest's CSV file.") from None
        manifest = read_manifest(path.name, content, files, known_names().names)
        self._usable(manifest)
        return manifest

    def _with_progress(self, files: Iterator[Incoming], total: int) -> Iterator[Incoming]:
        last = time.monotonic()
        for number, each in enumerate(files):
            if time.monotonic() - last > 1:
                self.stderr.write(f"{number} of {total} files …")
                last = time.monotonic()
            yield each

    def _print(self, reports: list[FileReport], manifest: Manifest, dry_run: bool) -> None:
        for report in reports:
            self.stdout.write("\n    ".join([f"{report.file}: {_verdict(report)}", *_remarks(report)]))
        for problem in manifest.of_table:
            self.stdout.write(sentence_about(problem))
        counts = {each: sum(report.outcome == each for report in reports) for each in Outcome}
        self.stdout.write(", ".join(f"{number} {outcome.value}" for outcome, number in counts.items()) + ".")
        if any(report.name_is_note for report in reports):
            self.stdout.write("Names were kept as notes only, since nobody says them: give --by EMAIL.")
        if dry_run:
            self.stdout.write("A dry run: nothing was kept.")


def pictures_in(folder: Path, manifest: Path | None) -> Iterator[tuple[str, Path]]:
    """The files of a folder and of those in it, by name; hidden ones, links and the manifest are left out."""
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        is_hidden = any(part.startswith(".") for part in inside.parts)
        if path.is_symlink() or is_hidden or not path.is_file():
            continue
        if manifest is None or path.resolve() != manifest.resolve():
            yield plain_path(inside.as_posix()), path


def incoming(paths: list[tuple[str, Path]], manifest: Manifest) -> Iterator[Incoming]:
    """Each file with what the manifest says about it."""
    for name, path in paths:
        state = path.stat()
        day = datetime.fromtimestamp(state.st_mtime, tz=timezone.get_current_timezone()).date()
        base = Incoming(name, state.st_size, path.read_bytes, fallback_day=min(day, timezone.localdate()))
        yield base.said(manifest.entries.get(name), manifest.of_file.get(name, ()))


def account(email: str | None) -> User | None:
    """The account of this address. Without one nobody says the names, and they are kept as notes only."""
    if email is None:
        return None
    found = User.objects.filter(email__iexact=email, is_active=True).first()
    if found is None:
        raise CommandError(f"No account has the address {email}; invite the person first, or leave out --by.")
    if not found.has_perm("species.add_determination"):
        raise CommandError(f"{email} may not name plants; that is for tutors, assessors and organisers.")
    return found


def _verdict(report: FileReport) -> str:
    if report.outcome == Outcome.REFUSED:
        return f"refused: {sentence_on_refusal(report.reason, report.lacking)}"
    if report.same_as:
        return f"the same picture as {report.same_as}; nothing added"
    if report.outcome == Outcome.THERE:
        return f"is there already, in specimen {report.specimen}; nothing added"
    return f"taken, {'in the tray as ' if report.in_tray else ''}specimen {report.specimen}"


def _remarks(report: FileReport) -> Iterator[str]:
    if report.day_is_guess:
        yield "neither the manifest nor the camera says the day; that of the file was taken"
    for each in report.alike:
        yield (
            f"looks like a picture of specimen {each.specimen} ({each.differing} of 64 marks differ)"
            + (
                ", which serves for the other use: if it is the same plant, take one of them out"
                if each.other_use
                else ""
            )
        )


def _as_json(reports: list[FileReport], manifest: Manifest, options: dict[str, Any]) -> dict[str, Any]:
    return {
        "dry_run": options["dry_run"],
        "files": [
            {
                "file": each.file,
                "outcome": each.outcome.name.lower(),
                "specimen": each.specimen,
                "reason": sentence_on_refusal(each.reason, each.lacking) if each.outcome == Outcome.REFUSED else "",
                "same_as": each.same_as,
                "alike": [{"specimen": a.specimen, "differing": a.differing} for a in each.alike],
                "remarks": list(_remarks(each)),
            }
            for each in reports
        ],
        "manifest": [sentence_about(problem) for problem in manifest.of_table],
    }
