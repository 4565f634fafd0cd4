"""`manage.py open_school EMAIL`: start a real school."""

from argparse import ArgumentParser
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.management import BaseCommand, CommandError, call_command
from django.utils import timezone

from courses.actions.opening import SchoolExists, SchoolWords, open_school, problems_with, write_settings
from courses.actions.people import AddressTaken
from courses.models import School

QUESTIONS = (
    ("name", "Name of the school", ""),
    ("organiser_name", "Name of the organiser", ""),
    ("address", "Public address of this site", "https://"),
    ("time_zone", "Time zone", "Europe/London"),
    ("language", "Language (en-gb, de, ga)", "en-gb"),
    ("emergency_number", "Emergency number", "112"),
    ("poisons_number", "Poisons service (may stay empty)", ""),
)


class Command(BaseCommand):
    """Ask what a school must say of itself, then make it with its organiser."""

    help = "Open a school: asks for its name, address and numbers, and makes the organiser."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("email", help="e-mail address of the organiser")
        for name, question, _default in QUESTIONS:
            parser.add_argument(f"--{name.replace('_', '-')}", help=f"{question} (asked for when left out)")

    def handle(self, *args: Any, **options: Any) -> None:
        if settings.DEMO:
            raise CommandError(
                "This folder holds the invented school. Delete .var, or set KENSPECKLE_VAR to another folder, "
                "and call the command again."
            )
        call_command("migrate", verbosity=0)
        if (school := School.objects.first()) is not None:
            raise CommandError(f"This site belongs to {school.name} already; nothing was changed.")
        given = {name: options[name] for name, _question, _default in QUESTIONS}
        words = SchoolWords(**{n: self._value(given[n], q, d) for n, q, d in QUESTIONS})
        if problems := problems_with(words, options["email"]):
            raise CommandError(" ".join(problems) + " Nothing was made; call the command again.")
        try:
            made, organiser = open_school(words, options["email"], today=timezone.localdate())
        except SchoolExists as error:
            raise CommandError(f"This site belongs to {error} already; nothing was changed.") from error
        except AddressTaken as error:
            raise CommandError(f"Somebody signs in with {error} already; nothing was changed.") from error
        except ValidationError as error:
            raise CommandError(" ".join(error.messages)) from error
        path = write_settings(settings.VAR_DIR, words)
        call_command("load_flora", verbosity=0)
        self.stdout.write(
            f"{made.name} is open. {organiser.name} signs in at {made.address}/account/login/ with "
            f"{options['email']}; a code comes by e-mail.\n"
            f"Settings are in {path.name} beside the database; mail is set by KENSPECKLE_MAIL_HOST and its kin "
            "(see README.md)."
        )

    def _value(self, given: str | None, question: str, default: str) -> str:
        if given is not None:
            return given
        return ask(question, default, input)


def ask(question: str, default: str, read: Callable[[str], str]) -> str:
    """One answer from the keyboard; an empty line takes what stands in brackets."""
    try:
        typed = read(f"{question}{f' [{default}]' if default else ''}: ").strip()
    except EOFError as error:
        raise CommandError(
            f"There is no keyboard to ask for: {question}. Give it as an option instead (see --help)."
        ) from error
    return typed or default
