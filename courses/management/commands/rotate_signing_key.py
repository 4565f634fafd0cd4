"""`manage.py rotate_signing_key`: sign with a new key from now on; what was signed before still verifies."""

from typing import Any

from django.core.management import BaseCommand, CommandError

from courses.actions.signing_keys import rotate_signing_key
from courses.queries.signing_keys import NoSigningKeys


class Command(BaseCommand):
    """To be run once a year."""

    help = "Replace the key that credentials are signed with. The public part of the old one stays."

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            name = rotate_signing_key()
        except NoSigningKeys as error:
            raise CommandError(str(error)) from error
        self.stdout.write(f"Credentials are signed with the key {name} from now on.")
