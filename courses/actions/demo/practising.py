"""What the people of the running course have practised: some pairs fresh, some fading, the newest not met yet."""

from datetime import timedelta
from random import Random
from typing import TYPE_CHECKING

from assessments.models import PracticeState
from assessments.rules.practice import START, Outcome, days_until_due, next_half_life
from courses.actions.demo.cast import Company
from courses.queries.practice import pairs_taught_to
from species.models import Pair

if TYPE_CHECKING:
    from courses.actions.demo.school import Story

DAY = timedelta(days=1)
MOST_TIMES = 4
OUTCOMES = (Outcome.RIGHT, Outcome.LEFT, Outcome.MISS)
CHANCES = (80, 13, 7)


def let_people_practise(story: "Story") -> None:
    """Between none and a few times each of the pairs that were taught, by the rule's own gaps."""
    people = [person for _part, person in story.company(Company.RUNNING)]
    pairs = {pair.key: pair for pair in Pair.objects.all()}
    states = []
    for number, person in enumerate(people):
        chance = Random(f"{story.today} {number}")
        for key in pairs_taught_to(person, story.now):
            if times := chance.randint(0, MOST_TIMES):
                half_life, days = _after(times, chance)
                last = story.now - days * DAY
                states.append(PracticeState(person=person.user, pair=pairs[key], half_life=half_life, last_at=last))
    PracticeState.objects.bulk_create(states)


def _after(times: int, chance: Random) -> tuple[float, float]:
    """The half-life after so many answers, each about when it was due, and the days since the last."""
    half_life, gap = START, 0.0
    for _each in range(times):
        half_life = next_half_life(half_life, gap, chance.choices(OUTCOMES, CHANCES)[0])
        gap = days_until_due(half_life) * chance.uniform(0.3, 1.8)
    return half_life, gap
