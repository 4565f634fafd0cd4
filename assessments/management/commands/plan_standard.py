"""`manage.py plan_standard NAME`: what a standard takes, before anybody sits it, against what the bank holds.

With ``--json`` one object goes to the standard output:

    {"weeks": int, "plans": [{
      "name": str, "key": str, "version": int, "draft": bool,
      "can_be_met": bool, "sentence": str,
      "dangerous": side, "edible": side,
      "together": [{"rate": share, "within": [share], "ever": share, "from_bank": share}],
      "bank": {"needed": [{"rate": share, "half": int or null, "nine_in_ten": int or null}],
               "wanted": int or null,
               "held": [{"species": key, "side": "dangerous" or "edible", "specimens": int, "countable": int,
                         "least": int, "stages": {stage: int}}]},
      "load": [{"miss_rate": share, "refusal_rate": share, "dangerous": int or null, "edible": int or null,
                "questions": int or null, "per_week": number or null}]}]}

``side`` is {"limit": share, "ratio": number, "alpha": share, "weight": share, "species": [key], "needed": [int],
"marks": [int], "rates": [{"rate": share, "within": [share], "ever": share, "mean": number or null, "median": int or
null, "nine_in_ten": int or null}]}. A share lies between 0 and 1. ``needed`` are clean specimens with 0, 1, 2 and 3
misses, ``marks`` specimens in all with 0, 1 and 2; ``within`` goes by the marks. ``mean`` is of those who pass.
"""

import json
from argparse import ArgumentParser
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from fractions import Fraction
from typing import Any

from django.core.management import BaseCommand, CommandError

from assessments.models import Standard
from assessments.queries.flora import Flora, the_flora
from assessments.queries.planning import Plan, facts_by_version, plans_of, verdict
from assessments.queries.planning_bank import NOTHING
from assessments.queries.planning_numbers import draft_problem, number_problems, weeks_problem
from assessments.queries.planning_page import planning_page
from assessments.queries.planning_tables import Table
from assessments.rules.outlook import LoadLine, OtherNumbers, SideOutlook
from assessments.rules.standard import exact

OPTIONS = {
    "--limit": ("miss_limit", "tolerated share of dangerous misses, for instance 0.15"),
    "--alpha": ("miss_alpha", "chance of a false pass on the dangerous side, for instance 0.10"),
    "--ratio": ("miss_ratio", "ratio on the dangerous side, for instance 10"),
    "--edible-limit": ("refusal_limit", "tolerated share not recognised"),
    "--edible-alpha": ("refusal_alpha", "chance of a false pass on the edible side"),
    "--edible-ratio": ("refusal_ratio", "ratio on the edible side"),
}


class Command(BaseCommand):
    """The chance to pass, the specimens, the bank and the weeks, for one standard or two side by side."""

    help = "What a standard takes, before anybody sits it."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("name", help="key or name of a standard; its version after a colon, else the newest")
        parser.add_argument("--against", default="", help="a second standard; numbers given below go into it")
        parser.add_argument("--weeks", default="8", help="weeks of the course")
        for option, (name, words) in OPTIONS.items():
            parser.add_argument(option, dest=name, default="", help=words)
        parser.add_argument("--json", action="store_true", help="as JSON, in the shape that the module describes")

    def handle(self, *args: Any, **options: Any) -> None:
        weeks = the_weeks(options["weeks"])
        first = the_version(options["name"])
        second = the_version(options["against"]) if options["against"] else None
        numbers = the_numbers(options)
        problem = draft_problem(facts_by_version([second or first])[0], numbers or OtherNumbers())
        if problem:
            raise CommandError(problem)
        plans, flora = plans_of(first, second, numbers), the_flora()
        if options["json"]:
            found = {"weeks": weeks, "plans": [plain_plan(plan, weeks, flora) for plan in plans]}
            self.stdout.write(json.dumps(found, indent=2, ensure_ascii=False))
            return
        for line in lines_of(plans, weeks, flora):
            self.stdout.write(line)


def the_weeks(said: str) -> int:
    """Weeks of the course. CommandError for what is no number of weeks."""
    weeks = int(said) if said.strip().isdecimal() else 0
    problem = weeks_problem(weeks)
    if problem:
        raise CommandError(problem)
    return weeks


