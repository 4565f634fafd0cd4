"""`manage.py daily`: everything that has to be done once a day."""

import json
from argparse import ArgumentParser
from dataclasses import asdict
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from courses.actions.daily import run_daily


class Command(BaseCommand):
    """To be run once a day, for instance by cron. Running it twice, or after days without, does no harm."""

    help = "Close, lapse, erase, remind and post what is due; a line for each step."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--json", action="store_true", help="as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        done = run_daily(timezone.now())
        if options["json"]:
            self.stdout.write(json.dumps([asdict(each) for each in done], indent=2))
        else:
            for each in done:
                trouble = f"  FAILED: {each.trouble}" if each.trouble else ""
                self.stdout.write(f"{each.count:5d} {each.name}{trouble}")
        failed = [each.name for each in done if each.trouble]
        if failed:
            raise CommandError(f"Not everything went through ({', '.join(failed)}): see the log.")
