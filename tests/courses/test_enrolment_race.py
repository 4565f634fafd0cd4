"""Two people ask for the last place at the same moment."""

from threading import Barrier, Thread

import pytest
from django.db import connection
from django.utils import timezone

from courses.actions.enrolment import AlreadyEnrolled, enrol
from courses.models import Course, Person
from tests.factories.courses import make_course
from tests.factories.people import make_person


def enrol_at_once(people: list[Person], course: Course) -> list[str]:
    """What became of each, when all ask at the same moment from connections of their own."""
    start, outcomes = Barrier(len(people)), []

    def ask(person: Person) -> None:
        start.wait()
        try:
            outcomes.append("waits" if enrol(person, course, now=timezone.now()).waiting else "placed")
        except AlreadyEnrolled:
            outcomes.append("refused")
        finally:
            connection.close()

    threads = [Thread(target=ask, args=[person]) for person in people]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sorted(outcomes)


@pytest.mark.django_db(transaction=True)
def test_the_last_place_is_given_once(school: object) -> None:
    course = make_course(capacity=1)
    people = [make_person(f"Person {number}") for number in range(4)]
    assert enrol_at_once(people, course) == ["placed", "waits", "waits", "waits"]
    assert course.enrolments.with_a_place().count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_double_tap_enrols_once(school: object) -> None:
    course, person = make_course(capacity=4), make_person("Double Tapper")
    assert enrol_at_once([person, person], course) == ["placed", "refused"]
