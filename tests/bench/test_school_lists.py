"""The schools that are measured are what they say, and their pages ask as often whatever the size."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from courses.models import Enrolment, Person
from tests.bench.schools import made_up_school, pages_of


def queries(courses: int, people: int, register: int) -> dict[str, int]:
    found = {}
    for label, client, address in pages_of(made_up_school(courses, people, register)):
        client.get(address)
        with CaptureQueriesContext(connection) as captured:
            assert client.get(address).status_code == 200
        found[label] = len(captured)
    return found


@pytest.mark.django_db
def test_pages_ask_as_often_in_a_large_school_as_in_a_small_one(settings, tmp_path) -> None:
    settings.VAR_DIR = tmp_path
    connection.ensure_connection()
    small = queries(2, 8, 4)
    Enrolment.objects.all().delete()
    assert Person.objects.count() == 10
    from django.core.management import call_command

    call_command("flush", interactive=False, verbosity=0)
    assert queries(20, 120, 30) == small
