"""`manage.py work`: post the letters that wait, and word the notices that people must hear of, until stopped."""

import os
import signal
import threading
from typing import Any

from django.core.management import BaseCommand, CommandParser
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue
from courses.actions.notices import write_notices
from courses.actions.posting import post_letters


class Command(BaseCommand):
    """One process beside the web server. Several at once do no harm: each letter is claimed by one."""

    help = "Post the letters of the school as they come, and word its notices. Stop with Ctrl-C."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--once", action="store_true", help="Do what waits now, and end.")
        parser.add_argument("--with-parent", action="store_true", help="End when the process that started this ends.")
        parser.add_argument("--every", type=float, default=5.0, metavar="SECONDS", help="How often to look (5).")

    def handle(self, *args: Any, **options: Any) -> None:
        stop = threading.Event()
        if not options["once"]:
            for number in (signal.SIGINT, signal.SIGTERM):
                signal.signal(number, lambda *_: stop.set())
            self.stdout.write("At work. Stop with Ctrl-C.")
        parent = os.getppid()
        while True:
            self._work()
            if options["once"] or stop.wait(max(0.2, options["every"])):
                return
            if options["with_parent"] and os.getppid() != parent:
                return

    def _work(self) -> None:
        now = timezone.now()
        closed, worded, posted = settle_overdue(now), write_notices(now), post_letters(timezone.now())
        if closed or worded or posted.tried:
            self.stdout.write(
                f"{now:%Y-%m-%d %H:%M:%S}  {closed} sittings closed, {worded} notices worded, {posted.sent} letters "
                f"sent, {posted.waiting} kept for later, {posted.given_up} given up"
            )
