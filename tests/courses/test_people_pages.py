"""The list of people, the page of one person, and correcting what is known of them."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Course, Person, RequirementRecord
from tests.courses.pages import same_queries
from tests.factories.courses import enrol
from tests.factories.people import make_person

PEOPLE = "/people/"


def page_of(person: Person) -> str:
    return reverse("courses:person", args=[person.uuid])


def edit_of(person: Person) -> str:
    return reverse("courses:person_edit", args=[person.uuid])


def test_an_organiser_sees_everybody(signed_in, organiser, course: Course, stranger: Person) -> None:
    page = signed_in(organiser).get(PEOPLE).content.decode()
    assert "Pat Participant" in page
    assert "Strix Stranger" in page
    assert "Spring course" in page


def test_a_tutor_sees_the_people_of_their_courses_alone(signed_in, tutor, course, stranger: Person) -> None:
    client = signed_in(tutor)
    assert "Strix Stranger" not in client.get(PEOPLE).content.decode()
    assert "Pat Participant" in client.get(PEOPLE).content.decode()
    assert client.get(page_of(stranger)).status_code == 404


def test_a_tutor_of_nothing_yet_sees_themselves(signed_in, tutor: Person, stranger: Person) -> None:
    page = signed_in(tutor).get(PEOPLE).content.decode()
    assert "Tilda Tutor" in page
    assert "Strix Stranger" not in page


@pytest.mark.parametrize("words", ["strix", "STRANGER strix", "strix.stranger@example"])
def test_people_are_found_by_any_words_of_name_or_address(signed_in, organiser, stranger, tutor, words) -> None:
    page = signed_in(organiser).get(PEOPLE, {"q": words}).content.decode()
    assert "Strix Stranger" in page
    assert "Tilda Tutor" not in page
    assert f'value="{words}"' in page


def test_people_are_found_by_role(signed_in, organiser, stranger, tutor) -> None:
    page = signed_in(organiser).get(PEOPLE, {"role": "tutor"}).content.decode()
    assert "Tilda Tutor" in page
    assert "Strix Stranger" not in page


def test_a_search_that_finds_nobody_says_so(signed_in, organiser) -> None:
    assert "Nobody found" in signed_in(organiser).get(PEOPLE, {"q": "zzz"}).content.decode()


def test_somebody_who_left_is_not_listed(signed_in, organiser, stranger: Person) -> None:
    Person.objects.filter(pk=stranger.pk).update(left_on=timezone.localdate())
    assert "Strix Stranger" not in signed_in(organiser).get(PEOPLE).content.decode()


def test_the_list_takes_as_many_queries_however_many_people(signed_in, organiser, course: Course) -> None:
    def grow() -> None:
        for number in range(5):
            enrol(make_person(f"Person {number}", "participant", "tutor"), course)

    assert same_queries(signed_in(organiser), PEOPLE, grow)


def test_everybody_opens_their_own_page_and_no_other(signed_in, participant, stranger, course) -> None:
    client = signed_in(participant)
    assert client.get(page_of(participant)).status_code == 200
    assert client.get(page_of(stranger)).status_code == 404


def test_the_page_of_a_person_asks_for_sign_in(client, participant: Person) -> None:
    assert client.get(page_of(participant)).status_code == 302


def test_the_organisers_note_is_for_organisers(signed_in, organiser, tutor, participant, course) -> None:
    Person.objects.filter(pk=participant.pk).update(note="pays in May")
    assert "pays in May" in signed_in(organiser).get(page_of(participant)).content.decode()
    assert "pays in May" not in signed_in(tutor).get(page_of(participant)).content.decode()
    assert "pays in May" not in signed_in(participant).get(page_of(participant)).content.decode()


def test_the_page_says_which_proofs_hold_today(signed_in, organiser, participant: Person) -> None:
    today = timezone.localdate()
    for kind, last in [("first_aid", today - timedelta(days=1)), ("insurance", today)]:
        RequirementRecord.objects.create(
            person=participant, kind=kind, valid_from=today - timedelta(days=400), valid_until=last,
            seen_by=organiser, seen_on=today,
        )  # fmt: skip
    page = signed_in(organiser).get(page_of(participant)).content.decode()
    assert page.count("status-expired") == 1
    assert page.count("status-current") == 1


def test_the_page_takes_as_many_queries_however_much_is_known(signed_in, organiser, participant) -> None:
    today = timezone.localdate()

    def grow() -> None:
        for _ in range(4):
            RequirementRecord.objects.create(
                person=participant, kind="first_aid", valid_from=today, seen_by=organiser, seen_on=today
            )

    grow()
    assert same_queries(signed_in(organiser), page_of(participant), grow)


def test_a_correction_is_kept_and_the_user_is_called_after_it(signed_in, organiser, participant: Person) -> None:
    data = {"name": "Patricia P. Smith", "family_name": "Smith", "phone": "0555", "note": "", "left_on": ""}
    answer = signed_in(organiser).post(edit_of(participant), data)
    participant.refresh_from_db()
    assert answer["Location"] == page_of(participant)
    assert (participant.name, participant.phone) == ("Patricia P. Smith", "0555")
    assert participant.user.get_full_name() == "Patricia P. Smith"


def test_a_wrong_correction_changes_nothing_and_keeps_what_was_typed(signed_in, organiser, participant) -> None:
    tomorrow = timezone.localdate() + timedelta(days=1)
    data = {"name": "", "family_name": "Typed", "phone": "", "note": "typed note", "left_on": tomorrow.isoformat()}
    page = signed_in(organiser).post(edit_of(participant), data).content.decode()
    participant.refresh_from_db()
    assert participant.name == "Pat Participant"
    assert "typed note" in page
    assert 'value="Typed"' in page
    assert "This day lies ahead" in page


def test_whoever_left_cannot_sign_in_and_holds_no_role_and_no_group(signed_in, organiser, tutor: Person) -> None:
    today = timezone.localdate()
    data = {"name": tutor.name, "family_name": "Tutor", "left_on": today.isoformat()}
    signed_in(organiser).post(edit_of(tutor), data)
    tutor.refresh_from_db()
    assert not tutor.user.is_active
    assert not tutor.roles.held_on(today).exists()
    assert not tutor.user.groups.exists()


def test_the_last_organiser_cannot_leave(signed_in, organiser: Person) -> None:
    data = {"name": "Olga", "family_name": "O", "left_on": timezone.localdate().isoformat()}
    page = signed_in(organiser).post(edit_of(organiser), data).content.decode()
    organiser.refresh_from_db()
    assert organiser.left_on is None
    assert organiser.name == "Olga Organiser"
    assert "Nobody else is an organiser" in page


def test_whoever_left_may_come_back(signed_in, organiser, participant: Person) -> None:
    client = signed_in(organiser)
    data = {"name": participant.name, "family_name": "P", "left_on": timezone.localdate().isoformat()}
    client.post(edit_of(participant), data)
    client.post(edit_of(participant), {**data, "left_on": ""})
    participant.refresh_from_db()
    assert participant.left_on is None
    assert participant.user.is_active


def test_a_tutor_corrects_nobody(signed_in, tutor, participant, course) -> None:
    assert signed_in(tutor).post(edit_of(participant), {"name": "X"}).status_code == 403
    participant.refresh_from_db()
    assert participant.name == "Pat Participant"
