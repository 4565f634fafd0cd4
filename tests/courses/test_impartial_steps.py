"""Who may decline, and who may take which step of a certificate: as impartial as whoever issues, but for suspending."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import (
    NotImpartial,
    NotPossibleNow,
    NotYet,
    decline,
    issue_certificate,
    record_event,
)
from courses.actions.conflicts import declare_conflict, end_conflict
from courses.models import Certificate, Letter, Person
from courses.queries.certification import certifications
from courses.queries.deciding import steps_open
from courses.rules.certification import DeciderFacts, Obstacle
from courses.rules.life import Step, StepRefusal, who_refusal
from tests.factories.certificates import make_application, make_certificate
from tests.factories.people import make_person


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def other(school) -> Person:
    """A second organiser, so that nobody is the only one."""
    return make_person("Otto Other", "organiser")


@pytest.fixture
def shy(organiser, participant, other) -> Person:
    """An organiser who declared a conflict of interest about the participant."""
    declare_conflict(organiser, participant, "A cousin", timezone.localdate())
    return organiser


def facts(**changed: bool) -> DeciderFacts:
    free = {"is_holder": False, "may_decide": True, "taught": False, "assessed": False}
    return DeciderFacts(**{**free, **changed})


@pytest.mark.parametrize("tie", ["taught", "assessed", "has_conflict"])
@pytest.mark.parametrize("step", list(Step))
def test_whoever_is_tied_to_the_holder_suspends_and_does_nothing_else(tie, step) -> None:
    refusal = None if step is Step.SUSPENDED else StepRefusal.HAD_A_HAND
    assert who_refusal(facts(**{tie: True}), step) is refusal
    assert who_refusal(facts(**{tie: True, "is_only_one": True}), step) is None
    assert who_refusal(facts(), step) is None


@pytest.mark.parametrize("step", list(Step))
def test_neither_the_holder_nor_anybody_without_the_role_takes_any_step(step) -> None:
    assert who_refusal(facts(is_holder=True, is_only_one=True), step) is StepRefusal.IS_THE_HOLDER
    assert who_refusal(facts(may_decide=False), step) is StepRefusal.MAY_NOT


def test_a_declared_conflict_keeps_from_lifting_narrowing_and_withdrawing(participant, standard, other, shy) -> None:
    held, now = make_certificate(participant, standard, other), timezone.now()
    with pytest.raises(NotPossibleNow) as refused:
        record_event(held, "withdrawn", shy, "Because", now=now)
    assert refused.value.refusal is StepRefusal.HAD_A_HAND
    record_event(held, "suspended", shy, "Seen with the wrong plant", now=now)
    with pytest.raises(NotPossibleNow):
        record_event(held, "lifted", shy, "Never mind", now=now)
    assert [each.kind for each in held.events.all()] == ["suspended"]
    record_event(held, "lifted", other, "It was somebody else", now=now)
    end_conflict(shy, participant, timezone.localdate())
    assert record_event(held, "withdrawn", shy, "Because", now=now).by == shy


def test_the_page_offers_what_can_be_done_and_says_why_not_the_rest(
    signed_in, participant, standard, other, shy
) -> None:
    held, now = make_certificate(participant, standard, other), timezone.now()
    page = reverse("courses:certificate", args=[held.number])
    assert steps_open(held, other, now).steps == {Step.SUSPENDED, Step.NARROWED, Step.WITHDRAWN}
    assert steps_open(held, shy, now).steps == {Step.SUSPENDED}
    client = signed_in(shy)
    shown = text(client.get(page))
    assert "Suspending is open to you" in shown
    assert 'value="suspended"' in shown
    assert 'value="withdrawn"' not in shown
    answer = client.post(reverse("courses:certificate_event", args=[held.number]), {"kind": "withdrawn", "reason": "x"})
    assert answer.status_code == 409
    assert "ask another organiser" in text(answer)
    free = text(signed_in(other).get(page))
    assert "Suspending is open to you" not in free
    assert 'value="withdrawn"' in free
    assert 'value="lifted"' not in free  # it is not suspended


def test_one_s_own_certificate_offers_an_organiser_no_step(signed_in, organiser, standard, other) -> None:
    held = make_certificate(organiser, standard, other)
    shown = text(signed_in(organiser).get(reverse("courses:certificate", args=[held.number])))
    assert "ask another organiser" in shown
    assert 'value="suspended"' not in shown


def test_who_may_not_issue_may_not_decline_either(signed_in, application, shy, other) -> None:
    with pytest.raises(NotImpartial) as refused:
        decline(application, shy, "Not yet", now=timezone.now())
    assert Obstacle.DECIDER_HAS_CONFLICT in refused.value.certification.obstacles
    client = signed_in(shy)
    page = text(client.get(reverse("courses:application", args=[application.pk])))
    assert "You do not decide about this person, neither way" in page
    assert "Decline, with a reason" not in page
    address = reverse("courses:application_decide", args=[application.pk])
    answer = client.post(address, {"decline": "yes", "reason": "Not yet"})
    assert answer.status_code == 409
    assert "Nothing was declined" in text(answer)
    application.refresh_from_db()
    assert application.decided_at is None
    assert not Letter.objects.filter(kind="certificate_declined").exists()
    assert decline(application, other, "Not yet", now=timezone.now()).granted is False


def test_a_school_of_one_declines_all_the_same(application, organiser, participant) -> None:
    declare_conflict(organiser, participant, "A cousin", timezone.localdate())
    assert decline(application, organiser, "Not yet", now=timezone.now()).granted is False


def test_in_a_school_of_one_the_exception_is_on_record_and_on_the_page(
    signed_in, participant, standard, organiser
) -> None:
    held = make_certificate(participant, standard, organiser)
    record_event(held, "suspended", organiser, "Until it is tested again", now=timezone.now())
    page = reverse("courses:certificate", args=[held.number])
    assert "Decided by somebody involved" not in text(signed_in(participant).get(page))
    declare_conflict(organiser, participant, "A cousin", timezone.localdate())
    event = record_event(held, "lifted", organiser, "It was somebody else", now=timezone.now())
    assert event.facts == {"exception": ["decider_has_conflict"]}
    assert "Decided by somebody involved, as nobody else in the school could." in text(signed_in(participant).get(page))


@pytest.mark.parametrize("step", ["suspended", "withdrawn"])
def test_a_renewal_is_not_granted_while_the_certificate_it_renews_stands_still(
    signed_in, passed, participant, organiser, step
) -> None:
    old = make_certificate(participant, passed.standard, organiser)
    Certificate.objects.update(issued_at=timezone.now() - timedelta(days=500))
    type(passed).objects.update(renews=old)
    record_event(old, step, organiser, "Because", now=timezone.now())
    with pytest.raises(NotYet) as refused:
        issue_certificate(passed, organiser, now=timezone.now())
    assert refused.value.certification.obstacles == (Obstacle.RENEWED_STANDS_STILL,)
    answer = signed_in(organiser).post(reverse("courses:application_decide", args=[passed.pk]), {"issue": "yes"})
    assert answer.status_code == 409
    assert "The certificate that it renews is suspended or withdrawn" in text(answer)
    assert Certificate.objects.count() == 1


def test_the_question_costs_the_same_for_many_people(standard, organiser) -> None:
    people = [make_person(f"Ann Number {number}") for number in range(4)]
    for number, person in enumerate(people):
        old = make_certificate(person, standard, organiser, number=f"2026-01{number}0")
        made = make_application(person, standard)
        type(made).objects.filter(pk=made.pk).update(renews=old)

    def asked(some: list[Person]) -> int:
        with CaptureQueriesContext(connection) as queries:
            certifications(some, standard, organiser, timezone.now())
        return len(queries)

    assert asked(people) == asked(people[:1])
