"""An organiser's first page: who is ready, and what is overdue."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Standard
from courses.actions.invitations import invite
from courses.models import Application, Complaint, Course, Enquiry, Letter, Person, RequirementRecord
from courses.queries.home_organiser import InTray, lapses, organiser_home
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.courses import make_meeting
from tests.factories.people import make_person


def show(person: Person, kind: str, days: int, by: Person) -> RequirementRecord:
    """A proof that ends in so many days."""
    today = timezone.localdate()
    return RequirementRecord.objects.create(
        person=person, kind=kind, valid_from=today - timedelta(days=400), valid_until=today + timedelta(days=days),
        seen_by=by, seen_on=today - timedelta(days=400),
    )  # fmt: skip


def home():
    return organiser_home(timezone.now(), timezone.localdate())


def test_a_clear_day_says_so(signed_in, organiser) -> None:
    assert "Nothing waits for you" in signed_in(organiser).get("/").content.decode()


def test_coming_walks_without_a_leader_are_named_soonest_first(organiser, tutor, course: Course) -> None:
    make_meeting(course, days_ahead=9, title="Later")
    make_meeting(course, days_ahead=3, title="Soon")
    make_meeting(course, days_ahead=2, title="Led", leader=tutor)
    make_meeting(course, days_ahead=2, title="Indoors", is_walk=False)
    make_meeting(course, days_ahead=-2, title="Over")
    make_meeting(course, days_ahead=2, title="Cancelled", cancelled_at=timezone.now())
    assert [line.meeting.title for line in home().leaderless] == ["Soon", "Later"]


@pytest.mark.parametrize(("days", "lapsed"), [(-1, [True]), (0, [False]), (60, [False]), (61, [])])
def test_a_proof_is_named_from_sixty_days_before_it_lapses(organiser, tutor, days: int, lapsed: list[bool]) -> None:
    show(tutor, "first_aid", days, organiser)
    assert [each.has_lapsed for each in lapses(timezone.localdate())] == lapsed


def test_a_proof_that_was_renewed_is_not_named(organiser, tutor) -> None:
    show(tutor, "first_aid", -10, organiser)
    show(tutor, "first_aid", 300, organiser)
    show(tutor, "insurance", -10, organiser)
    assert [each.record.kind for each in lapses(timezone.localdate())] == ["insurance"]


def test_a_proof_without_end_never_lapses(organiser, tutor) -> None:
    show(tutor, "first_aid", -10, organiser)
    RequirementRecord.objects.create(
        person=tutor, kind="first_aid", valid_from=timezone.localdate(), seen_by=organiser,
        seen_on=timezone.localdate(),
    )  # fmt: skip
    assert lapses(timezone.localdate()) == []


def test_proofs_of_people_who_left_are_not_named(organiser, tutor) -> None:
    show(tutor, "first_aid", -10, organiser)
    Person.objects.filter(pk=tutor.pk).update(left_on=timezone.localdate())
    assert lapses(timezone.localdate()) == []


@pytest.fixture
def standard(db: None) -> Standard:
    return make_standard()


def test_applications_and_invitations_that_wait_are_named(signed_in, organiser, participant, standard) -> None:
    Application.objects.create(person=participant, standard=standard, applied_at=timezone.now())
    invite("nia@example.org", "Nia New", "tutor", by=organiser, now=timezone.now() - timedelta(days=20))
    page = signed_in(organiser).get("/").content.decode()
    assert "Applications to decide" in page
    assert "Nia New" in page
    assert "status-expired" in page


def test_an_application_that_was_decided_or_taken_back_is_not_named(participant, standard) -> None:
    now = timezone.now()
    Application.objects.create(person=participant, standard=standard, applied_at=now, decided_at=now)
    Application.objects.create(person=participant, standard=standard, applied_at=now, taken_back_at=now)
    assert home().applications == ()


def test_what_came_in_and_waits_is_counted_with_the_way_there(signed_in, organiser) -> None:
    now = timezone.now()
    for name in ("Isa", "Bea"):
        Enquiry.objects.create(name=name, email="a@example.org", text="May I come?", asked_at=now)
    Enquiry.objects.create(name="Cy", email="c@example.org", text="And I?", asked_at=now, closed_at=now)
    Complaint.objects.create(name="Dot", email="d@example.org", text="Too late.", received_at=now)
    assert home().tray == InTray(appeals=0, questions=2, complaints=1, undelivered=0)
    page = signed_in(organiser).get("/").content.decode()
    assert "2 questions from outside to answer" in page
    assert "1 complaint to answer" in page
    assert "Nothing waits for you" not in page


def test_a_letter_that_could_not_be_delivered_is_no_clear_day(organiser) -> None:
    now = timezone.now()
    assert home().is_clear
    Letter.objects.create(
        to="lost@example.org", subject="A place", text="A place is free.", queued_at=now, due_at=now, given_up_at=now
    )
    assert home().tray.undelivered == 1
    assert not home().is_clear


@pytest.mark.parametrize("name", ["enquiries", "complaints", "letters", "incidents"])
def test_every_book_of_the_school_can_be_opened_from_the_first_page_even_on_a_clear_day(
    signed_in, organiser, name: str
) -> None:
    client = signed_in(organiser)
    path = reverse(f"courses:{name}")
    assert f'href="{path}"' in client.get("/").content.decode()
    assert client.get(path).status_code == 200


def test_people_on_the_way_to_leading_are_counted(signed_in, organiser, tutor) -> None:
    show(tutor, "first_aid", 300, organiser)
    page = signed_in(organiser).get("/").content.decode()
    assert "Nobody meets every requirement today" in page
    assert "1 person is on the way and lacks something" in page


def test_the_page_takes_as_many_queries_however_much_there_is(signed_in, organiser, course) -> None:
    def grow() -> None:
        for number in range(3):
            person = make_person(f"Person {number} {Person.objects.count()}")
            show(person, "first_aid", -number, organiser)
            make_meeting(course, days_ahead=number + 1)
            Application.objects.create(person=person, standard=course.standard, applied_at=timezone.now())
            invite(f"a{person.pk}@example.org", "A", "tutor", by=organiser, now=timezone.now())

    grow()
    assert same_queries(signed_in(organiser), "/", grow)
