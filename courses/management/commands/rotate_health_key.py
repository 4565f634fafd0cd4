"""`manage.py rotate_health_key`: seal all notes told in confidence with a new key, and throw the old ones away."""

from typing import Any

from django.core.management import BaseCommand, CommandError

from courses.actions.health_keys import rotate_health_key
from courses.queries.health_keys import NoKeys
from courses.rules.sealing import Unreadable


class Command(BaseCommand):
    """To be run once a year, and at once when somebody may have seen the key file."""

    help = "Replace the key that health notes are sealed with. Safe to begin again when it was broken off."

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            count = rotate_health_key()
        except NoKeys as error:
            raise CommandError(str(error)) from error
        except Unreadable as error:
            raise CommandError("A note cannot be read with any key there is; nothing was changed.") from error
        self.stdout.write(f"{count} {'note' if count == 1 else 'notes'} sealed with a new key.")
