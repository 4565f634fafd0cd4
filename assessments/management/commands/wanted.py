"""`manage.py wanted STANDARD`: what the bank lacks to set so many different papers under a standard.

With ``--json`` one object goes to the standard output:

    {"standard": key, "version": int, "papers": int, "questions": int, "enough": bool, "sentence": str, "notes": [str],
     "never": [species], "not_named": int,
     "lines": [{"species": species, "side": "dangerous" or "edible", "stage": str, "told_from": [species],
                "to_photograph": int, "to_name": int, "to_settle": int, "in_bank": int, "months": [int],
                "shows_now": bool, "places": [{"name": str, "in_this_stage": bool}]}]}

``species`` is a key of the flora. ``never`` are species that the standard asks for and counts in no stage,
``not_named`` is the number of specimens for tests that nobody has named; lines come what helps most first.
"""

import json
from argparse import ArgumentParser
from collections.abc import Iterable
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from assessments.models import Standard
from assessments.queries.sentences.wanted import Section, wanted_notes, wanted_sections, wanted_sentence
from assessments.queries.wanted import MOST_PAPERS, MOST_QUESTIONS, PAPERS, QUESTIONS, Wish, wanted_page
from assessments.queries.wanted_exchange import plain_wanted


class Command(BaseCommand):
    """The wanted list of one standard, under its headings."""

    help = "What the bank lacks to set so many different papers, and when and where to find it."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("standard", help="key or name of a standard in use")
        parser.add_argument("--papers", default=str(PAPERS), help="how many papers, no two with a plant in common")
        parser.add_argument("--questions", default=str(QUESTIONS), help="how many questions each of them has")
        parser.add_argument("--json", action="store_true", help="as JSON, in the shape that the module describes")

    def handle(self, *args: Any, **options: Any) -> None:
        wish = Wish(
            the_standard(options["standard"]),
            the_number(options["papers"], "papers", MOST_PAPERS),
            the_number(options["questions"], "questions", MOST_QUESTIONS),
        )
        page = wanted_page(wish, timezone.localdate())
        if options["json"]:
            self.stdout.write(json.dumps(plain_wanted(page), indent=2, ensure_ascii=False))
            return
        self.stdout.write(wanted_sentence(page))
        for line in (*wanted_notes(page), *lines_of(wanted_sections(page))):
            self.stdout.write(line)


def the_standard(wanted: str) -> Standard:
    """The standard in use with this key or name. CommandError, in a sentence, where there is none."""
    in_use = list(Standard.objects.in_use().order_by("leads_walks", "name"))
    said = wanted.strip().casefold()
    for each in in_use:
        if said in (each.key.casefold(), each.name.casefold()):
            return each
    if not in_use:
        raise CommandError("No standard is in use yet, so nothing is wanted. Put one to use first.")
    known = ", ".join(each.key for each in in_use)
    raise CommandError(f"No standard called {wanted!r} is in use. In use: {known}.")


def the_number(said: str, what: str, most: int) -> int:
    """A whole number from 1 to the most. CommandError, in a sentence, for anything else."""
    if not said.strip().isdecimal() or not 1 <= int(said) <= most:
        raise CommandError(f"--{what} is {said!r}: give a whole number from 1 to {most}.")
    return int(said)


def lines_of(sections: Iterable[Section]) -> Iterable[str]:
    """The list as lines of text."""
    for section in sections:
        yield f"{section.title}. {section.advice}"
        for line in section.lines:
            mark = " (dangerous)" if line.is_dangerous else ""
            yield f"  {line.plant.common_name}{mark}, {line.stage}: {line.what}; {line.in_bank}"
            yield f"    {line.season}; {line.where}"
