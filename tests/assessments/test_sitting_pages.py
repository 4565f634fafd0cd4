"""Sitting a paper: every answer saved, nothing counted twice, nothing given away."""

import re
from datetime import timedelta

import pytest
import time_machine
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from assessments.actions.handing_in import settle_overdue
from assessments.models import Answer, Evidence, Period, Question, Seen, Sitting

ANSWER = {"said": "goodleaf", "name_is": "listed", "decision": "gather", "confidence": "sure", "go": "next"}
LEAVE = {"said": "", "name_is": "unknown", "decision": "leave", "confidence": "", "go": "next"}


def url(name: str, paper, *more) -> str:
    return reverse(f"assessments:{name}", args=[paper.key, *more])


def hand_in(client, paper):
    return client.post(url("hand_in", paper))


def test_opening_twice_gives_the_same_questions_and_one_window(signed_in, participant, paper):
    client = signed_in(participant)
    client.post(url("sit_open", paper))
    first = list(Question.objects.values_list("position", "specimen_id"))
    client.post(url("sit_open", paper))
    assert list(Question.objects.values_list("position", "specimen_id")) == first
    assert Sitting.objects.count() == 1
    assert Period.objects.get().windows.count() == 1


def test_a_question_is_seen_only_when_it_is_shown(signed_in, participant, paper, sitting):
    assert not Seen.objects.filter(person=participant.user).exists()
    signed_in(participant).get(url("question", paper, 1))
    assert Seen.objects.get(person=participant.user).specimen_id == sitting.questions.get(position=1).specimen_id


