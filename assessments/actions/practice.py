"""Beginning a round of practice, and answering its looks. Writes no evidence and touches no standing."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from random import Random

from django.contrib.auth.models import User
from django.db import transaction

from assessments.models import PracticeRound, PracticeState, PracticeTurn
from assessments.queries.practice import looks_for, outcome_of
from assessments.rules.practice import START, Outcome, next_half_life
from species.models import Pair

from .refusals import Refused

DAY = timedelta(days=1)


class NothingToPractise(Refused):
    """None of the pairs has teaching pictures of both its plants."""


def begin_round(person: User, pairs: Sequence[Pair], now: datetime, seed: int) -> PracticeRound:
    """A round over the pairs that somebody needs most. Raises NothingToPractise."""
    looks = looks_for(person, pairs, now, Random(seed))
    if not looks:
        raise NothingToPractise("")
    by_key = {pair.key: pair for pair in pairs}
    with transaction.atomic():
        practice = PracticeRound.objects.create(person=person, began_at=now)
        PracticeTurn.objects.bulk_create(
            PracticeTurn(round=practice, position=number, pair=by_key[look.pair], photo_id=look.picture)
            for number, look in enumerate(looks, start=1)
        )
    return practice


def answer_look(turn: PracticeTurn, said: str, now: datetime) -> Outcome:
    """Answer a look, once: a second answer changes nothing and is told how the first one went."""
    with transaction.atomic():
        locked = PracticeTurn.objects.select_for_update(of=("self",)).get(pk=turn.pk)
        if locked.outcome:
            return Outcome(locked.outcome)
        species = turn.photo.specimen.species
        if species is None:  # its name fell into doubt meanwhile: the look counts for nothing
            locked.said, locked.outcome, locked.answered_at = said, Outcome.LEFT.value, now
            locked.save(update_fields=["said", "outcome", "answered_at"])
            return Outcome.LEFT
        outcome = outcome_of(said, species, turn.pair)
        locked.said, locked.outcome, locked.answered_at = said, outcome.value, now
        locked.save(update_fields=["said", "outcome", "answered_at"])
        _remember(turn, outcome, now)
    return outcome


def _remember(turn: PracticeTurn, outcome: Outcome, now: datetime) -> None:
    person = turn.round.person
    state = PracticeState.objects.select_for_update().filter(person=person, pair=turn.pair).first()
    if state is None:
        half_life = next_half_life(START, 0.0, outcome)
        PracticeState.objects.create(person=person, pair=turn.pair, half_life=half_life, last_at=now)
        return
    state.half_life = next_half_life(state.half_life, max(0.0, (now - state.last_at) / DAY), outcome)
    state.last_at = now
    state.save(update_fields=["half_life", "last_at"])
