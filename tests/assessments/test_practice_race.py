"""One person answers looks of practice from several windows at the same moment."""

from threading import Barrier, Thread

import pytest
from django.db import connection
from django.utils import timezone

from assessments.actions.practice import answer_look, begin_round
from assessments.models import PracticeState, PracticeTurn
from assessments.rules.practice import Said

from .practising import hang_teaching_pictures


@pytest.mark.django_db(transaction=True)
def test_every_look_is_answered_once_and_one_state_is_kept(participant, pair, standard) -> None:
    hang_teaching_pictures(pair)
    practice = begin_round(participant.user, [pair], timezone.now(), seed=1)
    twice, outcomes = [*practice.turns.all(), *practice.turns.all()], []
    start = Barrier(len(twice))

    def answer(turn: PracticeTurn) -> None:
        start.wait()
        try:
            outcomes.append(answer_look(turn, Said.LEAVE, timezone.now()).value)
        finally:
            connection.close()

    threads = [Thread(target=answer, args=[turn]) for turn in twice]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert outcomes == ["left"] * len(twice)
    assert practice.turns.answered().count() == len(twice) // 2
    assert PracticeState.objects.get().half_life == 0.5
