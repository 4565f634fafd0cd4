"""Answers that the page's script delivers: in a few words whether they stand, and nothing lost or undone by a copy."""

import json
from datetime import timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from assessments.actions.handing_in import annul, hand_in, show_result, take_back
from assessments.models import Answer, Evidence, Voiding

PHONE, TABLET = "a" * 32, "b" * 32
GATHER = {"said": "goodleaf", "name_is": "listed", "decision": "gather", "confidence": "sure"}
LEAVE = {"said": "", "name_is": "unknown", "decision": "leave", "confidence": ""}


def address(paper, position: int = 1) -> str:
    return reverse("assessments:question", args=[paper.key, position])


@pytest.fixture
def deliver(signed_in, participant, paper):
    """Deliver an answer with the number that its device gave it: `deliver(GATHER, 3)`."""
    client = signed_in(participant)

    def delivered(answer, number: int = 1, device: str = PHONE, position: int = 1):
        response = client.post(address(paper, position), {**answer, "device": device, "number": number})
        return response.status_code, json.loads(response.content)

    return delivered


def test_it_says_that_the_answer_stands_and_what_comes_next(deliver, paper, sitting):
    assert deliver(GATHER) == (200, {"state": "saved", "next": address(paper, 2)})
    last = paper.questions
    assert deliver(LEAVE, 2, position=last)[1]["next"] == reverse("assessments:review", args=[paper.key])
    assert dict(Answer.objects.values_list("question__position", "decision")) == {1: "gather", last: "leave"}


def test_a_copy_that_arrives_late_undoes_nothing(deliver, sitting):
    deliver(GATHER, 1)
    deliver(LEAVE, 2)
    assert deliver(GATHER, 1)[1]["state"] == "saved"
    assert Answer.objects.get().decision == "leave"


def test_the_same_delivery_twice_is_one_answer_of_one_moment(deliver, sitting):
    deliver(GATHER)
    saved_at = Answer.objects.get().saved_at
    deliver(GATHER)
    assert Answer.objects.get().saved_at == saved_at


def test_of_two_devices_each_counts_for_itself_and_the_latest_wins(deliver, sitting):
    deliver(GATHER, 7, PHONE)
    deliver(LEAVE, 1, TABLET)
    assert Answer.objects.get().decision == "leave"
    deliver(GATHER, 8, PHONE)
    deliver(LEAVE, 1, TABLET)
    assert Answer.objects.get().decision == "gather"


def test_an_answer_that_is_not_complete_says_what_is_missing_and_the_old_one_stands(deliver, sitting):
    deliver(GATHER, 1)
    status, told = deliver({**GATHER, "confidence": ""}, 2)
    assert (status, told) == (200, {"state": "unfinished", "sentences": ["Say how sure you are."]})
    assert Answer.objects.get().confidence == "sure"


def test_a_name_that_is_no_plant_is_said_with_what_may_be_meant(deliver, sitting):
    status, told = deliver({**GATHER, "said": "goodlaef"})
    assert status == 200
    assert "No plant in the list is called “goodlaef”. Did you mean goodleaf" in told["sentences"][0]
    assert not Answer.objects.exists()
    assert deliver({**GATHER, "said": "goodlaef", "name_is": "another"}, 2)[0] == 200
    assert Answer.objects.get().said == "goodlaef"


def over(deliver, words: str) -> None:
    status, told = deliver(LEAVE, 2)
    assert (status, told["state"]) == (409, "over")
    assert words in told["sentences"][0]
    assert Answer.objects.get().decision == "gather"


def test_after_handing_in_it_is_refused_in_words_and_after_taking_back_it_stands(deliver, sitting):
    deliver(GATHER)
    now = timezone.now()
    hand_in(sitting, now)
    over(deliver, "was handed in on")
    take_back(sitting, now + timedelta(seconds=59))
    assert deliver(LEAVE, 2)[0] == 200


def test_after_the_end_it_is_refused_in_words_and_what_was_saved_counts(deliver, sitting):
    deliver(GATHER)
    with time_machine.travel(sitting.closes_at, tick=False):
        over(deliver, "The time of this test was over on")
    show_result(hand_in(sitting, sitting.closes_at), sitting.closes_at)
    assert Evidence.objects.get().decision == "gather"


