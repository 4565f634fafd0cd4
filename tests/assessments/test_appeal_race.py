"""Two people decide one appeal at the same moment; one person sends one appeal twice."""

from collections.abc import Callable
from threading import Barrier, Thread

import pytest
from django.db import connection

from assessments.actions.appeals import AlreadyAppealed, AlreadyEnded
from assessments.models import Appeal, Evidence, Notice, Voiding
from assessments.rules.appeals import Step

from .appeals import decided, make_appeal


def at_once(*steps: Callable[[], object]) -> list[str]:
    """What became of each, when all are taken at the same moment from connections of their own."""
    start, outcomes = Barrier(len(steps)), []

    def take(step: Callable[[], object]) -> None:
        start.wait()
        try:
            step()
            outcomes.append("done")
        except (AlreadyEnded, AlreadyAppealed) as refusal:
            outcomes.append(type(refusal).__name__)
        finally:
            connection.close()

    threads = [Thread(target=take, args=[step]) for step in steps]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sorted(outcomes)


@pytest.mark.django_db(transaction=True)
def test_of_two_deciders_one_decides_and_everything_follows_once(miss: Evidence, assessor, organiser) -> None:
    made = make_appeal(miss)
    outcomes = at_once(
        lambda: decided(made, assessor, Step.VOIDED, "It is another plant."),
        lambda: decided(made, organiser, Step.VOIDED, "Not to be made out."),
    )
    assert outcomes == ["AlreadyEnded", "done"]
    assert Voiding.objects.count() == 1
    assert made.steps.filter(kind="voided").count() == 1
    assert Notice.objects.filter(kind="appeal_decided").count() == 1


@pytest.mark.django_db(transaction=True)
def test_who_dismisses_and_who_upholds_at_the_same_moment_do_not_both_win(miss: Evidence, assessor, organiser) -> None:
    made = make_appeal(miss)
    outcomes = at_once(lambda: decided(made, assessor, Step.VOIDED), lambda: decided(made, organiser, Step.DISMISSED))
    assert outcomes == ["AlreadyEnded", "done"]
    assert Voiding.objects.exists() == made.steps.filter(kind="voided").exists()


@pytest.mark.django_db(transaction=True)
def test_a_double_tap_appeals_once(miss: Evidence) -> None:
    assert at_once(lambda: make_appeal(miss), lambda: make_appeal(miss)) == ["AlreadyAppealed", "done"]
    assert Appeal.objects.get().steps.count() == 1
