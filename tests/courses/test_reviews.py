"""Certificates under review: shown at once, told once, suspended by nobody."""

import pytest
from django.core import mail
from django.utils import timezone

from assessments.actions.windows import open_renewal
from assessments.queries.standings import standings_of
from courses.actions.certificates import issue_certificate, record_event
from courses.actions.reviews import notify_reviews
from courses.models import Certificate, ReviewOpened
from courses.queries.certificates import certificate_lines
from tests.factories.certificates import gather_dangerous


@pytest.fixture
def issued(passed, organiser) -> Certificate:
    return issue_certificate(passed, organiser, now=timezone.now())


@pytest.mark.usefixtures("sends_at_once")
def test_the_organisers_are_told_once_and_nothing_is_suspended(issued, participant, pair, tutor) -> None:
    assert notify_reviews(timezone.now()) == 0
    gather_dangerous(participant, pair, tutor)
    mail.outbox.clear()
    assert (notify_reviews(timezone.now()), notify_reviews(timezone.now())) == (1, 0)
    assert [letter.to for letter in mail.outbox] == [["olga.organiser@example.org"]]
    assert "under review" in mail.outbox[0].subject
    assert not issued.events.exists()


def test_a_review_closes_when_somebody_has_decided(issued, participant, pair, tutor, organiser) -> None:
    gather_dangerous(participant, pair, tutor)
    notify_reviews(timezone.now())
    record_event(issued, "suspended", organiser, "Looked at it", now=timezone.now())
    assert notify_reviews(timezone.now()) == 0
    assert ReviewOpened.objects.get().closed_at is not None
    record_event(issued, "lifted", organiser, "By mistake", now=timezone.now())
    assert notify_reviews(timezone.now()) == 1


def test_a_new_period_leaves_an_older_certificate_on_its_own_evidence(issued, participant, organiser) -> None:
    open_renewal(participant.user, organiser.user, 24, timezone.now())
    assert not standings_of([participant.user_id], issued.standard, timezone.now())[participant.user_id].passed
    assert certificate_lines([issued], timezone.now())[0].status == "current"
