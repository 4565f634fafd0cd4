"""`manage.py import_archive`: a Darwin Core archive of species or specimens, everything of it or nothing."""

import json
from argparse import ArgumentParser
from dataclasses import asdict
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from species.actions.exchange.bringing_in import Brought, Conditions, bring_in
from species.documents.archives import BadArchive
from species.documents.pictures import Limits
from species.management.commands.import_photos import account
from species.queries.archive_sentences import sentence_on
from species.queries.import_sentences import sentence_on_refusal

SHOWN = 20


class Command(BaseCommand):
    """Say everything that is wrong, or bring all of it in."""

    help = (
        "Bring a Darwin Core archive (core Taxon or Occurrence) in, all or nothing; what is there already stays as it "
        "is. Specimens serve for teaching; what lacks something waits in the tray."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, help="the archive")
        parser.add_argument("--by", metavar="EMAIL", help="account of whoever brings it in")
        parser.add_argument(
            "--own",
            action="store_true",
            help="it is the school's own archive: believe what serves for tests, and who said what",
        )
        parser.add_argument("--dry-run", action="store_true", help="try everything, keep nothing")
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        conditions = Conditions(
            widths=tuple(settings.PHOTO_WIDTHS),
            limits=Limits(bytes=settings.PHOTO_LARGEST_BYTES, pixels=settings.PHOTO_LARGEST_PIXELS),
            by=self._account(options["by"]),
            now=timezone.now(),
            is_own=options["own"],
            dry_run=options["dry_run"],
        )
        path: Path = options["file"]
        try:
            with path.open("rb") as file:
                answer = bring_in(file, path.stat().st_size, conditions)
        except BadArchive as reason:
            raise CommandError(f"{path.name}: {sentence_on_refusal(reason)}") from None
        except OSError as error:
            raise CommandError(f"{path} cannot be read ({error.strerror}).") from None
        if options["json"]:
            self.stdout.write(json.dumps(_as_json(answer, options["dry_run"]), indent=2, ensure_ascii=False))
        else:
            self._print(answer, options["dry_run"])
        if answer.problems:
            raise CommandError(f"{len(answer.problems)} problems, each said above; nothing was brought in.")

    def _account(self, email: str | None) -> User:
        found = account(email)
        if found is None:
            raise CommandError("Say with --by EMAIL who brings the archive in; it is written down.")
        return found

    def _print(self, answer: Brought, dry_run: bool) -> None:
        for note in (*answer.problems, *answer.remarks):
            self.stdout.write(sentence_on(note))
        for each in answer.aside[:SHOWN]:
            self.stdout.write(f"Kept aside: {each.file}, row {each.row}, {each.term}: {each.value}")
        if len(answer.aside) > SHOWN:
            self.stdout.write(f"… and {len(answer.aside) - SHOWN} more; --json lists all of them.")
        if not answer.problems:
            self.stdout.write(
                f"{answer.added} {answer.kind} added, {answer.unchanged} there already, {answer.pictures} pictures."
            )
        if dry_run:
            self.stdout.write("A dry run: nothing was kept.")


def _as_json(answer: Brought, dry_run: bool) -> dict[str, Any]:
    return {
        "dry_run": dry_run,
        "kind": answer.kind,
        "added": 0 if answer.problems else answer.added,
        "unchanged": answer.unchanged,
        "pictures": 0 if answer.problems else answer.pictures,
        "problems": [{"file": each.file, "row": each.row, "sentence": sentence_on(each)} for each in answer.problems],
        "remarks": [{"file": each.file, "row": each.row, "sentence": sentence_on(each)} for each in answer.remarks],
        "kept_aside": [asdict(each) for each in answer.aside],
    }
