"""`manage.py check_certificate FILE_OR_NUMBER`: what a signed file, or a certificate by its number, is worth now."""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from courses.models import Certificate
from courses.queries.certificates import certificate_lines
from courses.queries.credential_check import CredentialVerdict, credential_verdict
from courses.queries.signing_keys import NoSigningKeys

RELIABLE, NOT_RELIABLE = 0, 1


class Command(BaseCommand):
    """Says what it is worth; ends with 1 where nobody should rely on it."""

    help = "Check a signed credential (a .jwt file) or a certificate by its number, as of now."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file_or_number", help="a .jwt file, or a number such as 2026-0007")
        parser.add_argument("--json", action="store_true", help="as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        given = options["file_or_number"]
        found = _of_file(Path(given)) if Path(given).is_file() else _of_number(given)
        said = {"status": found.status, "sentence": found.sentence, "number": found.number, "reason": found.reason}
        shown = {name: text for name, text in said.items() if text}
        self.stdout.write(json.dumps(shown, indent=2, ensure_ascii=False) if options["json"] else found.sentence)
        if not found.holds:
            raise SystemExit(NOT_RELIABLE)


def _of_file(file: Path) -> CredentialVerdict:
    try:
        return credential_verdict(file.read_text(encoding="utf-8"), timezone.now())
    except (OSError, UnicodeDecodeError) as error:
        raise CommandError(f"{file} cannot be read as text: choose the file that ends in .jwt.") from error
    except NoSigningKeys as error:
        raise CommandError(str(error)) from error


def _of_number(number: str) -> CredentialVerdict:
    rows = Certificate.objects.filter(number=number).select_related("person__user", "standard")
    lines = certificate_lines(rows.prefetch_related("events"), timezone.now())
    if not lines:
        raise CommandError(f"There is no file {number}, and no certificate of that number.")
    status = lines[0].status
    sentence = f"Certificate {number} is {'under review' if status == 'review' else status}."
    return CredentialVerdict("genuine" if status == "current" else status, sentence, number)
