"""`manage.py export_archive`: species or specimens as a Darwin Core archive."""

import json
from argparse import ArgumentParser
from dataclasses import asdict
from pathlib import Path
from typing import IO, Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from species.actions.exchange.exporting import write_species, write_specimens
from species.management.commands.import_photos import account
from species.queries.archive_people import person_id
from species.queries.archive_sentences import sentences_on_written
from species.queries.archive_specimens import Scope
from species.queries.table_exchange import character_table_csv
from species.rules.darwin.rows import Written

SURE = "test pictures leave"


class Command(BaseCommand):
    """Write an archive for everybody, or with --own one for the school itself."""

    help = (
        "Write species or specimens as a Darwin Core archive. Public archives hold what serves for teaching, with "
        "places blurred and only those people named who agreed."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("kind", choices=["species", "specimens"])
        parser.add_argument("file", type=Path, help="where to write the archive, for instance plants.zip")
        parser.add_argument("--pictures", action="store_true", help="put the pictures into the archive")
        parser.add_argument("--publisher", default="", help="the school's name, as it is to stand in the archive")
        parser.add_argument(
            "--agreed",
            action="append",
            default=[],
            metavar="EMAIL",
            help="somebody who agreed to be named with their determinations; may be given again and again",
        )
        parser.add_argument("--own", action="store_true", help="for the school itself: exact places, names, notes")
        parser.add_argument("--assessment", action="store_true", help="with --own: also what serves for tests")
        parser.add_argument("--sure", default="", help=f"with --assessment: the words “{SURE}”")
        parser.add_argument("--by", metavar="EMAIL", help="account of whoever takes the archive")
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        self._refuse(options)
        path: Path = options["file"]
        beside = path.with_name(f"{path.name}.part")  # a broken archive never stands under the name asked for
        try:
            with beside.open("wb") as out:
                written = self._written(out, options)
            beside.replace(path)
        except OSError as error:
            raise CommandError(f"{path} cannot be written ({error.strerror}).") from None
        finally:
            beside.unlink(missing_ok=True)
        table = path.with_name(f"{path.stem}-characters.csv") if options["kind"] == "species" else None
        if table:
            table.write_text(character_table_csv(), encoding="utf-8", newline="")
        if options["json"]:
            report = {**asdict(written), "archive": str(path), "character_table": str(table or "")}
            self.stdout.write(json.dumps(report, indent=2))
            return
        for sentence in sentences_on_written(written):
            self.stdout.write(sentence)
        if table:
            self.stdout.write(f"The character table is beside it: {table}")

    def _refuse(self, options: dict[str, Any]) -> None:
        if options["kind"] == "species" and (options["own"] or options["assessment"] or options["pictures"]):
            raise CommandError("An archive of species has neither pictures nor places; leave these options out.")
        if options["assessment"] and not options["own"]:
            raise CommandError("What serves for tests is never public; it leaves with --own only.")
        if options["assessment"] and (options["sure"] != SURE or not options["by"]):
            raise CommandError(
                f"Test pictures lose their worth where they are seen. If they have to leave, say so a second time with "
                f'--sure "{SURE}", and who takes them with --by EMAIL; it is written down.'
            )

    def _written(self, out: IO[bytes], options: dict[str, Any]) -> Written:
        by, now = account(options["by"]), timezone.now()
        publisher = options["publisher"] or "The school"
        if options["kind"] == "species":
            return write_species(out, publisher=publisher, by=by, now=now)
        agreed = frozenset(person_id(each) for each in options["agreed"])
        scope = Scope(options["own"], options["pictures"], options["assessment"], agreed)
        return write_specimens(out, scope, publisher=publisher, by=by, now=now, confirmed=options["sure"] == SURE)
