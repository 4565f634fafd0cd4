"""More time for one person: noted with what, why and by whom, and applied before the test or during it."""

from datetime import timedelta
from decimal import Decimal
from io import StringIO
from threading import Barrier, Thread

import pytest
import time_machine
from django.core.management import call_command
from django.db import connection
from django.urls import reverse
from django.utils import timezone

from assessments.actions.adjustments import AdjustmentRefused, Agreed, adjust_seat
from assessments.actions.handing_in import settle_overdue
from assessments.actions.sittings import open_sitting
from assessments.models import Adjustment, Evidence, Notice, Sitting

HALF_AS_LONG = Agreed("half as long again", "asked for by the person", Decimal("1.5"))


@pytest.fixture
def timed(paper):
    """The paper with a limit of forty minutes; the seat of the participant."""
    paper.minutes = 40
    paper.save()
    return paper.seats.get()


def test_what_why_and_who_are_on_record_and_on_the_page_of_the_paper(signed_in, tutor, timed):
    client, address = signed_in(tutor), reverse("assessments:adjust", args=[timed.paper.key, timed.pk])
    assert client.get(address).status_code == 200
    posted = {"time_factor": "1.5", "what": "half as long again", "why": "agreed in May"}
    page = client.post(address, posted, follow=True).content.decode()
    assert "half as long again (1.5 times the time). Why: agreed in May. Noted by Tilda Tutor" in page
    assert Adjustment.objects.get().made_by == tutor.user


def test_it_lengthens_a_test_opened_afterwards(timed, tutor):
    now = timezone.now()
    adjust_seat(timed, HALF_AS_LONG, tutor.user, now)
    assert open_sitting(timed, now).closes_at == now + timedelta(minutes=60)


def test_it_lengthens_a_test_that_is_under_way_and_tells_the_person(signed_in, participant, timed, tutor):
    now = timezone.now()
    open_sitting(timed, now)
    adjust_seat(timed, HALF_AS_LONG, tutor.user, now + timedelta(minutes=39))
    assert Sitting.objects.get().closes_at == now + timedelta(minutes=60)
    page = signed_in(participant).get(reverse("assessments:sit", args=[timed.paper.key])).content.decode()
    assert "half as long again" in page


@pytest.mark.parametrize(
    ("agreed", "words"),
    [
        (Agreed("less", "why", Decimal("0.5")), "never shorter"),
        (Agreed("more", "why", Decimal(11)), "ten times"),
        (Agreed("", "why", Decimal(2)), "Write down"),
        (Agreed("more", " ", Decimal(2)), "Write down"),
    ],
)
def test_what_is_no_adjustment_is_refused_in_words(timed, tutor, agreed, words):
    with pytest.raises(AdjustmentRefused, match=words):
        adjust_seat(timed, agreed, tutor.user, timezone.now())
    assert not Adjustment.objects.exists()


def test_what_was_given_is_not_taken_back_nor_given_to_oneself_nor_after_the_end(timed, tutor, participant):
    now = timezone.now()
    adjust_seat(timed, HALF_AS_LONG, tutor.user, now)
    with pytest.raises(AdjustmentRefused, match="never taken back"):
        adjust_seat(timed, Agreed("less", "why", Decimal(1)), tutor.user, now)
    with pytest.raises(AdjustmentRefused, match="ask a colleague"):
        adjust_seat(timed, HALF_AS_LONG, participant.user, now)
    open_sitting(timed, now)
    with pytest.raises(AdjustmentRefused, match="is over"):
        adjust_seat(timed, HALF_AS_LONG, tutor.user, now + timedelta(minutes=60))


@pytest.mark.parametrize("person", ["participant", "stranger"])
def test_only_those_who_set_papers_adjust_them(request, signed_in, timed, person):
    client = signed_in(request.getfixturevalue(person))
    address = reverse("assessments:adjust", args=[timed.paper.key, timed.pk])
    assert client.get(address).status_code == client.post(address, {}).status_code == 403


def closed_by_command() -> str:
    out = StringIO()
    call_command("close_sittings", stdout=out)
    return out.getvalue()


@pytest.mark.django_db(transaction=True)
def test_two_who_close_at_the_same_moment_close_once(signed_in, participant, timed):
    now = timezone.now()
    sitting = open_sitting(timed, now)
    signed_in(participant).get(reverse("assessments:question", args=[timed.paper.key, 1]))
    late, start, counts = now + timedelta(minutes=41), Barrier(2), []

    def close() -> None:
        start.wait()
        counts.append(settle_overdue(late))
        connection.close()

    threads = [Thread(target=close) for _each in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    sitting.refresh_from_db()
    assert (sorted(counts), Evidence.objects.count(), sitting.settled_at) == ([0, 1], 1, late)


def test_what_ran_out_is_closed_by_command_once_and_what_did_not_stays(signed_in, participant, timed):
    now = timezone.now()
    sitting = open_sitting(timed, now)
    with time_machine.travel(now, tick=False):
        signed_in(participant).get(reverse("assessments:question", args=[timed.paper.key, 1]))
        assert closed_by_command() == "0 sittings closed or settled.\n"
    with time_machine.travel(now + timedelta(minutes=40), tick=False):
        assert closed_by_command() == "1 sitting closed or settled.\n"
        assert closed_by_command() == "0 sittings closed or settled.\n"
    sitting.refresh_from_db()
    assert (sitting.handed_in_at, sitting.closed_itself) == (sitting.closes_at, True)
    assert Evidence.objects.get().position == 1
    assert Notice.objects.filter(kind="sitting_closed_itself").count() == 1
