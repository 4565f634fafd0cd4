"""Being erased: answers, figures, accidents and other people are left as they were."""

from datetime import timedelta

from django.contrib.auth.models import User
from django.urls import reverse
from django.utils import timezone

from assessments.models import Evidence, SpotTest
from assessments.queries.report import report_of
from courses.actions.complaints import answer_complaint
from courses.models import Attendance, Complaint, Course, Incident, Letter, Person
from courses.queries.confusion import confusion_page, confusion_table
from courses.queries.course_items import items_page
from tests.courses.cohorts import make_pair_of, sit_class
from tests.courses.erasure.traces import NAME, erase_now
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory


def test_answers_stay_as_they_were(life, organiser) -> None:
    rows = list(Evidence.objects.order_by("pk").values())
    erase_now(life, organiser)
    assert list(Evidence.objects.order_by("pk").values()) == rows


def test_every_figure_of_the_report_stays(passed, participant, organiser, standard) -> None:
    now = timezone.now()
    before = report_of(standard, now, "School")
    assert before.chapters
    erase_now(participant, organiser, now)
    assert report_of(standard, now, "School") == before


def test_the_figures_of_a_course_that_is_over_stay(course, tutor, organiser) -> None:
    pair = make_pair_of(course)
    specimen = SpecimenFactory(species=pair.gathered)
    for number, trail in enumerate(sit_class(course, tutor, 9)):
        trail.answer(pair.mistaken, "refuse" if number > 1 else "leave")
        trail.answer(pair.gathered, "gather", specimen=specimen, named=pair.mistaken if number > 1 else None)
    Course.objects.filter(pk=course.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    before, table = items_page(course), confusion_table(confusion_page(course))
    assert before.has_enough
    erase_now(Person.objects.get(name="Person 03"), organiser)
    assert items_page(course) == before
    assert confusion_table(confusion_page(course)) == table


def test_an_accident_stays_without_the_name(told_everywhere, organiser) -> None:
    erase_now(told_everywhere, organiser)
    told = Incident.objects.get().account
    assert told.startswith("Thanks to Erased person ")
    assert Attendance.objects.get().note == ""


def test_a_complaint_stays_without_name_and_can_be_answered(life, organiser) -> None:
    erase_now(life, organiser)
    kept = Complaint.objects.get()
    assert (kept.name.startswith("Erased person"), kept.email) == (True, "")
    letters = Letter.objects.count()
    answer_complaint(kept, "We are sorry.", by=organiser, now=timezone.now())
    assert Letter.objects.count() == letters


def test_a_namesake_and_everybody_else_are_left_alone(life, organiser, tutor, course, signed_in) -> None:
    namesake = make_person(NAME + "on", "participant")
    twin = make_person("Other Person", "participant")
    Person.objects.filter(pk=twin.pk).update(name=NAME, note=f"{NAME} is the other one.")
    User.objects.filter(pk=twin.user_id).update(first_name="Pat", last_name="Participant")
    people = Person.objects.exclude(pk=life.pk).order_by("pk")
    users = User.objects.exclude(pk=life.user_id).order_by("pk")
    before = list(people.values()), list(users.values("pk", "email", "first_name", "last_name", "is_active"))
    pages = [reverse("courses:person", args=[each.uuid]) for each in (namesake, twin, tutor)]
    client = signed_in(organiser)
    shown = [client.get(page).content for page in pages]
    erase_now(life, organiser)
    assert list(people.values()) == before[0]
    assert list(users.values("pk", "email", "first_name", "last_name", "is_active")) == before[1]
    masked = [client.get(page).content for page in pages]
    assert [_without_tokens(each) for each in masked] == [_without_tokens(each) for each in shown]


def _without_tokens(page: bytes) -> list[bytes]:
    return [line for line in page.splitlines() if b"csrfmiddlewaretoken" not in line]


def test_a_spot_test_that_they_set_stays_with_its_evidence(passed, assessor, organiser) -> None:
    make_person("Second Organiser", "organiser")
    tests = SpotTest.objects.count()
    erase_now(assessor, organiser)
    assert SpotTest.objects.count() == tests
    assert Evidence.objects.filter(recorded_by=assessor.user).exists()
