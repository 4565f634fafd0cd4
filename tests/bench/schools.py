"""Made-up schools of any size for measuring pages, and the addresses that are asked for."""

from dataclasses import dataclass
from datetime import timedelta

from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from courses.models import Course, Enrolment, Meeting, Person, RoleGrant, Site
from tests.factories.assessments import make_standard
from tests.factories.courses import SiteFactory
from tests.factories.people import make_person, make_school

WEEKS = 8


@dataclass(frozen=True)
class MadeUp:
    """A school: who organises and who teaches, and one course and meeting that are looked at."""

    organiser: Person
    tutor: Person
    course: Course
    meeting: Meeting


def made_up_school(courses: int, people: int, register: int) -> MadeUp:
    """So many courses of eight meetings, so many people spread over them; the first has so many places taken."""
    make_school()
    organiser, tutor = make_person("Olga Organiser", "organiser"), make_person("Tilda Tutor", "tutor")
    crowd = make_crowd(people)
    standard, site, today = make_standard(), SiteFactory(), timezone.localdate()
    made = Course.objects.bulk_create(
        Course(
            key=f"course-{number}",
            title=f"Course {number}",
            standard=standard,
            starts_on=today - timedelta(days=7),
            ends_on=today + timedelta(days=49),
            capacity=30,
        )
        for number in range(courses)
    )
    Course.tutors.through.objects.bulk_create(
        Course.tutors.through(course_id=each.pk, person_id=tutor.pk) for each in made[:2]
    )
    _plan(made, site)
    _enrol(made, crowd, register)
    first = made[0]
    return MadeUp(organiser, tutor, first, first.meetings.order_by("starts_at").last() or Meeting())


def make_crowd(people: int) -> list[Person]:
    """So many participants, in a few statements."""
    users = User.objects.bulk_create(User(username=f"u{n}", email=f"u{n}@example.org") for n in range(people))
    today = timezone.localdate()
    crowd = Person.objects.bulk_create(Person(user=user, name=f"Person {user.pk}", joined_on=today) for user in users)
    RoleGrant.objects.bulk_create(RoleGrant(person=each, role="participant", since=today) for each in crowd)
    return crowd


def _plan(courses: list[Course], site: Site) -> None:
    now = timezone.now()
    Meeting.objects.bulk_create(
        Meeting(
            course=each,
            title=f"Meeting {week}",
            starts_at=now + timedelta(weeks=week - 1),
            ends_at=now + timedelta(weeks=week - 1, hours=3),
            site=site,
        )
        for each in courses
        for week in range(WEEKS)
    )


def _enrol(courses: list[Course], crowd: list[Person], register: int) -> None:
    now = timezone.now()
    rows = [Enrolment(course=courses[0], person=person, asked_at=now) for person in crowd[:register]]
    rest = crowd[register:]
    others = courses[1:] or courses
    rows += [Enrolment(course=others[n % len(others)], person=person, asked_at=now) for n, person in enumerate(rest)]
    Enrolment.objects.bulk_create(rows)


def pages_of(school: MadeUp) -> list[tuple[str, Client, str]]:
    """What is measured: label, who asks, address."""
    organiser, tutor = Client(), Client()
    organiser.force_login(school.organiser.user)
    tutor.force_login(school.tutor.user)
    key = [school.course.key]
    meeting = [school.meeting.key]
    return [
        ("meeting, tutor", tutor, reverse("courses:meeting", args=meeting)),
        ("day of a meeting, tutor", tutor, reverse("courses:meeting_day", args=meeting)),
        ("register", tutor, reverse("courses:register", args=meeting)),
        ("course, tutor", tutor, reverse("courses:course", args=key)),
        ("own courses, tutor", tutor, reverse("courses:courses")),
        ("all courses, organiser", organiser, reverse("courses:courses")),
        ("people, organiser", organiser, reverse("courses:people")),
        ("home, tutor", tutor, reverse("courses:home")),
    ]
