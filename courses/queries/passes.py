"""Since when people have passed, and whether that is too long ago for a certificate."""

from collections.abc import Collection, Sequence
from datetime import date, datetime
from functools import partial

from django.utils import timezone

from assessments.models import Standard
from assessments.queries.evidence import answers_of, windows_of
from assessments.queries.flora import the_flora
from assessments.queries.standards import standard_facts
from assessments.rules.evidence import AnswerFacts
from assessments.rules.names import NameBook
from assessments.rules.since import passing_since
from assessments.rules.standard import StandardFacts, WindowFacts
from assessments.rules.standing import standing
from courses.rules.certification import last_valid_day


def passed_since(users: Collection[int], standard: Standard, now: datetime) -> dict[int, date | None]:
    """For each of these users the day since which their standing has been a pass; None without a pass."""
    facts, book = standard_facts(standard), the_flora().book
    windows, answers = windows_of(users, now), answers_of(users)
    found: dict[int, date | None] = {}
    for user in users:
        since = passing_since(answers[user], partial(_passes, facts, windows[user], book))
        found[user] = timezone.localdate(since) if since else None
    return found


def _passes(facts: StandardFacts, windows: list[WindowFacts], book: NameBook, answers: Sequence[AnswerFacts]) -> bool:
    return standing(facts, answers, windows, book).passed


def passes_that_ran_out(users: Collection[int], standard: Standard, now: datetime) -> frozenset[int]:
    """Of these users, who have passed, those whose certificate would be over already.

    Nobody's pass is older than their first window, so only those with an old window are looked at closely.
    """
    today, opened = timezone.localdate(now), windows_of(users, now)

    def is_over(day: date) -> bool:
        return last_valid_day(day, standard.valid_months) < today

    old = [user for user in users if opened[user] and is_over(timezone.localdate(opened[user][0].opened_at))]
    if not old:
        return frozenset()
    since = passed_since(old, standard, now)
    return frozenset(user for user in old if (day := since[user]) is not None and is_over(day))
