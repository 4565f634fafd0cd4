"""People from a table by its page, and tables to take away: who may, what is in them, nothing half done."""

import csv
from io import StringIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from courses.models import Person
from tests.factories.courses import make_meeting
from tests.factories.people import make_person

URL = reverse("courses:people_import")


def send(client, text: str, **more: str):
    return client.post(URL, {"table": SimpleUploadedFile("people.csv", text.encode()), **more})


def test_it_is_looked_at_first_and_nobody_comes_in(signed_in, organiser) -> None:
    page = send(signed_in(organiser), "name,email\nAnn Ash,ann@example.org\n").content.decode()
    assert "1 person would come in" in page
    assert "No problem was found" in page
    assert not Person.objects.filter(name="Ann Ash").exists()


def test_then_all_of_them_come_in_with_places(signed_in, organiser, course) -> None:
    text = f"name,email,role,course\nAnn Ash,ann@example.org,,{course.key}\nBen Birch,ben@example.org,tutor,\n"
    send(signed_in(organiser), text, take_in="1")
    ann, ben = Person.objects.get(name="Ann Ash"), Person.objects.get(name="Ben Birch")
    assert not ann.enrolments.get().waiting
    assert [grant.role for grant in ben.roles.all()] == ["tutor"]
    assert ann.user.email == "ann@example.org"


def test_with_one_wrong_row_nobody_comes_in_and_the_row_is_named(signed_in, organiser) -> None:
    text = "name,email\nAnn Ash,ann@example.org\nBen,nowhere\n"
    page = send(signed_in(organiser), text, take_in="1").content.decode()
    assert "Row 3: “nowhere” is no e-mail address." in page
    assert not Person.objects.filter(name="Ann Ash").exists()


def test_sending_it_again_changes_nothing(signed_in, organiser) -> None:
    client, text = signed_in(organiser), "name,email\nAnn Ash,ann@example.org\n"
    send(client, text, take_in="1")
    count = Person.objects.count()
    assert "is there already" in send(client, text).content.decode()
    send(client, text, take_in="1")
    assert Person.objects.count() == count


def test_a_picture_is_no_table(signed_in, organiser) -> None:
    answer = signed_in(organiser).post(URL, {"table": SimpleUploadedFile("a.csv", b"\x89PNG\r\n\0")})
    assert answer.status_code == 422
    assert "This is no table" in answer.content.decode()


@pytest.mark.parametrize("who", ["tutor", "participant", "assessor"])
def test_only_organisers_take_people_in(signed_in, request, who) -> None:
    assert signed_in(request.getfixturevalue(who)).get(URL).status_code == 403


def table(client, name: str, *args: str) -> list[list[str]]:
    answer = client.get(reverse(f"courses:{name}", args=args))
    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    assert "no-store" in answer["Cache-Control"]
    return list(csv.reader(StringIO(answer.content.decode("utf-8-sig"), newline="")))


def test_every_table_of_a_tutor_holds_what_the_page_does(signed_in, tutor, course, participant) -> None:
    meeting, client = make_meeting(course), signed_in(tutor)
    assert [row[0] for row in table(client, "people_csv")][1:] == ["Pat Participant", "Tilda Tutor"]
    assert table(client, "courses_csv")[1][0] == course.title
    assert table(client, "meetings_csv")[1][0] == meeting.title
    assert table(client, "places_csv", course.key)[1][3] == "has a place"
    assert table(client, "register_csv", meeting.key)[1][0] == "Pat Participant"
    assert table(client, "cohort_csv", course.key)[1][0] == "Pat Participant"
    assert table(client, "sites_csv")[1][1] == "none"


def test_a_name_that_is_a_formula_stays_text(signed_in, organiser) -> None:
    make_person("=cmd|' /C calc'!A0")
    names = [row[0] for row in table(signed_in(organiser), "people_csv")]
    assert "'=cmd|' /C calc'!A0" in names


def test_a_participant_takes_away_their_own(signed_in, participant, course) -> None:
    client = signed_in(participant)
    assert table(client, "courses_csv")[1][0] == course.title
    assert client.get(reverse("courses:people_csv")).status_code == 403
    assert client.get(reverse("courses:places_csv", args=[course.key])).status_code == 403


def test_the_empty_table_can_be_filled_and_sent(signed_in, organiser) -> None:
    assert table(signed_in(organiser), "people_template")[0][:2] == ["name", "email"]