def the_version(wanted: str) -> Standard:
    """The version meant by "key", "name" or "key:version"; drafts too. CommandError where there is none."""
    said, _colon, version = wanted.strip().casefold().partition(":")
    known = list(Standard.objects.filter(pairs__pair__danger="dangerous").distinct().order_by("key", "-version"))
    if not known:
        raise CommandError("There is no standard with a dangerous pair yet: make one first; a draft is enough.")
    chosen = [each for each in known if said in (each.key.casefold(), each.name.casefold())]
    if not chosen:
        names = ", ".join(dict.fromkeys(each.key for each in known))
        raise CommandError(f"No standard is called {wanted!r}. There are: {names}.")
    if version:
        chosen = [each for each in chosen if str(each.version) == version]
    if not chosen:
        raise CommandError(f"The standard {said!r} has no version {version!r}.")
    return chosen[0]


def the_numbers(options: Mapping[str, str]) -> OtherNumbers | None:
    """The numbers to try; None where none is given. CommandError for nonsense, all of it at once."""
    numbers: dict[str, Fraction | None] = {}
    told = []
    for option, (name, _words) in OPTIONS.items():
        try:
            numbers[name] = exact(options[name]) if options[name] else None
        except (ValueError, ZeroDivisionError):
            told.append(f"{option}: {options[name]!r} is no number; write it as 0.15.")
            continue
        problem = number_problems({name: numbers[name]}).get(name)
        if problem:
            told.append(f"{option} {options[name]}: {problem}")
    if told:
        raise CommandError("\n".join(told))
    return OtherNumbers(**numbers) if any(each is not None for each in numbers.values()) else None


def lines_of(plans: list[Plan], weeks: int, flora: Flora) -> Iterator[str]:
    """The page as lines of text, without its plots."""
    page = planning_page(plans, weeks, flora)
    for name, _enough, sentence in page.verdicts:
        yield f"{name}. {sentence}"
    for topic in page.topics:
        yield ""
        yield topic.title.upper()
        for panel in topic.panels:
            for table in panel.tables:
                yield table.caption
                yield from _table_lines(table)


def _table_lines(table: Table) -> Iterator[str]:
    rows = [table.columns, *table.rows]
    widths = [max(len(row[place]) for row in rows) for place in range(len(table.columns))]
    for row in rows:
        cells = [row[0].ljust(widths[0]), *(cell.rjust(wide) for cell, wide in zip(row[1:], widths[1:], strict=True))]
        yield "  " + "   ".join(cells)


def plain_plan(plan: Plan, weeks: int, flora: Flora) -> dict[str, Any]:
    """A plan as plain values, in the shape that the module describes."""
    ahead = plan.outlook
    can_be_met, sentence = verdict(plan, flora)
    return {
        "name": plan.name,
        "key": ahead.facts.key,
        "version": ahead.facts.version,
        "draft": plan.is_draft,
        "can_be_met": can_be_met,
        "sentence": sentence,
        "dangerous": _plain_side(ahead.dangerous),
        "edible": _plain_side(ahead.edible),
        "together": [
            {**asdict(line), "from_bank": ahead.from_bank(line.rate, plan.held)} for line in ahead.together
        ],
        "bank": {
            "needed": [asdict(line) for line in ahead.bank],
            "wanted": ahead.wanted,
            "held": [
                _plain_holding(plan, side, species)
                for side in (ahead.dangerous, ahead.edible)
                for species in side.species
            ],
        },
        "load": [_plain_load(line, weeks) for line in ahead.loads],
    }  # fmt: skip


def _plain_side(side: SideOutlook) -> dict[str, Any]:
    return {
        "limit": float(side.bar.limit),
        "ratio": float(side.bar.ratio),
        "alpha": float(side.bar.alpha),
        "weight": float(side.weight),
        "species": list(side.species),
        "needed": list(side.needed),
        "marks": list(side.marks),
        "rates": [asdict(line) for line in side.rates],
    }


def _plain_holding(plan: Plan, side: SideOutlook, species: str) -> dict[str, Any]:
    holding = plan.holdings.get(species, NOTHING)
    return {
        "species": species,
        "side": str(side.side),
        "specimens": holding.specimens,
        "countable": holding.countable,
        "least": plan.outlook.least.get(species, side.needed[0]),
        "stages": dict(sorted(holding.stages.items())),
    }


def _plain_load(line: LoadLine, weeks: int) -> dict[str, Any]:
    found = line.load
    return {
        "miss_rate": line.miss_rate,
        "refusal_rate": line.refusal_rate,
        "dangerous": found.dangerous if found else None,
        "edible": found.edible if found else None,
        "questions": found.questions if found else None,
        "per_week": found.per_week(weeks) if found else None,
    }
