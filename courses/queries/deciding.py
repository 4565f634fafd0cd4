"""Who may take a step of a certificate that was issued: the question of its page and of the action."""

from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from courses.models import Certificate, Person
from courses.queries.certification import decider_facts
from courses.queries.lives import life_on
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
