"""Certificates under review: shown at once, told once, suspended by nobody; and no way around it."""

from contextlib import suppress
from datetime import timedelta

import pytest
from django.core import mail
from django.db import transaction
from django.utils import timezone
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from assessments.actions.windows import open_renewal
from assessments.queries.standings import standings_of
from courses.actions.certificates import NotPossibleNow, issue_certificate, record_event
from courses.actions.reviews import notify_reviews
from courses.models import Certificate, ReviewOpened
from courses.queries.certificates import certificate_lines
from courses.rules.certification import State
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.certificates import gather_dangerous, give_pass, make_application
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, make_species


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


class Lives(RuleBasedStateMachine):
    """Misses, voided pictures and every step in any order, over one certificate."""

    @initialize()
    def begin(self) -> None:
        make_school()
        self.tutor, self.organiser = make_person("Tilda Tutor", "tutor"), make_person("Olga Organiser", "organiser")
        self.holder = make_person("Pat Participant", "participant")
        pair = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
        self.standard = make_standard(pair)
        self.pair = Pair.objects.get(pk=pair.pk)
        give_pass(self.holder, self.standard, pair, set_by=self.tutor, checked_by=make_person("Asa", "assessor"))
        application = make_application(self.holder, self.standard)
        self.certificate = issue_certificate(application, self.organiser, now=timezone.now())
        self.missed = False

    @rule()
    def gathers_what_is_dangerous(self) -> None:
        gather_dangerous(self.holder, self.pair, self.tutor)
        self.missed = True

    @rule(count=st.integers(min_value=1, max_value=12))
    def loses_evidence(self, count: int) -> None:
        rows = self.holder.user.evidence.filter(decision="refuse", specimen__voidings__isnull=True)
        for row in rows[:count]:
            row.specimen.voidings.create(voided_by=self.tutor.user, reason="Blurred", voided_at=timezone.now())

    @rule(kind=st.sampled_from(["suspended", "lifted", "narrowed", "withdrawn"]), keeps=st.booleans())
    def takes_a_step(self, kind: str, keeps: bool) -> None:
        keeping = [self.pair.key] if keeps else []
        with suppress(NotPossibleNow):
            record_event(self.certificate, kind, self.organiser, "A reason", now=timezone.now(), keeping=keeping)

    @rule()
    def the_worker_comes_by(self) -> None:
        notify_reviews(timezone.now())

    @invariant()
    def none_is_current_over_a_pair_that_is_not_passed(self) -> None:
        now = timezone.now()
        fresh = Certificate.objects.select_related("person__user", "standard").get(pk=self.certificate.pk)
        line = certificate_lines([fresh], now)[0]
        passed = standings_of([self.holder.user_id], self.standard, now)[self.holder.user_id].passed
        if line.state is State.CURRENT and (self.missed or not passed):
            assert line.status == "review"
            notify_reviews(now)
            assert ReviewOpened.objects.filter(certificate=fresh, closed_at__isnull=True).count() == 1
        assert fresh.valid_until == self.certificate.valid_until


class TestNoWayAround(TestCase):
    """Whatever is done in whatever order."""

    def test_no_sequence_leaves_a_current_certificate_over_an_unpassed_pair_without_a_review(self) -> None:
        checks = settings(
            max_examples=6,
            stateful_step_count=8,
            deadline=timedelta(minutes=1),
            suppress_health_check=list(HealthCheck),
            database=None,
        )
        run_state_machine_as_test(_each_in_its_own_transaction(), settings=checks)


def _each_in_its_own_transaction() -> type[Lives]:
    class Undone(Lives):
        def __init__(self) -> None:
            super().__init__()
            self.block = transaction.atomic()
            self.block.__enter__()

        def teardown(self) -> None:
            transaction.set_rollback(True)
            self.block.__exit__(None, None, None)

    return Undone
