"""`manage.py standings EMAIL`: where somebody stands, every ledger and pair with its figures and its sentence.

With ``--json`` one object goes to the standard output, by the key of each standard in use:

    {"participant": {
      "name": str, "version": int, "passed": bool, "sentence": str,
      "pairs": [{"key": str, "gathered": species, "mistaken": species, "passed": bool, "sentence": str,
                 "window": int, "missing": [str],
                 "stages": [{"stage": str, "clean": int, "misses": int, "needed": int, "covered": bool}],
                 "live": {"met": bool, "clean": int, "misses": int, "needed": int, "occasions": int,
                          "occasions_needed": int, "not_required": str, "sentence": str}}],
      "ledgers": [{"species": species, "side": "dangerous" or "edible", "passed": bool, "sentence": str,
                   "answers": int, "not_counted": int,
                   "windows": [{"number": int, "weight": "4/5", "opened_at": time or null,
                                "closes_at": time or null, "clean": int, "misses": int, "neutral": int,
                                "live": int, "needed": int, "still_needed": int, "passed": bool,
                                "upper_limit": float}]}],
      "missing": [str], "set_aside": int}}

``species`` is a key of the flora, a time ISO 8601 in UTC. On the edible side a miss means "not recognised".
``not_counted`` are answers that stand in no window, ``set_aside`` those that belong to no species of the
standard. ``upper_limit`` is for showing; what decides are the whole numbers.
"""

import json
from argparse import ArgumentParser
from collections.abc import Iterable
from typing import Any

from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue
from assessments.models import Standard
from assessments.queries.flora import Flora, the_flora
from assessments.queries.sentences.gaps import gap_lines, pair_sentence, standing_sentence
from assessments.queries.sentences.ledgers import ledger_sentence, live_sentence
from assessments.queries.standing_page import LedgerLine, PairLine, StandingPage, standing_page
from assessments.queries.standings import standing_of
from assessments.rules.ledger import Ledger, WindowLedger
from assessments.rules.pairs import PairVerdict
from assessments.rules.standing import Standing


class Command(BaseCommand):
    """Every ledger and every pair with its figures and its sentence."""

    help = "Where somebody stands under the standards in use."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("email", help="e-mail address of the person")
        parser.add_argument("--standard", default="", help="key or name of one standard; all in use otherwise")
        parser.add_argument("--json", action="store_true", help="as JSON, in the shape that the module describes")

    def handle(self, *args: Any, **options: Any) -> None:
        person = the_person(options["email"])
        standards = the_standards(options["standard"])
        now, flora = timezone.now(), the_flora()
        settle_overdue(now)
        found = {each: standing_of(person, each, now, flora) for each in standards}
        if options["json"]:
            plain = {each.key: plain_standing(each, standing, flora) for each, standing in found.items()}
            self.stdout.write(json.dumps(plain, indent=2, ensure_ascii=False))
            return
        for each, standing in found.items():
            for line in lines_of(each.name, standing_page(standing, flora)):
                self.stdout.write(line)


def the_person(email: str) -> User:
    """The one who signs in with this address. CommandError, in a sentence, for nobody or several."""
    if "@" not in email:
        raise CommandError(f"{email!r} is no e-mail address: give the one that the person signs in with.")
    people = list(User.objects.filter(email__iexact=email.strip())[:2])
    if not people:
        raise CommandError(f"Nobody here signs in with {email}. The page of the person shows the right address.")
    if len(people) > 1:
        raise CommandError(f"Several people have the address {email}: correct it on the page of one of them.")
    return people[0]


def the_standards(wanted: str) -> list[Standard]:
    """The standards in use, or the one of this key or name. CommandError where there is none."""
    in_use = list(Standard.objects.in_use().order_by("leads_walks", "name"))
    if not in_use:
        raise CommandError("No standard is in use yet, so nobody stands anywhere. Put one to use first.")
    said = wanted.strip().casefold()
    chosen = [each for each in in_use if not said or said in (each.key.casefold(), each.name.casefold())]
    if not chosen:
        known = ", ".join(each.key for each in in_use)
        raise CommandError(f"No standard called {wanted!r} is in use. In use: {known}.")
    return chosen


