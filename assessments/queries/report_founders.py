"""Who was trusted to assess before the school had any holder. The site names the question that knows them."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from django.conf import settings
from django.utils.module_loading import import_string

from .assessors import testers_of


@dataclass(frozen=True, slots=True)
class Founder:
    """Somebody (`user`, `name`) with the reason why they were trusted, and who put it on record."""

    user: int
    name: str
    reason: str
    recorded_by: str
    recorded_on: date


def founding_assessors() -> list[Founder]:
    """Everybody on record, the earliest first; empty where the site keeps no such record."""
    if not settings.FOUNDING_ASSESSORS:
        return []
    return list(import_string(settings.FOUNDING_ASSESSORS)())


def assessed_by(users: Collection[int], people: Collection[int]) -> dict[int, int]:
    """For each of these users how many of these people they tested; two queries."""
    testers = testers_of(people)
    return {user: sum(user in mine for mine in testers.values()) for user in users}
