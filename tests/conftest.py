"""The fixed cast of the tests, and a small school around them."""

import pytest
from django.core.cache import cache
from django.test import Client
from hypothesis import HealthCheck, settings

from courses.models import Course, Person, School
from tests.factories.courses import enrol, make_course
from tests.factories.people import make_person, make_school

# How fast the machine is says nothing of a law: no test fails because another program ran beside it.
settings.register_profile("laws", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("laws")


@pytest.fixture(autouse=True)
def nobody_asked_yet() -> None:
    """What is counted for limits begins anew with each test."""
    cache.clear()


@pytest.fixture
def school(db: None) -> School:
    return make_school()


@pytest.fixture
def tutor(school: School) -> Person:
    """The tutor of the course."""
    return make_person("Tilda Tutor", "tutor")


@pytest.fixture
def participant(school: School) -> Person:
    """A participant in the course."""
    return make_person("Pat Participant", "participant")


@pytest.fixture
def stranger(school: School) -> Person:
    """A participant of the school who has nothing to do with the course."""
    return make_person("Strix Stranger", "participant")


@pytest.fixture
def organiser(school: School) -> Person:
    return make_person("Olga Organiser", "organiser")


@pytest.fixture
def assessor(school: School) -> Person:
    """A second tutor who confirms and decides, and has not taught the participant."""
    return make_person("Asa Assessor", "assessor")


@pytest.fixture
def course(tutor: Person, participant: Person) -> Course:
    """A course in its third week, taught by the tutor, attended by the participant."""
    course = make_course()
    course.tutors.add(tutor)
    enrol(participant, course)
    return course


@pytest.fixture
def signed_in(client: Client):
    """Sign somebody in: `signed_in(tutor).get(url)`."""

    def sign_in(person: Person) -> Client:
        client.force_login(person.user)
        return client

    return sign_in
