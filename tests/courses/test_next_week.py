"""Who needs what next week: from what each lacks, with what the coming meetings show; nothing of their practice."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from species.models import Module, ModulePair, Showing
from tests.courses.cohorts import make_pair_of
from tests.factories.assessments import make_live_evidence
from tests.factories.courses import enrol, make_meeting
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory


@pytest.fixture
def pair(course):
    return make_pair_of(course)


def page_for(client, course) -> str:
    return client.get(reverse("courses:next_week", args=[course.key])).content.decode()


def show(species, *months) -> None:
    Showing.objects.create(species=species, stage="leafy", months=list(months))


def test_whoever_lacks_a_pair_stands_under_it_and_it_under_them(signed_in, tutor, participant, course, pair) -> None:
    page = page_for(signed_in(tutor), course)
    assert "1 person needs it:" in page
    assert page.count("Pat Participant") == 2
    assert "Not begun" in page
    assert "No meeting begins in the next seven days" in page


def test_a_pair_that_everybody_lacks_does_not_call_the_whole_class_by_name(signed_in, tutor, course, pair) -> None:
    for number in range(3):
        enrol(make_person(f"Person {number}", "participant"), course)
    page = page_for(signed_in(tutor), course)
    assert "Everybody in the course needs it." in page
    assert page.count("Person 1") == 1  # among the people, and not under the pair


def test_a_meeting_says_whether_it_is_planned_and_what_shows(signed_in, tutor, course, pair) -> None:
    show(pair.gathered, *range(1, 13))
    meeting = make_meeting(course, days_ahead=3, title="Hedge walk")
    page = page_for(signed_in(tutor), course)
    assert "Hedge walk</a>: not on the plan; goodleaf shows; photographs for badleaf" in page
    show(pair.mistaken, *range(1, 13))
    module = Module.objects.create(key="hedges", title="Hedges", order=1)
    ModulePair.objects.create(module=module, pair=pair, order=1)
    meeting.modules.add(module)
    assert "Hedge walk</a>: on the plan; both plants show" in page_for(signed_in(tutor), course)


def test_meetings_of_later_weeks_and_cancelled_ones_are_not_named(signed_in, tutor, course, pair) -> None:
    make_meeting(course, days_ahead=8, title="Far ahead")
    make_meeting(course, days_ahead=2, title="Called off", cancelled_at=timezone.now())
    page = page_for(signed_in(tutor), course)
    assert "Far ahead" not in page
    assert "Called off" not in page


def test_what_was_gathered_lately_is_said_first_and_counted(signed_in, tutor, participant, course, pair) -> None:
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    page = page_for(signed_in(tutor), course)
    assert "1 of them would have gathered badleaf lately." in page
    assert "would have gathered badleaf once lately" in page


def test_a_miss_of_long_ago_is_not_called_lately(signed_in, tutor, participant, course, pair) -> None:
    at = timezone.now() - timedelta(days=61)
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user, at=at)
    assert "would have gathered" not in page_for(signed_in(tutor), course)


def test_the_file_holds_everything_and_no_formula(signed_in, tutor, participant, course, pair) -> None:
    participant.name = "@Pat"
    participant.save()
    answer = signed_in(tutor).get(reverse("courses:next_week_csv", args=[course.key]))
    lines = answer.content.decode("utf-8-sig").splitlines()
    assert len(lines) == 2
    assert lines[1].startswith("'@Pat,goodleaf,badleaf,not begun,0,")


def test_nobody_with_a_place_is_said(signed_in, tutor, course, pair) -> None:
    course.enrolments.update(withdrawn_at=timezone.now())
    assert "Nobody has a place yet" in page_for(signed_in(tutor), course)
