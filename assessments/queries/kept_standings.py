"""Where many people stand, from the kept ledgers as far as they are current; the rest is computed on the spot.

What is answered is always what a fresh computation would answer. Nothing is written here, and no certificate
is decided on it: that asks `queries.standings`.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple

from assessments.models import KeptLedger, KeptStanding, Standard
from assessments.rules.evidence import AnswerFacts
from assessments.rules.figures import (
    LedgerFigures,
    StandingFigures,
    figures_from,
    ledger_figures,
    standing_figures,
)
from assessments.rules.ledger import open_ledger
from assessments.rules.standard import Side, StandardFacts

from .evidence import answers_of, windows_of
from .flora import Flora, the_flora
from .standards import standard_facts
from .standing_stamps import LedgerKey, ledger_stamps, standing_stamp


class Kept(NamedTuple):
    """A ledger as it is kept. Its figures may be read only under today's stamp: other programs kept others."""

    stamp: str
    plain: Mapping[str, Any]

    @property
    def figures(self) -> LedgerFigures:
        return figures_from(self.plain)


@dataclass(frozen=True)
class Summary:
    """One person under one standard in four figures."""

    passed: bool
    pairs: int
    pairs_passed: int
    gaps: int


def figures_of(
    people: Collection[int], standard: Standard, now: datetime, flora: Flora | None = None
) -> dict[int, StandingFigures]:
    """For each of these users the figures of their standing; a constant number of queries however many."""
    flora, facts = flora or the_flora(), {standard.pk: standard_facts(standard)}
    ledgers = _current(ledger_stamps(people, facts, now, flora), facts, now, flora)
    return {person: mine[standard.pk] for person, mine in put_together(people, facts, ledgers).items()}


def summaries_of(
    people: Collection[int], standard: Standard, now: datetime, flora: Flora | None = None
) -> dict[int, Summary]:
    """For each of these users whether they pass, how many pairs, and how many things are missing."""
    flora, facts = flora or the_flora(), {standard.pk: standard_facts(standard)}
    stamps = by_standing(ledger_stamps(people, facts, now, flora))
    found = {}
    for row in KeptStanding.objects.filter(person__in=people, standard=standard):
        mine = stamps.get((row.person_id, standard.pk), {})
        if row.stamp == standing_stamp(mine):
            found[row.person_id] = Summary(row.passed, row.pairs, row.pairs_passed, row.gaps)
    stale = {key: stamp for (person, _), mine in stamps.items() if person not in found for key, stamp in mine.items()}
    rest = [person for person in people if person not in found]
    together = put_together(rest, facts, _current(stale, facts, now, flora))
    return {person: found.get(person) or summary(together[person][standard.pk]) for person in people}


def summary(figures: StandingFigures) -> Summary:
    """The four figures that are kept of a standing."""
    return Summary(figures.passed, len(figures.pairs), figures.pairs_passed, figures.gaps)


def kept_ledgers(people: Collection[int], standards: Collection[int]) -> dict[LedgerKey, Kept]:
    """The ledgers as they are kept, current or not; one query."""
    rows = KeptLedger.objects.filter(person__in=people, standard__in=standards).values_list(
        "person_id", "standard_id", "side", "species__key", "stamp", "figures"
    )
    return {
        LedgerKey(person, standard, Side(side), species): Kept(stamp, plain)
        for person, standard, side, species, stamp, plain in rows
    }


def computed_ledgers(
    keys: Iterable[LedgerKey], facts: Mapping[int, StandardFacts], now: datetime, flora: Flora
) -> dict[LedgerKey, LedgerFigures]:
    """These ledgers from evidence, and no others; two queries, or none where no key is given."""
    wanted = list(keys)
    people = {key.person for key in wanted}
    if not people:
        return {}
    windows, answers = windows_of(people, now), _by_species(answers_of(people), {key.species for key in wanted})
    return {
        key: ledger_figures(
            facts[key.standard],
            open_ledger(
                key.species,
                key.side,
                facts[key.standard],
                answers[key.person, key.species],
                windows[key.person],
                flora.book,
            ),
        )
        for key in wanted
    }


def put_together(
    people: Collection[int], facts: Mapping[int, StandardFacts], ledgers: Mapping[LedgerKey, LedgerFigures]
) -> dict[int, dict[int, StandingFigures]]:
    """The standings of these users, by version, from all their ledgers."""
    mine: dict[tuple[int, int], list[LedgerFigures]] = defaultdict(list)
    for key, figures in ledgers.items():
        mine[key.person, key.standard].append(figures)
    return {
        person: {standard: standing_figures(each, mine[person, standard]) for standard, each in facts.items()}
        for person in people
    }


def by_standing(stamps: Mapping[LedgerKey, str]) -> dict[tuple[int, int], dict[LedgerKey, str]]:
    """The stamps of ledgers by person and version."""
    found: dict[tuple[int, int], dict[LedgerKey, str]] = defaultdict(dict)
    for key, stamp in stamps.items():
        found[key.person, key.standard][key] = stamp
    return found


def _current(
    stamps: Mapping[LedgerKey, str], facts: Mapping[int, StandardFacts], now: datetime, flora: Flora
) -> dict[LedgerKey, LedgerFigures]:
    """Every ledger with a stamp: as kept where the stamps agree, computed where they do not."""
    kept = kept_ledgers({key.person for key in stamps}, list(facts))
    current = {key: kept[key].figures for key, stamp in stamps.items() if key in kept and kept[key].stamp == stamp}
    return {**current, **computed_ledgers((key for key in stamps if key not in current), facts, now, flora)}


def _by_species(
    answers: Mapping[int, list[AnswerFacts]], species: Collection[str]
) -> dict[tuple[int, str], list[AnswerFacts]]:
    found: dict[tuple[int, str], list[AnswerFacts]] = defaultdict(list)
    for person, mine in answers.items():
        for answer in mine:
            known = answer.specimen.species
            if known is not None and known in species:
                found[person, known].append(answer)
    return found
