"""Setting a paper for a course, and who has sat it."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.paper_changes import withdraw_paper
from assessments.models import Notice, Paper, Seat, Seen, Sitting, Standard
from courses.actions.papers import seat_in_papers
from courses.models import Course, Person
from species.models import Module, ModulePair, Pair
from tests.assessments.setting import pressed
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol, make_course, make_meeting
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species


@pytest.fixture
def pair(db: None) -> Pair:
    return PairFactory(order=1, gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def other(db: None) -> Pair:
    return PairFactory(
        order=2, gathered=make_species("ramsons"), mistaken=make_species("lily of the valley", deadly=True)
    )


@pytest.fixture
def course(pair: Pair, other: Pair, tutor: Person, participant: Person) -> Course:
    """The course, under a standard with two pairs."""
    course = make_course(standard=make_standard(pair, other))
    course.tutors.add(tutor)
    enrol(participant, course)
    return course


def fill_bank(*pairs: Pair, each: int = 6) -> None:
    for pair in pairs:
        for species in (pair.gathered, pair.mistaken):
            for _ in range(each):
                give_picture(SpecimenFactory(species=species))


def teach(course: Course, pair: Pair, days_ahead: int) -> None:
    module = Module.objects.create(key=f"m-{pair.key}", title="M")
    ModulePair.objects.create(module=module, pair=pair)
    make_meeting(course, days_ahead=days_ahead).modules.add(module, through_defaults={"order": 1})


def new_of(course: Course) -> str:
    return reverse("courses:course_paper_new", args=[course.key])


def page_of(course: Course, paper: Paper) -> str:
    return reverse("courses:course_paper", args=[course.key, paper.key])


def typed(*pairs: Pair, **changed: object) -> dict[str, object]:
    opens = timezone.localtime() - timedelta(minutes=5)
    return {
        "standard": Standard.objects.get(key="participant").pk,
        "title": "First paper", "pairs": [pair.pk for pair in pairs], "questions": 4, "minutes": "",
        "opens_at": opens.strftime("%Y-%m-%dT%H:%M"),
        "closes_at": (opens + timedelta(days=7)).strftime("%Y-%m-%dT%H:%M"), **changed,
    }  # fmt: skip


@pytest.fixture
def paper(course: Course, participant: Person, tutor: Person) -> Paper:
    now = timezone.now()
    paper = Paper.objects.create(
        title="First paper", standard=course.standard, questions=4, opens_at=now - timedelta(days=1),
        closes_at=now + timedelta(days=1), seed=1, set_by=tutor.user, set_at=now,
    )  # fmt: skip
    course.papers.add(paper)
    Seat.objects.create(paper=paper, person=participant.user, opens_at=paper.opens_at, closes_at=paper.closes_at)
    return paper


def test_a_paper_is_set_for_everybody_with_a_place(signed_in, tutor, participant, stranger, course, pair) -> None:
    enrol(stranger, course, waiting=True)
    fill_bank(pair)
    answer = signed_in(tutor).post(new_of(course), typed(pair))
    paper = course.papers.get()
    assert answer["Location"] == page_of(course, paper)
    assert [seat.person for seat in paper.seats.all()] == [participant.user]
    assert (paper.set_by, paper.questions, list(paper.pairs.all())) == (tutor.user, 4, [pair])


def test_what_was_taught_so_far_is_ticked_already(signed_in, tutor, course, pair, other) -> None:
    teach(course, pair, days_ahead=-3)
    teach(course, other, days_ahead=3)
    form = signed_in(tutor).get(new_of(course)).context["form"]
    assert form["pairs"].value() == [pair.pk]
    assert [str(label) for _value, label in form.fields["pairs"].choices] == [
        "cow parsley – hemlock",
        "ramsons – lily of the valley",
    ]


def test_a_pair_outside_the_standard_is_not_offered(signed_in, tutor, course) -> None:
    page = signed_in(tutor).post(new_of(course), typed(PairFactory()))
    assert page.status_code == 422
    assert not Paper.objects.exists()


def test_where_nothing_was_taught_nothing_is_ticked_and_it_says_so(signed_in, tutor, course) -> None:
    page = signed_in(tutor).get(new_of(course))
    assert page.context["form"]["pairs"].value() == []
    assert "No meeting of this course has taught a pair yet" in page.content.decode()


def test_the_standard_of_the_course_stands_there_and_another_can_be_chosen(signed_in, tutor, course, pair) -> None:
    other = make_standard(pair, key="walk-leader", name="Walk leader", leads_walks=True)
    form = signed_in(tutor).get(new_of(course)).context["form"]
    assert form["standard"].value() == course.standard_id
    fill_bank(pair)
    signed_in(tutor).post(new_of(course), typed(pair, standard=other.pk))
    assert course.papers.get().standard == other


def test_looking_first_draws_it_for_everybody_and_sets_nothing(signed_in, tutor, stranger, course, pair) -> None:
    enrol(stranger, course)
    fill_bank(pair)
    page = signed_in(tutor).post(new_of(course), typed(pair, step="look"))
    assert "drawn on trial for each of 2 people" in page.content.decode()
    assert Seen.objects.filter(person=tutor.user, why=Seen.PREVIEW).count() == 4
    assert not Paper.objects.exists()


def test_the_nearest_paper_is_set_for_the_course_with_one_press(signed_in, tutor, participant, course, pair) -> None:
    fill_bank(pair)
    client = signed_in(tutor)
    page = client.post(new_of(course), typed(pair, questions=20))
    assert page.status_code == 422
    assert client.post(new_of(course), pressed(page)).status_code == 302
    assert (course.papers.get().questions, course.papers.get().seats.get().person) == (12, participant.user)


def test_other_kinds_of_question_can_be_part_of_it(signed_in, tutor, course, pair) -> None:
    fill_bank(pair)
    signed_in(tutor).post(new_of(course), typed(pair, questions=6, kind_side_by_side=2))
    assert course.papers.get().kinds == {"side_by_side": 2}


def test_a_withdrawn_paper_says_so_and_gives_no_seat_to_whoever_comes_later(
    signed_in, tutor, stranger, course, pair, paper
) -> None:
    Paper.objects.update(opens_at=timezone.now() + timedelta(hours=1))
    withdraw_paper(paper, tutor.user, "Rain", timezone.now())
    seat_in_papers(course, [stranger], now=timezone.now())
    assert not Seat.objects.exists()
    assert Notice.objects.filter(kind="paper_withdrawn").count() == 1
    url = reverse("courses:course", args=[course.key])
    for address in (url, page_of(course, paper)):
        assert "Withdrawn" in signed_in(tutor).get(address).content.decode()


def test_a_bank_that_is_too_small_is_said_in_words_and_nothing_is_set(signed_in, tutor, course, pair) -> None:
    fill_bank(pair, each=1)
    page = signed_in(tutor).post(new_of(course), typed(pair, title="Typed title", questions=12)).content.decode()
    assert "hemlock" in page.lower()
    assert 'value="Typed title"' in page
    assert not Paper.objects.exists()
    assert not Seat.objects.exists()


def test_a_paper_for_nobody_is_refused(signed_in, tutor, course, pair) -> None:
    course.enrolments.update(withdrawn_at=timezone.now())
    page = signed_in(tutor).post(new_of(course), typed(pair)).content.decode()
    assert "Nobody has a place in this course yet" in page
    assert not Paper.objects.exists()


def test_a_paper_that_closes_before_it_opens_is_refused_beside_the_field(signed_in, tutor, course, pair) -> None:
    page = signed_in(tutor).post(new_of(course), typed(pair, closes_at="2020-01-01T10:00")).content.decode()
    assert "The paper would close before it opens" in page
    assert not Paper.objects.exists()


def test_the_overview_says_who_sat_it_and_who_did_not(signed_in, tutor, stranger, course, paper) -> None:
    seat = Seat.objects.create(paper=paper, person=stranger.user, opens_at=paper.opens_at)
    Sitting.objects.create(seat=seat, opened_at=timezone.now(), handed_in_at=timezone.now())
    page = signed_in(tutor).get(page_of(course, paper)).content.decode()
    assert "1 of 2 handed in" in page
    assert "Not begun" in page
    assert "Handed in" in page


@pytest.mark.parametrize(
    ("fields", "word"),
    [({}, "Under way"), ({"annulled_at": True}, "Annulled"), ({"handed_in_at": True}, "Handed in")],
)
def test_every_state_of_a_sitting_has_its_word(signed_in, tutor, course, paper, fields, word) -> None:
    moments = dict.fromkeys(fields, timezone.now())
    Sitting.objects.create(seat=paper.seats.get(), opened_at=timezone.now(), **moments)
    assert word in signed_in(tutor).get(page_of(course, paper)).content.decode()


def test_a_paper_that_closed_unopened_was_not_sat(signed_in, tutor, course, paper) -> None:
    Seat.objects.update(closes_at=timezone.now() - timedelta(hours=1))
    assert "Not sat" in signed_in(tutor).get(page_of(course, paper)).content.decode()


def test_the_overview_takes_as_many_queries_however_many_sitters(signed_in, tutor, course, paper) -> None:
    def grow() -> None:
        for number in range(4):
            person = make_person(f"Person {number}")
            seat = Seat.objects.create(paper=paper, person=person.user, opens_at=paper.opens_at)
            Sitting.objects.create(seat=seat, opened_at=timezone.now())

    assert same_queries(signed_in(tutor), page_of(course, paper), grow)


def test_a_paper_of_another_course_is_not_found(signed_in, tutor, paper) -> None:
    elsewhere = make_course("Autumn course")
    elsewhere.tutors.add(tutor)
    assert signed_in(tutor).get(page_of(elsewhere, paper)).status_code == 404


def test_others_neither_set_nor_look(client, signed_in, participant, stranger, course, paper, pair) -> None:
    assert client.post(new_of(course), typed(pair)).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).post(new_of(course), typed(pair)).status_code == 403
        assert signed_in(person).get(page_of(course, paper)).status_code == 403
    other_tutor = signed_in(make_person("Other Tutor", "tutor"))
    assert other_tutor.post(new_of(course), typed(pair)).status_code == 404
    assert Paper.objects.count() == 1


def test_the_overview_is_for_looking(signed_in, tutor, course, paper) -> None:
    assert signed_in(tutor).post(page_of(course, paper)).status_code == 405
