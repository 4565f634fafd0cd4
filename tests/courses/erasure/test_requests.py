"""Asking to be erased, taking it back, and the answer: who may, when not, and what is written to whom."""

from datetime import datetime, time, timedelta

import pytest
from django.utils import timezone

from courses.actions.erasure import (
    AlreadyAsked,
    AlreadyDecided,
    NamedByTheSchool,
    OwnRequest,
    ask_to_be_erased,
    decline_erasure,
    erase,
    take_request_back,
)
from courses.actions.reminders import remind
from courses.actions.roles import LastOrganiser
from courses.models import ErasureRequest, Letter, School
from tests.courses.erasure.traces import ADDRESS, NAME, erase_now
from tests.factories.people import make_person


def test_the_last_organiser_is_not_erased_and_nothing_changes(organiser, participant) -> None:
    request = ask_to_be_erased(organiser, now=timezone.now())
    with pytest.raises(LastOrganiser):
        erase(request, by=participant, now=timezone.now())
    organiser.refresh_from_db()
    assert (organiser.name, organiser.erased_on) == ("Olga Organiser", None)
    assert ErasureRequest.objects.undecided().get() == request


def test_nobody_decides_about_themselves(organiser) -> None:
    make_person("Second Organiser", "organiser")
    request = ask_to_be_erased(organiser, now=timezone.now())
    with pytest.raises(OwnRequest):
        erase(request, by=organiser, now=timezone.now())
    with pytest.raises(OwnRequest):
        decline_erasure(request, by=organiser, reason="no", now=timezone.now())


def test_the_schools_own_details_are_changed_first(participant, organiser) -> None:
    School.objects.update(email=ADDRESS)
    request = ask_to_be_erased(participant, now=timezone.now())
    with pytest.raises(NamedByTheSchool):
        erase(request, by=organiser, now=timezone.now())
    participant.refresh_from_db()
    assert participant.name == NAME


def test_a_second_go_is_refused_and_changes_nothing(life, organiser) -> None:
    request = erase_now(life, organiser)
    life.refresh_from_db()
    code = life.name
    with pytest.raises(AlreadyDecided):
        erase(request, by=organiser, now=timezone.now())
    with pytest.raises(AlreadyAsked):
        ask_to_be_erased(life, now=timezone.now())
    life.refresh_from_db()
    assert life.name == code


def test_one_request_at_a_time_and_it_can_be_taken_back(participant, organiser) -> None:
    request = ask_to_be_erased(participant, now=timezone.now())
    with pytest.raises(AlreadyAsked):
        ask_to_be_erased(participant, now=timezone.now())
    take_request_back(request, timezone.now())
    with pytest.raises(AlreadyDecided):
        erase(request, by=organiser, now=timezone.now())
    assert ask_to_be_erased(participant, now=timezone.now()) != request


def test_a_request_is_acknowledged_and_told_to_the_organisers(participant, organiser) -> None:
    ask_to_be_erased(participant, now=timezone.now())
    assert set(Letter.objects.values_list("to", "kind")) == {
        (ADDRESS, "erasure_received"),
        ("olga.organiser@example.org", "erasure_asked"),
    }


def test_a_declined_request_gives_the_reason_and_the_way_to_complain(participant, organiser) -> None:
    request = ask_to_be_erased(participant, now=timezone.now())
    decline_erasure(request, by=organiser, reason="A court has asked for it.", now=timezone.now())
    letter = Letter.objects.get(kind="erasure_declined")
    assert "A court has asked for it." in letter.text
    assert "complain to the authority" in letter.text
    participant.refresh_from_db()
    assert participant.name == NAME


@pytest.mark.parametrize("by_an_organiser", [False, True])
def test_nobody_is_told_that_they_asked_where_somebody_else_recorded_it(
    participant, organiser, by_an_organiser
) -> None:
    recorded_by = organiser if by_an_organiser else None
    request = ask_to_be_erased(participant, now=timezone.now(), recorded_by=recorded_by)
    received = Letter.objects.get(kind="erasure_received")
    erase(request, by=make_person("Otto Other", "organiser"), now=timezone.now())
    farewell = Letter.objects.get(kind="erased")
    assert ("Your request" in received.subject) != by_an_organiser
    assert ("your request of" in received.text) != by_an_organiser
    assert ("as you asked" in farewell.text) != by_an_organiser
    assert "the school has erased what it held of you: your name" in farewell.text


def test_organisers_are_reminded_in_the_last_week_and_once(participant, organiser) -> None:
    request = ask_to_be_erased(participant, now=timezone.now())
    Letter.objects.all().delete()
    last_week = timezone.make_aware(datetime.combine(request.decide_by - timedelta(days=7), time(9)))
    assert remind(last_week - timedelta(days=1)) == 0
    assert [remind(last_week), remind(last_week + timedelta(days=7))] == [1, 0]
    letter = Letter.objects.get()
    assert letter.to == organiser.user.email
    assert f"The request of {participant.name} to be erased is to be answered by" in letter.text
