"""A tutor's first page: what is next, and who needs me."""

from datetime import timedelta

import pytest
from django.utils import timezone

from assessments.models import Paper, Seat, Sitting
from courses.models import Course, Meeting, Person
from courses.queries.home_tutor import specimens_to_name, tutor_home
from species.models import Pair
from species.rules.vocabulary import Settlement
from tests.courses.pages import same_queries
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import enrol, make_course, make_meeting
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, determine, make_species


@pytest.fixture
def pair(db: None) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def course(pair: Pair, tutor: Person, participant: Person) -> Course:
    course = make_course(standard=make_standard(pair))
    course.tutors.add(tutor)
    enrol(participant, course)
    course.enrolments.update(asked_at=timezone.now() - timedelta(days=60))
    return course


def home_of(tutor: Person):
    return tutor_home(tutor, timezone.now(), timezone.localdate())


def gather_hemlock(person: Person, pair: Pair, by: Person, days_ago: int) -> None:
    at = timezone.now() - timedelta(days=days_ago)
    make_live_evidence(person.user, SpecimenFactory(species=pair.mistaken), "gather", by=by.user, at=at)


def test_the_next_meeting_is_the_first_that_is_not_over_and_not_cancelled(tutor, course) -> None:
    make_meeting(course, days_ahead=-1, title="Over")
    make_meeting(course, days_ahead=1, title="Cancelled", cancelled_at=timezone.now())
    make_meeting(course, days_ahead=5, title="Later")
    make_meeting(course, days_ahead=3, title="Next")
    assert home_of(tutor).next_meeting.meeting.title == "Next"


def test_a_walk_led_elsewhere_is_next_too(tutor, course) -> None:
    make_meeting(None, days_ahead=1, title="Led elsewhere", leader=tutor)
    make_meeting(make_course("Autumn course"), days_ahead=1, title="Nobody's business")
    assert home_of(tutor).next_meeting.meeting.title == "Led elsewhere"


def test_registers_that_were_not_kept_are_named_latest_first(tutor, course) -> None:
    make_meeting(course, days_ahead=-9, title="First")
    make_meeting(course, days_ahead=-2, title="Second")
    make_meeting(course, days_ahead=-200, title="Long ago")
    assert [line.meeting.title for line in home_of(tutor).registers] == ["Second", "First"]


def test_a_dangerous_miss_of_late_is_named_with_what_and_when(tutor, participant, course, pair) -> None:
    gather_hemlock(participant, pair, tutor, days_ago=5)
    gather_hemlock(participant, pair, tutor, days_ago=3)
    (found,) = home_of(tutor).confused
    (missed,) = found.plants
    assert (found.person, missed.plant, missed.times) == (participant, "hemlock", 2)
    assert missed.last_on == timezone.localdate() - timedelta(days=3)


def test_whoever_missed_most_often_comes_first(tutor, participant, stranger, course, pair) -> None:
    enrol(stranger, course)
    gather_hemlock(participant, pair, tutor, days_ago=5)
    for days_ago in (9, 8):
        gather_hemlock(stranger, pair, tutor, days_ago=days_ago)
    assert [each.person for each in home_of(tutor).confused] == [stranger, participant]


def test_an_old_miss_and_a_safe_answer_are_not_named(tutor, participant, course, pair) -> None:
    gather_hemlock(participant, pair, tutor, days_ago=90)
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    assert home_of(tutor).confused == ()


def test_a_miss_on_a_disputed_specimen_is_not_named(tutor, participant, course, pair) -> None:
    specimen = SpecimenFactory(species=pair.mistaken, settlement=Settlement.DISPUTED.value)
    make_live_evidence(participant.user, specimen, "gather", by=tutor.user)
    assert home_of(tutor).confused == ()


def test_people_of_other_tutors_are_not_named(tutor, stranger, course, pair) -> None:
    enrol(stranger, make_course("Autumn course", standard=course.standard))
    gather_hemlock(stranger, pair, tutor, days_ago=3)
    assert home_of(tutor).confused == ()


def set_a_paper(course: Course, tutor: Person, *people: Person, closes_in: int = 1) -> Paper:
    now = timezone.now()
    paper = Paper.objects.create(
        title="First paper", standard=course.standard, questions=4, opens_at=now - timedelta(days=3),
        closes_at=now + timedelta(days=closes_in), seed=1, set_by=tutor.user, set_at=now,
    )  # fmt: skip
    course.papers.add(paper)
    for person in people:
        Seat.objects.create(paper=paper, person=person.user, opens_at=paper.opens_at)
    return paper


def test_an_open_paper_says_how_many_are_still_to_come(tutor, participant, stranger, course) -> None:
    paper = set_a_paper(course, tutor, participant, stranger)
    now = timezone.now()
    Sitting.objects.create(seat=paper.seats.get(person=stranger.user), opened_at=now, handed_in_at=now)
    assert [(each.line.paper, each.missing) for each in home_of(tutor).papers] == [(paper, 1)]


def test_a_closed_paper_and_one_that_everybody_handed_in_are_not_named(tutor, participant, course) -> None:
    set_a_paper(course, tutor, participant, closes_in=-1)
    done = set_a_paper(course, tutor, participant)
    now = timezone.now()
    Sitting.objects.create(seat=done.seats.get(), opened_at=now, handed_in_at=now)
    assert home_of(tutor).papers == ()


def test_specimens_with_one_name_wait_for_a_second_of_somebody_else(tutor, assessor) -> None:
    specimen = SpecimenFactory(settlement=Settlement.SINGLE.value)
    SpecimenFactory(settlement=Settlement.UNDETERMINED.value)
    determine(specimen, specimen.species, tutor.user)
    assert (specimens_to_name(tutor), specimens_to_name(assessor)) == (0, 1)


def test_the_page_words_all_of_it(signed_in, tutor, participant, course, pair) -> None:
    make_meeting(course, days_ahead=3, title="Hemlock morning")
    make_meeting(course, days_ahead=-2, title="Unkept")
    gather_hemlock(participant, pair, tutor, days_ago=3)
    set_a_paper(course, tutor, participant)
    page = signed_in(tutor).get("/").content.decode()
    for words in ("Hemlock morning", "Unkept", "hemlock, once, on", "1 person to come", "This walk has no leader yet"):
        assert words in page


def test_the_page_takes_as_many_queries_however_much_there_is(signed_in, tutor, participant, course, pair) -> None:
    def grow() -> None:
        second = make_course(f"Course {Meeting.objects.count()}", standard=course.standard)
        second.tutors.add(tutor)
        for number in range(3):
            person = make_person(f"Person {number} {second.pk}")
            enrol(person, second)
            gather_hemlock(person, pair, tutor, days_ago=number + 1)
            make_meeting(second, days_ahead=number - 1)
            set_a_paper(second, tutor, person)

    grow()
    assert same_queries(signed_in(tutor), "/", grow)
