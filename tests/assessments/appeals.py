"""Appeals made in tests, and steps taken about them."""

from django.urls import reverse
from django.utils import timezone

from assessments.actions.appeals import Complaint, appeal
from assessments.actions.deciding_appeals import Verdict, decide
from assessments.models import Appeal, Evidence, Notice, Standard
from assessments.queries.standings import standing_of
from assessments.rules.appeals import Step
from assessments.rules.standard import Side
from courses.models import Person
from species.models import Pair

WORDS = {"ground": "wrong_plant", "words": "The stem has no blotches."}


def page(name: str, *args: object) -> str:
    return reverse(f"assessments:{name}", args=args)


def appeal_page(evidence: Evidence) -> str:
    """The page on which this answer is appealed."""
    assert evidence.sitting is not None
    return page("appeal", evidence.sitting.seat.paper.key, evidence.position)


def make_appeal(evidence: Evidence, **fields: str) -> Appeal:
    return appeal(evidence, Complaint(**{**WORDS, **fields}), timezone.now())


def decided(made: Appeal, by: Person, outcome: Step, reasons: str = "Looked at it.", exception: str = "") -> Appeal:
    return decide(made, by.user, Verdict(outcome, reasons, exception), timezone.now())


def counts(person: Person, standard: Standard, pair: Pair) -> tuple[int, int]:
    """Clean answers and misses of a person on the dangerous plant."""
    found = standing_of(person.user, standard, timezone.now()).ledger(pair.mistaken.key, Side.DANGEROUS)
    return found.windows[0].counts.clean, found.windows[0].counts.misses


def kinds(person: Person) -> list[str]:
    return list(Notice.objects.filter(person=person.user).values_list("kind", flat=True))
