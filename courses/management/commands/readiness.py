"""`manage.py readiness`: who is ready to lead today, and what is missing."""

import json
from argparse import ArgumentParser
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from courses.models import Meeting
from courses.queries.board import BoardAsk, LeaderLine, board, board_lines
from courses.queries.readiness import on_the_way
from courses.queries.walks import WalkPage, walk_page


class Command(BaseCommand):
    """The readiness list as text or JSON."""

    help = "Who is ready to lead today, requirement by requirement, with reasons."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--json", action="store_true", help="as JSON")
        parser.add_argument("--walk", metavar="KEY", help="who could lead this walk, by the key in its address")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["walk"] is not None:
            self._walk(options["walk"], options["json"])
            return
        ask, now = BoardAsk(), timezone.now()
        lines = board_lines(board(ask, on_the_way(), now).found, ask.part, now)
        if options["json"]:
            self.stdout.write(json.dumps(_plain(lines), indent=2, ensure_ascii=False))
            return
        if not lines:
            self.stdout.write("Nobody is on the way to leading yet.")
        for line in lines:
            self.stdout.write(f"{line.person.name}: {'ready' if line.ready else 'not yet'}")
            for check in line.checks:
                self.stdout.write(f"  {check.name}: {check.sentence}.")
            for move in [*line.way.moves, line.way.ready_from]:
                if move:
                    self.stdout.write(f"  > {move}")

    def _walk(self, key: str, as_json: bool) -> None:
        walk = Meeting.objects.walks().select_related("course", "site__locality", "leader").filter(key=key).first()
        if walk is None:
            raise CommandError(f"There is no walk with the key {key}: it stands in the address of its page.")
        page = walk_page(walk, timezone.now())
        if as_json:
            self.stdout.write(json.dumps(_plain_walk(page), indent=2, ensure_ascii=False))
            return
        self.stdout.write(f"{walk.title}: {page.leaders_needed} needed, {page.named} named")
        for pair in page.pairs:
            self.stdout.write(f"  to be met: {pair.gathered} / {pair.mistaken} ({', '.join(pair.stages)})")
        for line in page.candidates:
            self.stdout.write(f"{line.person.name}: {'could lead it' if line.could_lead else 'could not'}")
            for check in line.missing:
                self.stdout.write(f"  {check.name}: {check.sentence}")
            for lack in line.lacks:
                what = "not passed" if lack.whole else f"never shown in {', '.join(lack.stages)}"
                self.stdout.write(f"  {lack.pair.gathered} / {lack.pair.mistaken}: {what}")


def _plain_walk(page: WalkPage) -> dict[str, Any]:
    return {
        "walk": page.walk.title,
        "pairs": {pair.key: list(pair.stages) for pair in page.pairs},
        "leaders_needed": page.leaders_needed,
        "candidates": [
            {
                "person": line.person.name,
                "could_lead": line.could_lead,
                "missing": {check.requirement: check.sentence for check in line.missing},
                "lacks": {lack.pair.key: list(lack.stages) for lack in line.lacks},
                "can_come": line.can_come,
                "busy": line.is_busy,
            }
            for line in page.candidates
        ],
    }


def _plain(lines: list[LeaderLine]) -> list[dict[str, Any]]:
    return [
        {
            "person": line.person.name,
            "ready": line.ready,
            "requirements": {
                check.requirement: {"status": check.status, "sentence": check.sentence, "remedy": check.remedy}
                for check in line.checks
            },
            "shortest_way": list(line.way.moves),
            "ready_from": line.way.day.isoformat() if line.way.day else None,
        }
        for line in lines
    ]
