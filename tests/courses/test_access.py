"""Who may open which page: every address against every role, and what the turned away are told."""

import pytest
from django.test import Client
from django.urls import reverse

from courses.models import Course, Person
from tests.factories.courses import enrol, make_meeting
from tests.factories.people import UserFactory, make_person

STAFF_ONLY = ["people", "sites", "site_new"]
ORGANISER_ONLY = ["invitations", "invite", "course_new", "school_edit"]
FOR_PEOPLE = ["courses", "meetings"]


@pytest.mark.parametrize("name", STAFF_ONLY + ORGANISER_ONLY + FOR_PEOPLE)
def test_a_page_asks_for_sign_in_and_comes_back_to_itself(client: Client, school: object, name: str) -> None:
    url = reverse(f"courses:{name}")
    assert client.get(url)["Location"] == f"{reverse('account_login')}?next={url}"


@pytest.mark.parametrize("name", STAFF_ONLY)
def test_pages_of_the_staff_are_closed_to_participants(signed_in, participant: Person, name: str) -> None:
    answer = signed_in(participant).get(reverse(f"courses:{name}"))
    assert answer.status_code == 403
    assert "for those who work for the school" in answer.content.decode()


@pytest.mark.parametrize("name", ORGANISER_ONLY)
def test_pages_of_organisers_are_closed_to_tutors(signed_in, tutor: Person, name: str) -> None:
    answer = signed_in(tutor).get(reverse(f"courses:{name}"))
    assert answer.status_code == 403
    assert "for the organisers" in answer.content.decode()


@pytest.mark.parametrize("name", STAFF_ONLY + ORGANISER_ONLY + FOR_PEOPLE)
def test_every_page_opens_for_an_organiser(signed_in, organiser: Person, name: str) -> None:
    assert signed_in(organiser).get(reverse(f"courses:{name}")).status_code == 200


def addresses_of(course: Course) -> dict[str, str]:
    meeting = make_meeting(course)
    return {
        "course": reverse("courses:course", args=[course.key]),
        "meeting": reverse("courses:meeting", args=[meeting.key]),
        "course_edit": reverse("courses:course_edit", args=[course.key]),
        "cohort": reverse("courses:cohort", args=[course.key]),
        "course_paper_new": reverse("courses:course_paper_new", args=[course.key]),
        "meeting_edit": reverse("courses:meeting_edit", args=[meeting.key]),
        "meeting_cancel": reverse("courses:meeting_cancel", args=[meeting.key]),
        "register": reverse("courses:register", args=[meeting.key]),
    }


@pytest.mark.parametrize("who", ["organiser", "tutor"])
def test_those_who_run_a_course_open_all_of_it(signed_in, request, course: Course, who: str) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert {client.get(url).status_code for url in addresses_of(course).values()} == {200}


def test_a_participant_opens_the_course_and_its_meetings_alone(signed_in, participant, course: Course) -> None:
    client = signed_in(participant)
    found = {name for name, url in addresses_of(course).items() if client.get(url).status_code == 200}
    assert found == {"course", "meeting"}


@pytest.mark.parametrize("who", ["stranger", "assessor"])
def test_a_stranger_finds_nothing_of_a_course(signed_in, request, course: Course, who: str) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert not {client.get(url).status_code for url in addresses_of(course).values()} - {403, 404}


def test_a_tutor_of_another_course_finds_nothing_and_learns_nothing(signed_in, course: Course) -> None:
    client = signed_in(make_person("Other Tutor", "tutor"))
    assert {client.get(url).status_code for url in addresses_of(course).values()} == {404}


def test_a_tutor_whose_role_ended_no_longer_runs_the_course(signed_in, tutor: Person, course: Course) -> None:
    tutor.roles.all().delete()
    client = signed_in(tutor)
    assert not {client.get(url).status_code for url in addresses_of(course).values()} - {403, 404}


def test_whoever_waits_for_a_place_sees_the_course_and_nobody_in_it(signed_in, stranger, course: Course) -> None:
    enrol(stranger, course, waiting=True)
    answer = signed_in(stranger).get(reverse("courses:course", args=[course.key]))
    assert "You are on the waiting list" in answer.content.decode()
    assert "Pat Participant" not in answer.content.decode()


def test_a_user_whom_the_school_does_not_know_is_told_so(client: Client, school: object) -> None:
    client.force_login(UserFactory())
    answer = client.get(reverse("courses:courses"))
    assert answer.status_code == 403
    assert "the school does not know you" in answer.content.decode()


def test_a_change_sent_without_sign_in_comes_back_to_the_first_page(client: Client, course: Course) -> None:
    answer = client.post(reverse("courses:enrol", args=[course.key]))
    assert answer["Location"].endswith("?next=/")


def test_htmx_is_sent_to_sign_in_as_a_whole_page(client: Client, course: Course) -> None:
    url = reverse("courses:register", args=[make_meeting(course).key])
    answer = client.get(url, headers={"HX-Request": "true"})
    assert answer["HX-Redirect"].startswith(reverse("account_login"))


def test_pages_made_for_somebody_are_kept_by_no_cache(signed_in, tutor: Person) -> None:
    assert signed_in(tutor).get(reverse("courses:courses"))["Cache-Control"] == "private, no-store"
