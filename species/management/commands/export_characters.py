"""`manage.py export_characters`: the character table as one CSV file."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError

from species.queries.table_exchange import character_table_csv


class Command(BaseCommand):
    """Write the table to a file, or to the screen."""

    help = "Write the character table (plants by characters, states coded) as CSV; import_characters reads it again."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, nargs="?", help="the file to write; without it, standard output")

    def handle(self, *args: Any, **options: Any) -> None:
        text = character_table_csv()
        if options["file"] is None:
            self.stdout.write(text, ending="")
            return
        try:
            options["file"].write_text(text, "utf-8", newline="")
        except OSError as error:
            raise CommandError(f"{options['file']} cannot be written ({error.strerror}); name another file.") from error