def lines_of(name: str, page: StandingPage) -> Iterable[str]:
    """A standing as lines of text: the sentence, then every pair, then every ledger."""
    yield f"{name}: {page.sentence}"
    yield "  Pairs"
    for pair in page.pairs:
        yield from _pair_lines(pair)
    yield "  Ledgers"
    for ledger in page.ledgers:
        yield from _ledger_lines(ledger)
    if page.set_aside:
        yield f"  Answers that belong to no pair of this standard: {page.set_aside}"


def _pair_lines(pair: PairLine) -> Iterable[str]:
    yield f"    {pair.gathered.common_name} / {pair.mistaken.common_name}: {pair.sentence}"
    for gap in pair.gaps[1:]:
        yield f"      {gap.sentence}"
    for stage in pair.stages:
        yield f"      {stage.name}: {stage.word}"
    yield f"      {pair.live_sentence}"


def _ledger_lines(ledger: LedgerLine) -> Iterable[str]:
    yield f"    {ledger.plant.common_name}: {ledger.sentence}"
    yield "      " + ", ".join(f"{figure.label} {figure.value}" for figure in ledger.figures)
    for line in ledger.reasons:
        yield f"      {line.count} {line.effect}: {line.reason}"


def plain_standing(standard: Standard, standing: Standing, flora: Flora) -> dict[str, Any]:
    """A standing as plain values, in the shape that the module describes."""
    return {
        "name": standard.name,
        "version": standard.version,
        "passed": standing.passed,
        "sentence": standing_sentence(standing),
        "pairs": [_plain_pair(pair, standing, flora) for pair in standing.pairs],
        "ledgers": [_plain_ledger(ledger) for ledger in (*standing.dangerous, *standing.edible)],
        "missing": [line.sentence for line in gap_lines(standing, flora)],
        "set_aside": len(standing.set_aside),
    }


def _plain_pair(verdict: PairVerdict, standing: Standing, flora: Flora) -> dict[str, Any]:
    live = verdict.live
    return {
        "key": verdict.key,
        "gathered": verdict.pair.gathered,
        "mistaken": verdict.pair.mistaken,
        "passed": verdict.passed,
        "sentence": pair_sentence(verdict, standing.gaps, flora),
        "window": verdict.approach.window.number,
        "missing": [line.sentence for line in gap_lines(standing, flora) if verdict.key in line.gap.pairs],
        "stages": [
            {"stage": s.stage, "clean": s.clean, "misses": s.misses, "needed": s.needed, "covered": s.covered}
            for s in verdict.stages
        ],
        "live": {
            "met": live.met,
            "clean": live.clean,
            "misses": live.misses,
            "needed": live.clean_needed,
            "occasions": live.occasions,
            "occasions_needed": live.occasions_needed,
            "not_required": live.not_required,
            "sentence": live_sentence(live),
        },
    }


def _plain_ledger(ledger: Ledger) -> dict[str, Any]:
    return {
        "species": ledger.species,
        "side": str(ledger.side),
        "passed": ledger.passed,
        "sentence": ledger_sentence(ledger, ledger.nearest),
        "answers": len(ledger.treatments),
        "not_counted": sum(1 for each in ledger.treatments if not each.windows),
        "windows": [_plain_window(window) for window in ledger.windows],
    }


def _plain_window(window: WindowLedger) -> dict[str, Any]:
    facts, counts = window.window.facts, window.counts
    return {
        "number": window.number,
        "weight": str(window.weight),
        "opened_at": facts.opened_at.isoformat() if facts else None,
        "closes_at": facts.closes_at.isoformat() if facts else None,
        "clean": counts.clean,
        "misses": counts.misses,
        "neutral": counts.neutral,
        "live": window.live,
        "needed": window.clean_needed,
        "still_needed": window.still_needed,
        "passed": window.passed,
        "upper_limit": window.upper_limit,
    }
