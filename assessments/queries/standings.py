"""Where people stand, computed from their evidence as it stands today."""

from collections.abc import Collection, Iterable
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Standard
from assessments.rules.standard import StandardFacts
from assessments.rules.standing import Standing, standing

from .evidence import answers_of, windows_of
from .flora import Flora, the_flora
from .standards import facts_of, standard_facts


def standings_of(
    people: Collection[int], standard: Standard, now: datetime, flora: Flora | None = None
) -> dict[int, Standing]:
    """For each of these users where they stand; the same number of queries however many they are."""
    facts = standard_facts(standard)
    names = (flora or the_flora()).book
    answers, windows = answers_of(people), windows_of(people, now)
    return {person: standing(facts, answers[person], windows[person], names) for person in people}


def standing_of(person: User, standard: Standard, now: datetime, flora: Flora | None = None) -> Standing:
    """Where one person stands under one standard."""
    return standings_of([person.pk], standard, now, flora)[person.pk]


def standings_under(
    person: User, standards: Iterable[Standard], now: datetime, flora: Flora | None = None
) -> dict[int, Standing]:
    """Where one person stands under several standards (from `standards_with_parts`), by their ids."""
    facts: dict[int, StandardFacts] = facts_of(standards)
    names = (flora or the_flora()).book
    answers, windows = answers_of([person.pk])[person.pk], windows_of([person.pk], now)[person.pk]
    return {key: standing(each, answers, windows, names) for key, each in facts.items()}
