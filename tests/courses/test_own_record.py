"""Everything that the school holds of somebody, in one file for them: no table is forgotten, and nobody else is in."""

import json
from datetime import timedelta
from decimal import Decimal

import pytest
from django.template.loader import get_template
from django.urls import reverse
from django.utils import timezone

from assessments.models import Sitting
from courses.actions.complaints import complain
from courses.actions.enquiries import ask
from courses.actions.erasure import ask_to_be_erased
from courses.actions.health import fill_form
from courses.actions.letters import send_letter
from courses.models import Attendance, Letter, Person, RoleGrant
from courses.queries.own_record import LETTERS_OF_OFFICE, SECTIONS, everything_of
from courses.rules.inventory.catalogue import HOLDINGS
from courses.rules.inventory.shape import Nature
from courses.rules.notes import Agreed, Notes
from tests.courses.pages import queries_of
from tests.factories.courses import make_meeting
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, determine, give_picture

ELSEWHERE = {
    "courses.Person": "told field by field at the head of the file",
    "courses.HistoricalCertificate": "earlier versions of certificates that are in the file",
    "courses.SentMail": "the invented school alone",
}


def test_every_table_of_this_room_that_is_about_somebody_is_in_the_file() -> None:
    about = set()
    for each in HOLDINGS:
        names = set(each.fields)
        theirs = names & {"person", "enrolment", "email", "tutors", "leader", "assistants"}
        is_of_somebody = theirs and each.of(Nature.LINK, Nature.CONTACT)
        if each.model.startswith("courses.") and is_of_somebody:
            about.add(each.model)
    told = {section.model._meta.label for section in SECTIONS.values()}
    assert about - told - set(ELSEWHERE) == {"courses.School"}


def test_the_file_names_fields_that_are_there(db) -> None:
    for section in SECTIONS.values():
        assert list(section.model._base_manager.values(*section.fields)[:1]) == []  # a field that is none would raise


@pytest.fixture
def told(signed_in, participant: Person, tutor: Person, course) -> dict:
    now = timezone.now()
    Person.objects.filter(pk=participant.pk).update(note="pays in May", phone="0555 123456")
    fill_form(participant.enrolments.get(), Notes(allergies="nuts"), Agreed({"health": "I agree."}, 1), now)
    meeting = make_meeting(course, days_ahead=-2)
    Attendance.objects.create(
        meeting=meeting, person=participant, presence="late", note="bus", marked_by=tutor, marked_at=now
    )
    RoleGrant.objects.filter(person=participant).update(granted_by=tutor)
    answer = signed_in(participant).get(reverse("courses:own_data_file"))
    assert answer["Content-Disposition"] == 'attachment; filename="my-data.json"'
    assert "no-store" in answer["Cache-Control"]
    return json.loads(answer.content)


def test_it_holds_what_was_told_and_what_others_wrote(told: dict) -> None:
    school = told["school"]
    assert school["person"]["note_of_the_school"] == "pays in May"
    assert school["joining_forms"][0]["told"]["allergies"] == "nuts"
    assert school["consents"][0]["words"] == "I agree."
    assert school["places"][0]["course_title"] == "Spring course"
    assert (school["register"][0]["presence"], school["register"][0]["note"]) == ("late", "bus")
    assert told["tests"]["person"]["name"] == "Pat Participant"


def test_it_names_nobody_else(told: dict) -> None:
    assert "Tilda" not in json.dumps(told)


def test_everybody_gets_their_own_and_nobody_anothers(signed_in, stranger, told: dict) -> None:
    other = json.loads(signed_in(stranger).get(reverse("courses:own_data_file")).content)
    assert other["school"]["person"]["name"] == "Strix Stranger"
    assert "Pat" not in json.dumps(other)


def test_what_an_organiser_was_written_about_others_is_in_nobodys_file(signed_in, organiser, participant) -> None:
    """And nothing else is left out: what was written to them about themselves is in it."""
    now = timezone.now()
    ask_to_be_erased(participant, now=now)
    ask(None, name="Vera Vetch", email="vera@example.net", text="Is there room?", now=now)
    complain(name="Vera Vetch", email="vera@example.net", text="It rained.", now=now)
    send_letter(organiser.user.email, "notice", {"subject": "Lapses soon", "lines": [], "link": ""}, organiser)
    assert Letter.objects.filter(person=organiser, kind__in=LETTERS_OF_OFFICE).count() == 3
    told = json.loads(signed_in(organiser).get(reverse("courses:own_data_file")).content)
    assert [each["kind"] for each in told["school"]["letters"]] == ["notice"]
    assert "Vera" not in json.dumps(told)
    assert "Pat" not in json.dumps(told)


def test_a_letter_of_office_is_a_letter_that_there_is() -> None:
    for kind in LETTERS_OF_OFFICE:
        get_template(f"courses/mail/{kind}.txt")


def test_what_a_tutor_did_for_the_school_is_in_their_file(signed_in, tutor, course) -> None:
    meeting = make_meeting(course, days_ahead=-2, leader=tutor)
    meeting.assistants.add(tutor)
    specimen = SpecimenFactory()
    determine(specimen, specimen.species, tutor.user, "Bona folia")
    photo = give_picture(specimen)
    photo.added_by, photo.latitude, photo.photographer = tutor.user, Decimal("54.10000"), "Somebody Else"
    photo.save()
    told = json.loads(signed_in(tutor).get(reverse("courses:own_data_file")).content)["school"]
    assert [each["title"] for each in told["courses_taught"]] == [course.title]
    assert [each["title"] for each in told["led"]] == [each["title"] for each in told["assisted"]] == [meeting.title]
    assert [each["said"] for each in told["plants_named"]] == ["Bona folia"]
    assert [each["latitude"] for each in told["pictures_brought"]] == ["54.10000"]
    assert "Somebody Else" not in json.dumps(told)


def test_strangers_are_asked_to_sign_in(client, school) -> None:
    assert client.get(reverse("courses:own_data_file")).status_code == 302


def test_taking_it_is_seeing_the_results(signed_in, passed, participant) -> None:
    Sitting.objects.update(result_shown_at=None)
    signed_in(participant).get(reverse("courses:own_data_file"))
    assert not Sitting.objects.filter(seat__person=participant.user, result_shown_at=None).exists()


def test_a_sitting_that_ran_out_is_closed_before_it_is_told(signed_in, passed, participant) -> None:
    over = timezone.now() - timedelta(days=2)
    Sitting.objects.update(closes_at=over, handed_in_at=None, settled_at=None, result_shown_at=None)
    told = json.loads(signed_in(participant).get(reverse("courses:own_data_file")).content)
    (seat,) = told["tests"]["tests"]
    assert seat["sitting"]["closed_by_itself"]
    assert seat["sitting"]["settled_at"]


def test_it_takes_as_many_queries_however_much_is_held(participant, course, signed_in) -> None:
    url = reverse("courses:own_data_file")
    client = signed_in(participant)
    client.get(url)
    before = queries_of(client, url)
    for number in range(3):
        make_person(f"More {number}")
        meeting = make_meeting(course, days_ahead=-number - 1)
        Attendance.objects.create(
            meeting=meeting, person=participant, presence="present", marked_by=participant, marked_at=timezone.now()
        )
    assert queries_of(client, url) == before


def test_every_section_is_in_the_file_though_it_is_empty(school, participant) -> None:
    assert set(everything_of(participant, timezone.now())["school"]) == {"person", *SECTIONS}
