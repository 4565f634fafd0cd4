"""Certificates follow an appeal that is upheld, and whoever decided one does not decide on the certificate."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Evidence, Notice
from assessments.rules.appeals import Step
from courses.models import Certificate
from courses.queries.certificates import certificate_lines
from courses.queries.certification import involvements
from tests.assessments.appeals import decided, make_appeal
from tests.factories.assessments import make_standard
from tests.factories.certificates import gather_dangerous, give_pass, make_certificate, make_facts
from tests.factories.people import make_person
from tests.factories.species import PairFactory, make_species


@pytest.fixture
def pair(school):
    return PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))


@pytest.fixture
def standard(pair):
    return make_standard(pair)


@pytest.fixture
def holder(participant, standard, pair, tutor, organiser, assessor) -> Certificate:
    """The participant passed, with nothing to spare alive, and was given a certificate."""
    give_pass(participant, standard, pair, set_by=tutor, checked_by=tutor)
    facts = make_facts().as_json()
    facts["pairs"][0]["key"] = pair.key
    return make_certificate(participant, standard, organiser, facts=facts)


def status(certificate: Certificate) -> str:
    return certificate_lines([certificate], timezone.now())[0].status


def a_live_answer(person) -> Evidence:
    return Evidence.objects.filter(person=person.user, station__isnull=False).first()


def test_a_certificate_is_under_review_once_what_it_rests_on_counts_for_nobody(holder, participant, assessor):
    assert status(holder) == "current"
    decided(make_appeal(a_live_answer(participant)), assessor, Step.VOIDED)
    assert status(holder) == "review"
    told = Notice.objects.get(person=participant.user, kind="plant_void").facts["standards"][0]
    assert (told["passed_before"], told["passed_after"]) == (True, False)


def test_a_certificate_is_current_again_once_the_later_miss_is_void(holder, participant, pair, tutor, assessor):
    miss = gather_dangerous(participant, pair, tutor)
    assert status(holder) == "review"
    decided(make_appeal(miss), assessor, Step.VOIDED)
    assert status(holder) == "current"


def test_a_dismissed_appeal_leaves_the_certificate_as_it_was(holder, participant, assessor):
    decided(make_appeal(a_live_answer(participant)), assessor, Step.DISMISSED)
    assert status(holder) == "current"


def test_whoever_decided_an_appeal_has_assessed_the_person(holder, participant, organiser):
    assert organiser.pk not in involvements([participant])[participant.pk].assessed
    decided(make_appeal(a_live_answer(participant)), organiser, Step.DISMISSED)
    assert organiser.pk in involvements([participant])[participant.pk].assessed


def test_the_section_of_tests_is_marked_on_the_pages_of_appeals(signed_in, participant):
    page = signed_in(participant).get(reverse("assessments:appeals")).content.decode()
    assert 'href="/tests/" aria-current="page"' in page


def test_somebody_who_left_the_school_decides_nothing(holder, participant, assessor):
    other = make_person("Lea Left", "assessor")
    other.user.is_active = False
    other.user.save()
    made = make_appeal(a_live_answer(participant))
    assert not Notice.objects.filter(person=other.user).exists()
    assert Notice.objects.filter(person=assessor.user, kind="appeal_to_decide", facts__appeal=made.key).exists()