def test_the_order_of_arrival_decides_nothing(deliver, sitting):
    for number, position in enumerate((3, 1, 2), start=1):
        deliver(GATHER, number, position=position)
    now = timezone.now()
    show_result(hand_in(sitting, now), now)
    rows = Evidence.objects.in_order().values_list("position", "opened_at")
    assert list(rows) == [(position, sitting.opened_at) for position in (1, 2, 3)]


def test_the_clock_is_the_schools_and_not_that_of_a_device(deliver, sitting):
    deliver(GATHER)
    sitting.refresh_from_db()
    opened = sitting.opened_at
    with time_machine.travel(sitting.closes_at - timedelta(seconds=1), tick=False):
        assert deliver({**LEAVE, "saved_at": "2001-01-01"}, 2)[0] == 200
        assert Answer.objects.get().saved_at == timezone.now()
    sitting.refresh_from_db()
    assert sitting.opened_at == opened


def test_once_annulled_it_is_refused_in_words_and_so_is_everything_else(
    signed_in, participant, assessor, deliver, paper, sitting
):
    deliver(GATHER)
    annul(sitting, assessor.user, "fire alarm", timezone.now())
    over(deliver, "was annulled")
    client = signed_in(participant)
    for name, method in (("review", "get"), ("feedback", "get"), ("hand_in", "post"), ("undo", "post")):
        response = getattr(client, method)(reverse(f"assessments:{name}", args=[paper.key]))
        assert response.status_code == 409
        assert "was annulled" in response.content.decode()


def test_too_early_is_said_with_the_moment_and_before_opening_what_to_do(signed_in, participant, paper, deliver):
    page = signed_in(participant).get(address(paper))
    assert page.status_code == 409
    assert "open it first" in page.content.decode()
    paper.seats.update(opens_at=timezone.now() + timedelta(days=1))
    status, told = deliver(GATHER)
    assert (status, told["state"]) == (409, "over")
    assert "opens on" in told["sentences"][0]
    assert not Answer.objects.exists()


def test_a_question_that_there_is_not_is_not_found(signed_in, participant, paper, sitting):
    assert signed_in(participant).get(address(paper, 99)).status_code == 404


def test_of_somebody_elses_sitting_nothing_is_taken(client, stranger, paper, sitting):
    numbered = {**GATHER, "device": PHONE, "number": 1}
    assert client.post(address(paper), numbered).status_code == 302
    client.force_login(stranger.user)
    assert client.post(address(paper), numbered).status_code == 404
    assert not Answer.objects.exists()


def test_without_the_token_of_the_page_nothing_is_taken(participant, paper, sitting):
    client = Client(enforce_csrf_checks=True)
    client.force_login(participant.user)
    assert client.post(address(paper), {**GATHER, "device": PHONE, "number": 1}).status_code == 403
    assert not Answer.objects.exists()


def test_an_answer_to_a_question_voided_meanwhile_is_kept_and_said_to_count_for_nothing(
    signed_in, participant, tutor, deliver, paper, sitting
):
    specimen = sitting.questions.get(position=1).specimen
    Voiding.objects.create(specimen=specimen, voided_at=timezone.now(), voided_by=tutor.user, reason="wrong")
    assert deliver(GATHER)[0] == 200
    page = signed_in(participant).get(address(paper)).content.decode()
    assert "counts neither for you nor against you" in page
    assert 'value="goodleaf"' in page


@pytest.mark.parametrize("numbered", [{"device": "x", "number": 1}, {"device": PHONE, "number": 0}, {"number": 3}])
def test_what_is_no_proper_delivery_is_taken_as_a_form(signed_in, participant, paper, sitting, numbered):
    response = signed_in(participant).post(address(paper), {**GATHER, **numbered})
    assert response.url == address(paper, 2)
    assert Answer.objects.get().deliveries == {}


def test_twenty_devices_are_remembered_and_the_oldest_gives_way(deliver, sitting):
    for number in range(25):
        deliver(GATHER, 1, f"{number:032x}")
    remembered = Answer.objects.get().deliveries
    assert (len(remembered), f"{24:032x}" in remembered, f"{0:032x}" in remembered) == (20, True, False)
