"""Keeping standings: after an action only the ledgers it touched, or all of them from nothing."""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from itertools import islice

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Exists, OuterRef

from assessments.models import Evidence, KeptLedger, KeptStanding, Period, Standard
from assessments.queries.flora import Flora, the_flora
from assessments.queries.kept_standings import by_standing, computed_ledgers, kept_ledgers, put_together, summary
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.queries.standing_stamps import LedgerKey, ledger_stamps, standing_stamp
from assessments.rules.figures import LedgerFigures
from assessments.rules.standard import Side, StandardFacts

AT_ONCE = 100
"""People whose evidence is held in memory together while everything is rebuilt."""


@dataclass(frozen=True)
class Refreshed:
    """What was done: ledgers computed, and ledgers that were current already."""

    computed: frozenset[LedgerKey]
    current: int


def refresh_standings(people: Collection[int], now: datetime) -> Refreshed:
    """Bring what is kept of these users up to date, under every standard in use; only stale ledgers are computed.

    Call it inside the transaction of whatever changed their evidence, windows or voidings.
    """
    people = sorted(set(people))
    if not people:
        return Refreshed(frozenset(), 0)
    with transaction.atomic():
        facts = facts_of(standards_with_parts().filter(pk__in=Standard.objects.in_use().values("pk")))
        flora = the_flora()
        stamps = ledger_stamps(people, facts, now, flora)
        kept = kept_ledgers(people, list(facts))
        stale = [key for key, stamp in stamps.items() if key not in kept or kept[key].stamp != stamp]
        fresh = computed_ledgers(stale, facts, now, flora)
        moved = _moved_meanwhile(stamps, people, facts, now, flora) if fresh else frozenset()
        steady = [person for person in people if person not in moved]
        every = {key: fresh[key] if key in fresh else kept[key].figures for key in stamps}
        _drop(people, facts, any(key not in stamps for key in kept))
        _keep_ledgers({key: each for key, each in fresh.items() if key.person not in moved}, stamps, flora)
        _keep_standings(steady, facts, every, stamps)
    return Refreshed(frozenset(fresh), len(stamps) - len(fresh))


def _moved_meanwhile(
    before: Mapping[LedgerKey, str],
    people: Collection[int],
    facts: Mapping[int, StandardFacts],
    now: datetime,
    flora: Flora,
) -> frozenset[int]:
    """Users of whom somebody else changed something between the reading of the stamps and of the answers.

    What was computed of them may belong to another stamp, so nothing of it is kept; it stays stale.
    """
    after = ledger_stamps(people, facts, now, flora)
    return frozenset(key.person for key, stamp in before.items() if after.get(key) != stamp)


def refresh_after_change_of(specimens: Collection[int], now: datetime) -> Refreshed:
    """The same for everybody who ever answered one of these specimens: it was voided, or named anew."""
    people = Evidence.objects.filter(specimen__in=specimens).values_list("person_id", flat=True).order_by()
    return refresh_standings(set(people), now)


def rebuild_standings(
    now: datetime, people: Collection[int] | None = None, told: Callable[[int, int], None] = lambda done, of: None
) -> int:
    """Throw away what is kept, of everybody or of these users, and compute it from nothing.

    `told` hears after every hundred people how many are done, of how many. Returns how many there were.
    """
    if people is None:
        KeptLedger.objects.all().delete()
        KeptStanding.objects.all().delete()
    everybody = sorted(people_with_evidence() if people is None else set(people))
    for done, some in _in_parts(everybody):
        with transaction.atomic():
            KeptLedger.objects.filter(person__in=some).delete()
            KeptStanding.objects.filter(person__in=some).delete()
            refresh_standings(some, now)
        told(done, len(everybody))
    return len(everybody)


def people_with_evidence() -> list[int]:
    """Users of whom anything is kept: those who answered anything, or have a period of evidence."""
    answered = Exists(Evidence.objects.filter(person_id=OuterRef("pk")))
    begun = Exists(Period.objects.filter(person_id=OuterRef("pk")))
    return list(User.objects.filter(answered | begun).order_by("pk").values_list("pk", flat=True))


def _in_parts(everybody: list[int]) -> Iterator[tuple[int, list[int]]]:
    rest, done = iter(everybody), 0
    while some := list(islice(rest, AT_ONCE)):
        done += len(some)
        yield done, some


def _drop(people: Collection[int], facts: Mapping[int, StandardFacts], species_left: bool) -> None:
    """What no standard in use asks for any more: other versions, and species that left a version."""
    KeptStanding.objects.filter(person__in=people).exclude(standard__in=facts).delete()
    ledgers = KeptLedger.objects.filter(person__in=people)
    ledgers.exclude(standard__in=facts).delete()
    for standard, each in facts.items() if species_left else ():
        for side in Side:
            asked = ledgers.filter(standard=standard, side=side.value)
            asked.exclude(species__key__in=each.species(side)).delete()


def _keep_ledgers(fresh: Mapping[LedgerKey, LedgerFigures], stamps: Mapping[LedgerKey, str], flora: Flora) -> None:
    KeptLedger.objects.bulk_create(
        [
            KeptLedger(
                person_id=key.person,
                standard_id=key.standard,
                side=key.side.value,
                species_id=flora.plant(key.species).id,
                figures=fresh[key].as_plain,
                stamp=stamps[key],
            )
            for key in sorted(fresh)
        ],
        update_conflicts=True,
        unique_fields=["person", "standard", "side", "species"],
        update_fields=["figures", "stamp"],
    )


def _keep_standings(
    people: Collection[int],
    facts: Mapping[int, StandardFacts],
    ledgers: Mapping[LedgerKey, LedgerFigures],
    stamps: Mapping[LedgerKey, str],
) -> None:
    """Rows whose stamp is that of their ledgers already are left alone."""
    mine = by_standing(stamps)
    known = {
        (row.person_id, row.standard_id): row.stamp
        for row in KeptStanding.objects.filter(person__in=people, standard__in=facts)
    }
    rows = []
    for person, by_version in put_together(people, facts, ledgers).items():
        for standard, figures in by_version.items():
            stamp = standing_stamp(mine.get((person, standard), {}))
            if known.get((person, standard)) == stamp:
                continue
            short = summary(figures)
            rows.append(
                KeptStanding(
                    person_id=person,
                    standard_id=standard,
                    passed=short.passed,
                    pairs=short.pairs,
                    pairs_passed=short.pairs_passed,
                    gaps=short.gaps,
                    stamp=stamp,
                )
            )
    KeptStanding.objects.bulk_create(
        rows,
        update_conflicts=True,
        unique_fields=["person", "standard"],
        update_fields=["passed", "pairs", "pairs_passed", "gaps", "stamp"],
    )
