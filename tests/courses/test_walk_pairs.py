"""Who may lead among which pairs: what a current certificate covers, in the stages of the day."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.windows import open_renewal
from courses.actions.certificates import issue_certificate, record_event
from courses.models import Certificate, Requirement
from courses.queries.board_walks import walk_lines
from courses.queries.readiness import on_the_way
from courses.queries.walks import walk_page
from species.models import Pair, Showing
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.certificates import give_pass, make_application, make_facts
from tests.factories.species import SpecimenFactory


def line_of(walk, person):
    return next(line for line in walk_page(walk, timezone.now()).candidates if line.person == person)


@pytest.fixture
def leader(stranger, walk, organiser, setter, assessor):
    """Somebody with a leader certificate over the pair of the site, tested on plants in flower."""
    pair = Pair.objects.get()
    standard = make_standard(pair, key="leader", name="Leader", leads_walks=True, required_stages=("flower",))
    give_pass(stranger, standard, pair, set_by=setter, checked_by=assessor, stage="flower")
    issue_certificate(make_application(stranger, standard), organiser, now=timezone.now())
    return stranger


def lacks(walk, person) -> list[tuple[str, ...]]:
    """Of each pair that somebody lacks on a walk, the stages."""
    return [each.stages for each in line_of(walk, person).lacks]


def test_whoever_passed_the_pair_in_the_stage_of_the_day_may_lead_there(walk, leader) -> None:
    assert lacks(walk, leader) == []
    Showing.objects.create(species=Pair.objects.get().mistaken, stage="fruit", months=list(range(1, 13)))
    assert lacks(walk, leader) == [("fruit",)]
    assert not line_of(walk, leader).lacks[0].whole


def test_beginning_a_renewal_takes_nothing_from_the_certificate_that_is_still_current(walk, leader, organiser) -> None:
    open_renewal(leader.user, organiser.user, 24, timezone.now())
    assert lacks(walk, leader) == []


def test_after_a_dangerous_miss_the_stage_is_not_covered_before_anybody_has_decided(walk, leader, tutor) -> None:
    specimen = SpecimenFactory(species=Pair.objects.get().mistaken, stage="flower")
    make_live_evidence(leader.user, specimen, "gather", by=tutor.user)
    assert lacks(walk, leader) == [("flower",)]


@pytest.mark.parametrize("kind", ["suspended", "withdrawn"])
def test_a_certificate_that_is_no_longer_current_covers_no_pair(walk, leader, organiser, kind) -> None:
    record_event(Certificate.objects.get(), kind, organiser, "Because", now=timezone.now())
    assert [each.whole for each in line_of(walk, leader).lacks] == [True]


def test_a_pair_that_was_taken_out_of_the_certificate_is_lacking(walk, leader) -> None:
    held = Certificate.objects.get()
    held.events.create(kind="narrowed", happened_at=timezone.now(), by=leader, reason="x", facts={"pairs": []})
    assert [each.whole for each in line_of(walk, leader).lacks] == [True]


def test_board_meeting_and_walk_agree_on_who_is_ready(signed_in, walk, leader, organiser) -> None:
    Requirement.objects.all().delete()
    Requirement.objects.create(key="held", part="leader", kind="certificate", title="Certificate", order=1)
    walk.leader = leader
    walk.save()
    addresses = [reverse("courses:readiness"), reverse("courses:meeting", args=[walk.key])]
    inside, now = signed_in(organiser), timezone.now()

    def answers() -> list[bool]:
        line = walk_lines(on_the_way(), now)[0]
        pages = ["Not ready on that day" not in inside.get(each).content.decode() for each in addresses]
        return [line.leader_is_ready, line_of(walk, leader).is_ready, *pages]

    assert answers() == [True] * 4
    # the certificate stands for another pair alone: nothing else has changed
    Certificate.objects.update(facts=make_facts(1).as_json())
    assert answers() == [False] * 4
