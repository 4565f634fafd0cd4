"""`manage.py close_sittings`: close what is past its limit, and settle what can no longer be taken back."""

from typing import Any

from django.core.management import BaseCommand
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue


class Command(BaseCommand):
    """To be run every few minutes. Pages do the same for whoever looks; this does it when nobody does."""

    help = "Close sittings that ran out and settle those handed in; safe to run twice, and several times at once."

    def handle(self, *args: Any, **options: Any) -> None:
        count = settle_overdue(timezone.now())
        self.stdout.write(f"{count} {'sitting' if count == 1 else 'sittings'} closed or settled.")
