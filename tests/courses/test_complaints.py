"""Complaints as organisers see and answer them; how one is made stands among the public pages."""

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from courses.actions.complaints import answer_complaint, complain
from courses.models import Complaint, Letter
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.people import make_person

LIST = reverse("courses:complaints")


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def page(complaint: Complaint) -> str:
    return reverse("courses:complaint", args=[complaint.key])


@pytest.fixture
def complaint(school, organiser) -> Complaint:
    return complain(name="Ann", email="ann@example.org", text="The bus was late.", now=timezone.now())


def test_without_any_the_list_says_so(signed_in, organiser) -> None:
    answer = signed_in(organiser).get(LIST)
    assert answer.status_code == 200
    assert "Nothing waits" in text(answer)
    assert faults(answer.content.decode()) == []


def test_it_stands_in_the_list_until_it_is_answered_and_then_among_those_that_are(
    signed_in, organiser, complaint
) -> None:
    client = signed_in(organiser)
    assert page(complaint) in text(client.get(LIST))
    shown = client.get(page(complaint))
    assert "The bus was late." in text(shown)
    assert faults(shown.content.decode()) == []
    mail.outbox.clear()
    assert client.post(page(complaint), {"text": "We are sorry."}).status_code == 302
    kept = Complaint.objects.get()
    assert (kept.answer, kept.answered_by) == ("We are sorry.", organiser)
    letter = Letter.objects.get(kind="complaint_answer")
    assert letter.to == "ann@example.org"
    assert "We are sorry." in text(client.get(page(complaint)))
    waiting = [each.pk for each in client.get(LIST).context["waiting"]]
    done = [each.pk for each in client.get(LIST).context["done"]]
    assert (waiting, done) == ([], [complaint.pk])


def test_an_empty_answer_is_refused_and_nothing_is_sent(signed_in, organiser, complaint) -> None:
    answer = signed_in(organiser).post(page(complaint), {"text": "  "})
    assert answer.status_code == 422
    assert Complaint.objects.get().answered_at is None
    assert not Letter.objects.filter(kind="complaint_answer").exists()


def test_a_second_answer_is_refused_with_a_sentence_and_sends_nothing(signed_in, organiser, complaint) -> None:
    other = make_person("Otto Other", "organiser")
    answer_complaint(complaint, "We are sorry.", by=other, now=timezone.now())
    answer = signed_in(organiser).post(page(complaint), {"text": "Again"}, follow=True)
    assert "Somebody answered meanwhile: nothing was sent." in text(answer)
    assert Complaint.objects.get().answer == "We are sorry."
    assert Letter.objects.filter(kind="complaint_answer").count() == 1


def test_the_pages_are_closed_to_everybody_but_organisers(
    client, signed_in, complaint, tutor, assessor, participant, stranger
) -> None:
    for address in (LIST, page(complaint)):
        client.logout()
        assert client.get(address).status_code == 302
        for person in (tutor, assessor, participant, stranger):
            answer = signed_in(person).get(address)
            assert answer.status_code == 403
            assert "bus" not in text(answer)
    assert signed_in(tutor).post(page(complaint), {"text": "Mine"}).status_code == 403
    assert Complaint.objects.get().answered_at is None


def test_an_unknown_one_is_not_found(signed_in, organiser) -> None:
    assert signed_in(organiser).get(reverse("courses:complaint", args=["nothing"])).status_code == 404


def test_the_list_takes_as_many_queries_however_many(signed_in, organiser, complaint) -> None:
    def grow() -> None:
        for number in range(3):
            made = complain(name=f"Bo {number}", email="bo@example.org", text="Cold tea.", now=timezone.now())
            if number:
                answer_complaint(made, "Warmer soon.", by=organiser, now=timezone.now())

    answer_complaint(complaint, "We are sorry.", by=organiser, now=timezone.now())
    assert same_queries(signed_in(organiser), LIST, grow)
