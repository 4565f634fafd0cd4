"""Taking an application back before anybody has decided on it."""

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import AlreadyDecided, decline, issue_certificate
from courses.models import Application
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.certificates import make_application

MINE = reverse("courses:certificates_mine")


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def address(application: Application) -> str:
    return reverse("courses:application_take_back", args=[application.pk])


def taken_back(application: Application) -> bool:
    return Application.objects.get(pk=application.pk).taken_back_at is not None


def test_it_is_asked_once_more_then_taken_back_and_can_be_asked_for_again(signed_in, participant, application) -> None:
    client = signed_in(participant)
    assert address(application) in text(client.get(MINE))
    asked = client.get(address(application))
    assert "Take your application under Participant back?" in text(asked)
    assert faults(asked.content.decode()) == []
    assert not taken_back(application)
    done = client.post(address(application), follow=True)
    assert done.redirect_chain == [(MINE, 302)]
    assert "Your application is taken back" in text(done)
    assert address(application) not in text(done)
    assert taken_back(application)
    assert make_application(participant, application.standard).pk != application.pk


def test_nobody_else_takes_it_back_and_strangers_sign_in_first(
    client, signed_in, application, stranger, tutor, organiser
) -> None:
    assert client.post(address(application)).status_code == 302
    for person in (stranger, tutor, organiser):
        assert signed_in(person).get(address(application)).status_code == 404
        assert signed_in(person).post(address(application)).status_code == 404
    assert not taken_back(application)


def test_what_was_taken_back_is_decided_by_nobody(signed_in, participant, passed, organiser) -> None:
    signed_in(participant).post(address(passed))
    with pytest.raises(AlreadyDecided):
        issue_certificate(passed, organiser, now=timezone.now())


def test_what_was_decided_or_taken_back_before_stays_as_it_is_and_a_sentence_says_so(
    signed_in, participant, application, organiser
) -> None:
    client = signed_in(participant)
    decline(application, organiser, "Not yet", now=timezone.now())
    assert "Nothing was changed" in text(client.post(address(application), follow=True))
    assert not taken_back(application)
    again = make_application(participant, application.standard)
    client.post(address(again))
    first = Application.objects.get(pk=again.pk).taken_back_at
    assert "Nothing was changed" in text(client.post(address(again), follow=True))
    assert Application.objects.get(pk=again.pk).taken_back_at == first


def test_the_page_takes_as_many_queries_however_many_applications(signed_in, participant, application, pair) -> None:
    def grow() -> None:
        for number in range(3):
            other = make_standard(pair, key=f"other-{number}", in_use=False)
            make_application(participant, other)

    assert same_queries(signed_in(participant), address(application), grow)
