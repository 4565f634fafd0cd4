"""`manage.py readiness`: who is ready to lead today, and what is missing."""

import json
from argparse import ArgumentParser
from typing import Any

from django.core.management import BaseCommand
from django.utils import timezone

from courses.queries.readiness import ReadinessPage, readiness_page


class Command(BaseCommand):
    """The readiness list as text or JSON."""

    help = "Who is ready to lead today, requirement by requirement, with reasons."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--json", action="store_true", help="as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        page = readiness_page(timezone.now())
        if options["json"]:
            self.stdout.write(json.dumps(_plain(page), indent=2, ensure_ascii=False))
            return
        if not page.lines:
            self.stdout.write("Nobody is on the way to leading yet.")
        for line in page.lines:
            self.stdout.write(f"{line.person.name}: {'ready' if line.ready else 'not yet'}")
            for check in line.checks:
                remedy = f" {check.remedy}" if check.remedy else ""
                self.stdout.write(f"  {check.name}: {check.sentence}.{remedy}")


def _plain(page: ReadinessPage) -> list[dict[str, Any]]:
    return [
        {
            "person": line.person.name,
            "ready": line.ready,
            "requirements": {
                check.requirement: {"status": check.status, "sentence": check.sentence, "remedy": check.remedy}
                for check in line.checks
            },
        }
        for line in page.lines
    ]
