"""`manage.py check_certificate FILE_OR_NUMBER [--json]`: what a certificate or a signed file is worth now."""

import json
from argparse import ArgumentParser
from datetime import datetime
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from courses.models import Certificate
from courses.queries.checked import Checked, checked
from courses.queries.credential_check import CredentialVerdict, credential_verdict
from courses.queries.signing_keys import NoSigningKeys
from courses.rules.certificate_number import as_printed

LONGEST = 200_000  # bytes; a signed file is some ten thousand


class Command(BaseCommand):
    """The check page for those who run the school. Ends with 1 where nobody may rely on it."""

    help = "Say what a certificate (by its number) or a signed credential (a file) is worth now."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("what", metavar="FILE_OR_NUMBER", help="a .jwt file, or a number such as 2026-0007")
        parser.add_argument("--json", action="store_true", help="for programs")

    def handle(self, *args: Any, **options: Any) -> None:
        what, now = options["what"], timezone.now()
        rows = Certificate.objects.select_related("person__user", "standard").prefetch_related("events")
        certificate = rows.filter(number=as_printed(what)).first()
        if certificate is not None:
            said, holds = self._certificate(checked(certificate, now))
        else:
            verdict = self._verdict(what, now)
            said = {"status": verdict.status, "number": verdict.number, "sentence": verdict.sentence}
            holds = verdict.holds
        self.stdout.write(json.dumps(said, ensure_ascii=False, indent=1) if options["json"] else self._lines(said))
        if not holds:
            raise SystemExit(1)

    def _certificate(self, found: Checked) -> tuple[dict[str, Any], bool]:
        return found.as_json(), found.line.status == "current"

    def _verdict(self, what: str, now: datetime) -> CredentialVerdict:
        try:
            return credential_verdict(self._token(what), now)
        except NoSigningKeys as error:
            raise CommandError(str(error)) from error

    def _token(self, what: str) -> str:
        path = Path(what)
        try:
            is_file = path.is_file()
        except OSError:  # longer than the name of any file
            is_file = False
        if not is_file:
            raise CommandError(f"There is no certificate {what} and no file of that name: compare it with the paper.")
        try:
            with path.open("rb") as file:
                return file.read(LONGEST).decode("ascii")
        except (OSError, UnicodeDecodeError) as error:
            raise CommandError(f"{what} is no signed credential: choose the file that ends in .jwt.") from error

    def _lines(self, said: dict[str, Any]) -> str:
        return "\n".join(f"{name}: {value}" for name, value in said.items() if name != "pairs" and value)
