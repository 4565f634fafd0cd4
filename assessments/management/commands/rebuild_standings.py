"""`manage.py rebuild_standings [EMAIL ...]`: throw away what is kept of standings, and compute it again."""

from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue
from assessments.actions.standings import AT_ONCE, rebuild_standings


class Command(BaseCommand):
    """Everything that is kept follows again from evidence, so this may be run at any time."""

    help = "Throw away the kept standings and compute them again; after load_flora, an update, or in doubt."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("emails", nargs="*", metavar="EMAIL", help="only these people; everybody otherwise")

    def handle(self, *args: Any, **options: Any) -> None:
        people = [self._person(email) for email in options["emails"]] or None
        now = timezone.now()
        settle_overdue(now)
        count = rebuild_standings(now, people, self._tell)
        self.stdout.write(f"Standings rebuilt: {count} {'person' if count == 1 else 'people'}.")

    def _person(self, email: str) -> int:
        person = User.objects.filter(email__iexact=email).first()
        if person is None:
            raise CommandError(f"Nobody here signs in with {email}. Nothing was changed.")
        return person.pk

    def _tell(self, done: int, of: int) -> None:
        if of > AT_ONCE:
            self.stdout.write(f"{done} of {of} people")