def test_an_answer_is_saved_when_given_and_shown_again(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    response = client.post(url("question", paper, 1), ANSWER)
    assert response.url == url("question", paper, 2)
    page = client.get(url("question", paper, 1)).content.decode()
    assert 'value="goodleaf"' in page
    assert Answer.objects.get().decision == "gather"


def test_the_same_answer_twice_changes_nothing_and_the_latest_wins(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    saved_at = Answer.objects.get().saved_at
    client.post(url("question", paper, 1), ANSWER)
    assert Answer.objects.get().saved_at == saved_at
    client.post(url("question", paper, 1), LEAVE)
    assert Answer.objects.get().decision == "leave"


def test_what_is_missing_is_said_and_what_was_typed_stays(signed_in, participant, paper, sitting):
    response = signed_in(participant).post(url("question", paper, 1), {"said": "goodlaef", "name_is": "listed"})
    page = response.content.decode()
    assert response.status_code == 422
    assert "Did you mean" in page
    assert "Choose one of the three" in page
    assert 'value="goodlaef"' in page
    assert not Answer.objects.exists()


@pytest.mark.parametrize("name", ["sit", "review", "feedback"])
def test_a_sitting_of_somebody_else_is_not_found(signed_in, stranger, paper, sitting, name):
    assert signed_in(stranger).get(url(name, paper)).status_code == 404


def test_questions_and_pictures_of_somebody_else_are_not_found(signed_in, stranger, participant, paper, sitting):
    signed_in(participant).get(url("question", paper, 1))
    client = signed_in(stranger)
    assert client.get(url("question", paper, 1)).status_code == 404
    assert client.post(url("question", paper, 1), ANSWER).status_code == 404
    assert client.get(url("question_photo", paper, 1, 1, 400)).status_code == 404


def test_strangers_are_sent_to_sign_in(client, paper, sitting):
    for name in ("sit", "review", "feedback"):
        assert reverse("account_login") in client.get(url(name, paper)).url


@pytest.mark.parametrize("name", ["sit_open", "hand_in", "undo", "show_now"])
def test_changes_are_refused_by_get(signed_in, participant, paper, sitting, name):
    assert signed_in(participant).get(url(name, paper)).status_code == 405


def test_a_picture_opens_with_its_question_and_says_nothing(signed_in, participant, paper, sitting):
    client, picture = signed_in(participant), url("question_photo", paper, 1, 1, 400)
    assert client.get(picture).status_code == 404
    client.get(url("question", paper, 1))
    response = client.get(picture)
    assert response["Content-Type"] == "image/jpeg"
    assert response["Cache-Control"] == "private, no-store"
    headers = str(response.headers) + picture
    specimen = sitting.questions.get(position=1).specimen
    assert specimen.key not in headers
    assert specimen.species.key not in headers
    assert "filename" not in headers


def test_nothing_on_a_question_tells_one_plant_from_another(signed_in, participant, paper, sitting, pair):
    client, pages = signed_in(participant), {}
    for question in sitting.questions.select_related("specimen__species"):
        client.get(url("question", paper, question.position))
    for question in sitting.questions.select_related("specimen__species"):
        page = client.get(url("question", paper, question.position)).content.decode()
        page = re.sub(r"\b[A-Za-z0-9]{64}\b", "TOKEN", page)
        page = re.sub(r'<nav class="places".*?</nav>', "", page, flags=re.S)
        page = re.sub(r"\d+", "#", page).replace("Save and look over it", "Save and go on")
        pages.setdefault(question.specimen.species.key, set()).add(page)
    assert len(pages) == 2
    assert len(set.union(*pages.values())) == 1


def test_handing_in_writes_nothing_until_the_minute_is_over(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    hand_in(client, paper)
    assert not Evidence.objects.exists()
    later = timezone.now() + timedelta(seconds=61)
    assert settle_overdue(later) == 1
    assert settle_overdue(later) == 0
    assert Evidence.objects.count() == 1


def test_handing_in_twice_and_seeing_twice_counts_once(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    for _each in range(2):
        hand_in(client, paper)
        client.post(url("show_now", paper))
    assert Evidence.objects.count() == 1


def test_undo_gives_the_paper_back_and_seeing_the_result_ends_it(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    hand_in(client, paper)
    client.post(url("undo", paper))
    assert client.post(url("question", paper, 1), LEAVE).status_code == 302
    hand_in(client, paper)
    client.post(url("show_now", paper))
    assert client.post(url("undo", paper)).status_code == 409
    assert Evidence.objects.get().decision == "leave"


@pytest.mark.parametrize(("seconds", "status", "decision"), [(59, 302, "leave"), (60, 409, "gather")])
def test_undo_is_there_for_a_minute_to_the_second(signed_in, participant, paper, sitting, seconds, status, decision):
    client, now = signed_in(participant), timezone.now()
    with time_machine.travel(now, tick=False):
        client.post(url("question", paper, 1), ANSWER)
        hand_in(client, paper)
        assert (
            f"until {timezone.localtime(now + timedelta(seconds=60)):%H:%M:%S}"
            in client.get(url("sit", paper)).content.decode()
        )
    with time_machine.travel(now + timedelta(seconds=seconds), tick=False):
        assert client.post(url("undo", paper)).status_code == status
        client.post(url("question", paper, 1), LEAVE)
    assert Answer.objects.get().decision == decision
    assert Evidence.objects.exists() == (status == 409)


def test_an_answer_after_handing_in_is_refused_in_words_and_the_old_one_stands(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    hand_in(client, paper)
    response = client.post(url("question", paper, 1), LEAVE)
    assert response.status_code == 409
    page = response.content.decode()
    for words in ("takes no more answers", "I don&#x27;t know what it is", "Leave it: I cannot tell"):
        assert words in page
    assert Answer.objects.get().decision == "gather"


def test_no_result_before_handing_in(signed_in, participant, paper, sitting):
    assert signed_in(participant).get(url("feedback", paper)).status_code == 409
    assert not Evidence.objects.exists()


def test_a_sitting_closes_by_itself_with_what_was_shown(paper, sitting, participant, signed_in):
    client = signed_in(participant)
    client.post(url("question", paper, 1), ANSWER)
    client.get(url("question", paper, 2))
    assert settle_overdue(timezone.now() + timedelta(days=2)) == 1
    assert list(Evidence.objects.order_by("position").values_list("position", "decision")) == [(1, "gather"), (2, "")]
    assert Seen.objects.filter(person=participant.user).count() == 2


def test_feedback_names_the_plant_and_puts_a_sure_miss_first(signed_in, participant, paper, sitting, pair):
    client = signed_in(participant)
    deadly = sitting.questions.filter(specimen__species=pair.mistaken).first()
    client.post(url("question", paper, deadly.position), ANSWER)
    hand_in(client, paper)
    client.post(url("show_now", paper))
    page = client.get(url("feedback", paper)).content.decode()
    assert "Look at this first" in page
    assert "badleaf" in page.lower()


def test_a_paper_that_is_not_open_yet_says_when(signed_in, participant, paper):
    paper.seats.update(opens_at=timezone.now() + timedelta(days=1))
    client = signed_in(participant)
    assert client.post(url("sit_open", paper)).status_code == 409
    assert "opens on" in client.get(url("sit", paper)).content.decode()
    assert not Sitting.objects.exists()


def test_a_question_page_costs_the_same_whatever_the_length(
    signed_in, participant, paper, sitting, django_assert_max_num_queries
):
    client = signed_in(participant)
    client.get(url("question", paper, 1))
    with django_assert_max_num_queries(18):
        client.get(url("question", paper, 1))


def test_the_command_tells_where_somebody_stands(participant, standard, capsys):
    call_command("standings", participant.user.email)
    assert "badleaf" in capsys.readouterr().out
