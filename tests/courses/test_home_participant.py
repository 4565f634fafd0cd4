"""A participant's first page: when, where, and how far am I."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Paper, Seat, Sitting
from courses.models import Course, Person, Site
from courses.queries.home_participant import participant_home
from species.models import Pair
from tests.courses.pages import same_queries
from tests.courses.test_cohort import answer, open_window
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol, make_course, make_meeting
from tests.factories.species import PairFactory, make_species


@pytest.fixture
def pair(db: None) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def other(db: None) -> Pair:
    return PairFactory(gathered=make_species("ramsons"), mistaken=make_species("lily of the valley", deadly=True))


@pytest.fixture
def course(pair: Pair, other: Pair, tutor: Person, participant: Person) -> Course:
    course = make_course(standard=make_standard(pair, other), bring="Boots")
    course.tutors.add(tutor)
    enrol(participant, course)
    return course


@pytest.fixture
def seat(course: Course, participant: Person, tutor: Person) -> Seat:
    """A seat in a paper that is open."""
    now = timezone.now()
    paper = Paper.objects.create(
        title="First paper", standard=course.standard, questions=4, opens_at=now - timedelta(days=1),
        seed=1, set_by=tutor.user, set_at=now,
    )  # fmt: skip
    return Seat.objects.create(paper=paper, person=participant.user, opens_at=paper.opens_at)


def home_of(person: Person):
    return participant_home(person, timezone.now())


def test_the_next_meeting_stands_with_place_meeting_point_and_what_to_bring(signed_in, participant, course) -> None:
    meeting = make_meeting(course, title="Hemlock morning")
    Site.objects.filter(pk=meeting.site_id).update(meeting_point="By the lime kiln")
    page = signed_in(participant).get("/").content.decode()
    for words in ("Hemlock morning", meeting.site.locality.name, "By the lime kiln", "Boots"):
        assert words in page


def test_whoever_waits_for_a_place_has_no_next_meeting_and_is_told_so(signed_in, stranger, course) -> None:
    make_meeting(course, title="Hemlock morning")
    enrol(stranger, course, waiting=True)
    page = signed_in(stranger).get("/").content.decode()
    assert "You are on the waiting list of Spring course" in page
    assert "Hemlock morning" not in page


def test_an_open_paper_has_a_button(signed_in, participant, seat) -> None:
    page = signed_in(participant).get("/").content.decode()
    assert "A test is open" in page
    assert f'href="{reverse("assessments:sit", args=[seat.paper.key])}">Sit it</a>' in page


def test_a_paper_begun_goes_on(signed_in, participant, seat) -> None:
    Sitting.objects.create(seat=seat, opened_at=timezone.now())
    assert ">Go on</a>" in signed_in(participant).get("/").content.decode()


@pytest.mark.parametrize("field", ["handed_in_at", "annulled_at"])
def test_a_paper_that_is_done_with_has_none(participant, seat, field: str) -> None:
    Sitting.objects.create(seat=seat, opened_at=timezone.now(), **{field: timezone.now()})
    assert home_of(participant).papers == ()


def test_a_paper_that_closed_has_none(participant, seat) -> None:
    Seat.objects.update(closes_at=timezone.now() - timedelta(hours=1))
    assert home_of(participant).papers == ()


def test_a_paper_of_somebody_else_has_none(stranger, seat) -> None:
    assert home_of(stranger).papers == ()


def test_progress_stands_in_a_sentence_per_pair_and_the_nearest_comes_first(tutor, participant, course, other) -> None:
    open_window(participant, tutor)
    answer(participant, other, "refuse", 10, by=tutor)
    standard = home_of(participant).standards[0]
    assert [each.gathered.common_name for each in standard.ahead] == ["ramsons", "cow parsley"]
    assert standard.nearest.sentence == "Three more specimens of lily of the valley without a miss."


def test_a_pair_that_is_passed_stands_apart(signed_in, tutor, participant, course, pair) -> None:
    open_window(participant, tutor)
    answer(participant, pair, "refuse", 13, by=tutor)
    answer(participant, pair, "gather", 8, by=tutor, edible=True)
    standard = home_of(participant).standards[0]
    assert [each.gathered.common_name for each in standard.passed] == ["cow parsley"]
    assert "1 of 2 dangerous pairs passed" in signed_in(participant).get("/").content.decode()


def test_somebody_in_no_course_is_told_what_there_is(signed_in, stranger) -> None:
    page = signed_in(stranger).get("/").content.decode()
    assert "No meeting is planned for you" in page
    assert "You have no place in a course yet" in page


def test_a_course_that_ended_still_shows_how_far_somebody_is(participant, course) -> None:
    Course.objects.update(ends_on=timezone.localdate() - timedelta(days=1))
    assert len(home_of(participant).standards) == 1


def test_the_page_takes_as_many_queries_however_much_there_is(
    signed_in, tutor, participant, course, pair, seat
) -> None:
    def grow() -> None:
        number = Course.objects.count()
        standard = make_standard(pair, PairFactory(), key=f"standard-{number}")
        second = make_course(f"Course {number}", standard=standard)
        enrol(participant, second)
        make_meeting(second)
        answer(participant, pair, "refuse", 3, by=tutor)

    open_window(participant, tutor)
    grow()
    assert same_queries(signed_in(participant), "/", grow)
