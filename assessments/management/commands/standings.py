"""`manage.py standings EMAIL`: where somebody stands, ledger by ledger and pair by pair."""

import json
from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue
from assessments.models import Standard
from assessments.queries.flora import the_flora
from assessments.queries.standing_page import StandingPage, standing_page
from assessments.queries.standings import standing_of


class Command(BaseCommand):
    """Every pair with its figures and its sentence."""

    help = "Where somebody stands under the standards in use."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("email", help="e-mail address of the person")
        parser.add_argument("--standard", default="", help="key of one standard; all in use otherwise")
        parser.add_argument("--json", action="store_true", help="as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        person = User.objects.filter(email__iexact=options["email"]).first()
        if person is None:
            raise CommandError(f"Nobody here signs in with {options['email']}.")
        standards = Standard.objects.in_use()
        if options["standard"]:
            standards = standards.filter(key=options["standard"])
        if not standards:
            raise CommandError("No such standard is in use; leave out --standard to see all.")
        now, flora = timezone.now(), the_flora()
        settle_overdue(now)
        pages = {each: standing_page(standing_of(person, each, now, flora), flora) for each in standards}
        if options["json"]:
            self.stdout.write(json.dumps({s.key: _plain(page) for s, page in pages.items()}, indent=2, default=str))
            return
        for standard, page in pages.items():
            self.stdout.write(f"{standard.name}: {page.sentence}")
            for pair in page.pairs:
                self.stdout.write(f"  {pair.gathered.common_name} / {pair.mistaken.common_name}: {pair.sentence}")
                for ledger in (pair.dangerous, pair.edible):
                    figures = ", ".join(f"{label} {value}" for label, value in ledger.figures)
                    self.stdout.write(f"    {ledger.plant.common_name}: {figures}")


def _plain(page: StandingPage) -> dict[str, Any]:
    return {
        "passed": page.passed,
        "sentence": page.sentence,
        "pairs": [
            {
                "key": pair.key,
                "passed": pair.passed,
                "sentence": pair.sentence,
                "dangerous": dict(pair.dangerous.figures),
                "edible": dict(pair.edible.figures),
            }
            for pair in page.pairs
        ],
    }
