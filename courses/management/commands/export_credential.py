"""`manage.py export_credential NUMBER FOLDER`: the signed file, and what somebody needs who checks it offline."""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone

from courses.actions.editions import sign_unsigned
from courses.documents.credential import profile
from courses.models import Certificate
from courses.queries.credential_check import status_list_token
from courses.queries.credentials import NoIssuer, the_issuer
from courses.queries.signing_keys import NoSigningKeys, published_keys
from courses.rules.tokens import genuine, key_address_in


class Command(BaseCommand):
    """The credential of one certificate in a folder of files."""

    help = "Write the signed credential of a certificate, its text, the keys, the issuer and the status list."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("number", help="the number printed on the certificate, for instance 2026-0007")
        parser.add_argument("folder", type=Path, help="where the files are written; made if it is not there")

    def handle(self, *args: Any, **options: Any) -> None:
        number, folder = options["number"], options["folder"]
        try:
            with transaction.atomic():
                found = Certificate.objects.select_related("person__user", "standard").get(number=number)
                if not found.credential and found.status_index is not None:
                    raise CommandError(f"The signed file of {number} was erased, as its holder had asked.")
                token = sign_unsigned(found).credential
            files = self._files(number, token)
        except Certificate.DoesNotExist as error:
            raise CommandError(f"There is no certificate {number}: the number stands below its title.") from error
        except NoIssuer as error:
            raise CommandError("There is no school yet: run open_school first.") from error
        except NoSigningKeys as error:
            raise CommandError(str(error)) from error
        try:
            folder.mkdir(parents=True, exist_ok=True)
            for name, text in files.items():
                (folder / name).write_text(text, encoding="utf-8")
        except OSError as error:
            raise CommandError(f"{folder} cannot be written to: {error.strerror}.") from error
        self.stdout.write(f"{len(files)} files in {folder}.")

    def _files(self, number: str, token: str) -> dict[str, str]:
        """Only what is signed ends in .jwt, only the keys are read by programs; the rest is for people to read."""
        issuer, address = the_issuer(), key_address_in(token)
        keys = [{**key, "kid": issuer.key(key["kid"]), "iss": issuer.id} for key in published_keys().values()]
        said = genuine(token, {address: published_keys()[address.rpartition("/")[2].removesuffix(".json")]})
        return {
            f"certificate-{number}.jwt": token,
            "keys.json": _pretty({"keys": keys}),
            "credential.json.txt": _pretty(said),
            "issuer.json.txt": _pretty(profile(issuer)),
            "status.jwt.txt": status_list_token(timezone.now()),
        }


def _pretty(tree: dict[str, Any]) -> str:
    return json.dumps(tree, indent=1, ensure_ascii=False)
