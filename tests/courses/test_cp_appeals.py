"""What certification of persons asks of appeals (CP-16), up to the certificate that rests on what was appealed."""

import pytest
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format

from assessments.actions.appeals import AppealRefused
from assessments.models import Evidence, SpotTest
from assessments.queries.appeals import eligibility_of
from assessments.queries.standings import standings_of
from assessments.rules.appeals import Bar, Step
from courses.actions.certificates import issue_certificate, record_event
from courses.actions.reviews import notify_reviews
from courses.actions.roles import grant_role
from courses.models import Certificate, Letter, ReviewOpened
from courses.queries.certificates import certificate_lines
from tests.assessments.appeals import decided, make_appeal, page
from tests.factories.assessments import make_live_evidence
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def passed_pairs(person, standard) -> bool:
    return standings_of([person.user_id], standard, timezone.now())[person.user_id].passed


def line(certificate: Certificate):
    fresh = Certificate.objects.select_related("person__user", "standard").get(pk=certificate.pk)
    return certificate_lines([fresh], timezone.now())[0]


@pytest.fixture
def issued(passed, organiser) -> Certificate:
    return issue_certificate(passed, organiser, now=timezone.now())


@pytest.fixture
def a_live_answer(issued) -> Evidence:
    """One of the three live answers that the pass needs, at a test that the assessor set and recorded."""
    return Evidence.objects.filter(person=issued.person.user, station__isnull=False).first()


@pytest.fixture
def second(school):
    """Somebody with no part in anything."""
    return make_person("Ursa Uninvolved", "assessor")


def test_cp_16_neither_the_setter_nor_who_recorded_the_answer_decides(
    participant, pair, setter, assessor, second
) -> None:
    grant_role(setter, "assessor", today=timezone.localdate())
    made = make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "gather", by=assessor.user)
    SpotTest.objects.filter(stations=made.station).update(set_by=setter.user)
    appealed = make_appeal(Evidence.objects.get(pk=made.pk))
    for person in (setter, assessor):
        user = type(person.user).objects.get(pk=person.user_id)  # with the permissions of today
        assert eligibility_of(user, appealed).bars == (Bar.ASSESSED_THE_PERSON,)
        with pytest.raises(AppealRefused):
            decided(appealed, type(person).objects.get(pk=person.pk), Step.DISMISSED)
    assert not appealed.steps.filter(kind=Step.DISMISSED.value).exists()
    assert decided(appealed, second, Step.DISMISSED).steps.filter(kind=Step.DISMISSED.value).exists()


def test_cp_16_the_day_by_which_it_is_decided_is_shown_to_the_person_and_to_who_decides(
    signed_in, participant, a_live_answer, second
) -> None:
    made = make_appeal(a_live_answer)
    day = date_format(made.decide_by, "DATE_FORMAT")
    assert made.decide_by > timezone.localdate()
    assert f"It is decided by {day}" in text(signed_in(participant).get(page("one_appeal", made.key)))
    assert f"decided by {day}" in text(signed_in(participant).get(page("appeals")))
    assert f"to be decided by {day}" in text(signed_in(second).get(page("appeals_to_decide")))


def test_cp_16_marking_anew_flows_through_to_standing_certificate_and_check_page(
    client, issued, participant, standard, a_live_answer, second, organiser
) -> None:
    assert passed_pairs(participant, standard)
    assert notify_reviews(timezone.now()) == 0
    decided(make_appeal(a_live_answer), second, Step.VOIDED, reasons="Two plants grew in one.")
    assert not passed_pairs(participant, standard)
    assert line(issued).status == "review"
    assert notify_reviews(timezone.now()) == 1
    assert ReviewOpened.objects.get(closed_at__isnull=True).certificate == issued
    assert Letter.objects.filter(kind="certificate_review", to=organiser.user.email).count() == 1
    assert "under review" in text(client.get(reverse("courses:check", args=[issued.key])))
    issued.refresh_from_db()
    assert line(issued).state == "current"  # a review suspends nothing: a person decides
    record_event(issued, "suspended", organiser, "Until it is tested again", now=timezone.now())
    notify_reviews(timezone.now())
    assert not ReviewOpened.objects.filter(closed_at__isnull=True).exists()


def test_cp_16_appealing_alone_changes_neither_standing_nor_certificate(
    issued, participant, standard, a_live_answer, second
) -> None:
    made = make_appeal(a_live_answer)
    assert passed_pairs(participant, standard)
    assert line(issued).status == "current"
    decided(made, second, Step.DISMISSED, reasons="It stands.")
    assert line(issued).status == "current"
    assert notify_reviews(timezone.now()) == 0


def test_cp_16_the_outcome_is_given_with_its_reasons_and_is_the_end(
    signed_in, participant, a_live_answer, second, assessor
) -> None:
    made = make_appeal(a_live_answer)
    decided(made, second, Step.DISMISSED, reasons="The stem is blotched below.")
    assert "The stem is blotched below." in text(signed_in(participant).get(page("one_appeal", made.key)))
    with pytest.raises(AppealRefused):
        decided(made, second, Step.VOIDED)
    assert made.steps.filter(kind__in=[Step.DISMISSED.value, Step.VOIDED.value]).count() == 1
