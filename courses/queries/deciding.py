"""Who may take a step of a certificate that was issued: the question of its page and of the action."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from courses.models import Certificate, Person
from courses.queries.certification import conflicts, decider_facts, deciders, facts_about, involvements
from courses.queries.lives import life_on
from courses.rules.certification import DeciderFacts
from courses.rules.life import POSSIBLE_IN, Step, StepRefusal, who_refusal


@dataclass(frozen=True)
class StepsOpen:
    """What somebody can do about a certificate now; `refusal`: why not everything that could follow."""

    steps: frozenset[Step]
    refusal: StepRefusal | None


def steps_open(certificate: Certificate, by: Person, now: datetime) -> StepsOpen:
    """The steps that can follow today, as far as this person may take them. Renewing follows from an application."""
    state, facts = life_on(certificate, timezone.localdate(now)).state, decider_facts(certificate.person, by, now)
    refusals = {step: who_refusal(facts, step) for step in Step}
    possible = frozenset(step for step in Step if state in POSSIBLE_IN[step]) - {Step.RENEWED}
    mine = frozenset(step for step in possible if refusals[step] is None)
    return StepsOpen(mine, next((refusals[step] for step in Step if step in possible - mine), None))


def deciders_about(people: Collection[Person], now: datetime) -> dict[int, dict[Person, DeciderFacts]]:
    """By id of a person everybody who decides at all, by name, and how each stands to them; a few queries for all."""
    could = deciders(now)
    organisers = list(Person.objects.filter(pk__in=could).select_related("user").order_by("name", "pk"))
    hands, shy_of = involvements(people), conflicts(could, now)
    return {
        person.pk: {each: facts_about(person, each, hands[person.pk], could, shy_of[each.pk]) for each in organisers}
        for person in people
    }
