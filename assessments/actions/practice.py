"""Beginning a round of practice, answering its looks, forgetting it all. Never evidence: it touches no standing."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from random import Random

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import PracticeRound, PracticeState, PracticeTurn
from assessments.queries.practice import looks_for
from assessments.rules.practice import START, Outcome, Said, next_half_life, outcome_of
from species.models import Pair

from .refusals import Refused

DAY = timedelta(days=1)


class NothingToPractise(Refused):
    """None of the pairs has teaching pictures of both its plants."""


class LookGone(Refused):
    """The picture was moved to the tests, retired or named anew since the round began."""


def begin_round(
    person: User, pairs: Sequence[Pair], now: datetime, seed: int, others: Sequence[Pair] = ()
) -> PracticeRound:
    """A round over the pairs that somebody needs most, with others mixed in. Raises NothingToPractise."""
    looks = looks_for(person, pairs, now, Random(seed), others)
    if not looks:
        raise NothingToPractise(_("There are no teaching pictures of both plants of these pairs yet."))
    by_key = {pair.key: pair for pair in (*pairs, *others)}
    with transaction.atomic():
        practice = PracticeRound.objects.create(person=person, began_at=now)
        PracticeTurn.objects.bulk_create(
            PracticeTurn(round=practice, position=number, pair=by_key[look.pair], photo_id=look.picture)
            for number, look in enumerate(looks, start=1)
        )
    return practice


def answer_look(turn: PracticeTurn, said: Said, now: datetime) -> Outcome:
    """Answer a look, once: a second answer changes nothing and is told how the first one went. Raises LookGone."""
    with transaction.atomic():
        rows = PracticeTurn.objects.showable().select_related("photo__specimen", "pair", "round__person")
        found = rows.select_for_update(of=("self",)).filter(pk=turn.pk).first()
        if found is None:
            raise LookGone(_("This picture has left practice meanwhile."))
        if found.outcome:
            return Outcome(found.outcome)
        outcome = outcome_of(said, shows_mistaken=found.photo.specimen.species_id == found.pair.mistaken_id)
        found.said, found.outcome, found.answered_at = said.value, outcome.value, now
        found.save(update_fields=["said", "outcome", "answered_at"])
        _remember(found.round.person, found.pair, outcome, now)
    return outcome


def forget_practice(person: User) -> None:
    """Remove all that somebody has practised. Nothing that counts depends on it."""
    with transaction.atomic():
        PracticeRound.objects.filter(person=person).delete()
        PracticeState.objects.filter(person=person).delete()


def _remember(person: User, pair: Pair, outcome: Outcome, now: datetime) -> None:
    states = PracticeState.objects.select_for_update()
    state, _new = states.get_or_create(person=person, pair=pair, defaults={"half_life": START, "last_at": now})
    state.half_life = next_half_life(state.half_life, max(0.0, (now - state.last_at) / DAY), outcome)
    state.last_at = now
    state.save(update_fields=["half_life", "last_at"])
