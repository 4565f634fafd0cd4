"""Being erased, step by step: what others wrote of a person, what they were to do, and what led to them."""

from datetime import timedelta
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import Group, User
from django.utils import timezone

from assessments.models import Appeal, Seat
from courses.actions.certificates import record_event
from courses.actions.erasing import WORDS_ABOUT
from courses.actions.erasure import ask_to_be_erased, complete_erasures, erase
from courses.actions.people import keep_person
from courses.models import (
    Application,
    Attendance,
    Certificate,
    Conflict,
    DecisionAppeal,
    ErasureRequest,
    LeadingGrant,
    Letter,
    Person,
    RequirementRecord,
    ReviewOpened,
    RoleGrant,
    StandIn,
    WalkPart,
)
from courses.queries.erasure import erasure_lists, erasure_page, past_keeping
from courses.rules.erasure import name_until
from species.models import DeterminerLink, Locality
from tests.courses.erasure.traces import NAME, erase_now, found_in_database
from tests.factories.certificates import make_certificate, show_proof
from tests.factories.courses import make_meeting
from tests.factories.people import make_person
from tests.factories.species import LocalityFactory

SAID = "shy, and slow to answer"


def put(model: type[Any], field: str, person: Person, by: Person, course) -> Any:
    """One row about a person with something written in it."""
    now, today = timezone.now(), timezone.localdate()
    if model is RoleGrant:
        made = person.roles.get()
    elif model is Attendance:
        made = Attendance(meeting=make_meeting(course), person=person, presence="late", marked_by=by, marked_at=now)
    elif model is StandIn:
        made = StandIn(meeting=make_meeting(course), person=person, named_by=by, named_at=now)
    elif model is WalkPart:
        made = WalkPart(person=person, step="watched", walked_on=today, confirmed_by=by, confirmed_on=today)
    elif model is LeadingGrant:
        made = LeadingGrant(person=person, valid_from=today, granted_by=by)
    else:
        made = show_proof(person, "first_aid", by)
    setattr(made, field, SAID)
    made.save()
    return made


ABOUT = [
    (Attendance, "note"),
    (RequirementRecord, "note"),
    (WalkPart, "note"),
    (RoleGrant, "reason"),
    (LeadingGrant, "reason"),
    (StandIn, "reason"),
]


@pytest.mark.parametrize(("model", "field"), ABOUT, ids=[each.__name__ for each, _field in ABOUT])
def test_what_others_wrote_about_them_is_emptied_though_it_names_nobody(
    model, field: str, participant, organiser, course
) -> None:
    row = put(model, field, participant, organiser, course)
    erase_now(participant, organiser)
    row.refresh_from_db()
    assert getattr(row, field) == ""


def test_every_note_about_somebody_was_tried() -> None:
    assert set(WORDS_ABOUT) == set(ABOUT)


def test_why_they_had_more_time_goes_from_their_seat(passed, participant, organiser) -> None:
    Seat.objects.filter(person=participant.user).update(adjustment="dyslexia")
    erase_now(participant, organiser)
    assert set(Seat.objects.filter(person=participant.user).values_list("adjustment", flat=True)) == {""}


def test_what_they_were_to_do_is_taken_back(participant, organiser, course) -> None:
    stands = put(StandIn, "reason", participant, organiser, course)
    leads = put(LeadingGrant, "reason", participant, organiser, course)
    erase_now(participant, organiser)
    stands.refresh_from_db()
    leads.refresh_from_db()
    assert (stands.taken_back_at is not None, leads.ended_on) == (True, timezone.localdate())


def test_nothing_of_the_user_tells_when_they_came_or_lets_them_open_anything(participant, organiser) -> None:
    user = participant.user
    RoleGrant.objects.filter(person=participant).delete()  # the groups of roles go with the roles
    user.groups.add(Group.objects.create(name="of another program"))
    User.objects.filter(pk=user.pk).update(last_login=timezone.now(), is_staff=True, is_superuser=True)
    erase_now(participant, organiser)
    user = User.objects.get(pk=user.pk)
    assert (user.last_login, user.is_active, user.is_staff, user.is_superuser) == (None, False, False, False)
    assert not user.groups.exists()


def test_the_address_of_their_page_that_stood_in_letters_leads_nowhere(participant, organiser) -> None:
    before = participant.uuid
    erase_now(participant, organiser)
    assert not Person.objects.filter(uuid=before).exists()


def test_an_open_appeal_is_taken_back(life, organiser) -> None:
    erase_now(life, organiser)
    assert [each.kind for each in Appeal.objects.get().steps.all()] == ["received", "withdrawn"]


def test_a_link_to_name_plants_that_was_sent_to_them_opens_no_more(life, organiser) -> None:
    erase_now(life, organiser)
    link = DeterminerLink.objects.get()
    assert (link.name.startswith("Erased person"), link.withdrawn_on) == (True, timezone.localdate())


def test_the_name_they_bore_when_a_certificate_was_issued_goes_from_texts(participant, organiser, standard) -> None:
    make_certificate(participant, standard, organiser)
    participant.name = "Pat Newname"
    keep_person(participant, today=timezone.localdate())
    Person.objects.filter(pk=organiser.pk).update(note=f"Get {NAME} to help, or Pat Newname.")
    erase_now(participant, organiser)
    organiser.refresh_from_db()
    assert "Pat" not in organiser.note
    assert organiser.note.count("Erased person") == 2


def test_a_text_that_the_code_makes_longer_still_fits_its_column(organiser) -> None:
    short = make_person("Al Ox")
    place: Locality = LocalityFactory()
    most = Locality._meta.get_field("name").max_length
    assert most is not None
    Locality.objects.filter(pk=place.pk).update(name="Al Ox " + "x" * (most - 6))
    erase_now(short, organiser)
    place.refresh_from_db()
    assert (place.name.startswith("Erased person"), len(place.name)) == (True, most)


def test_an_organiser_who_asks_is_not_told_that_somebody_asks(organiser) -> None:
    make_person("Second Organiser", "organiser")
    ask_to_be_erased(organiser, now=timezone.now())
    assert list(Letter.objects.filter(kind="erasure_asked").values_list("to", flat=True)) == [
        "second.organiser@example.org"
    ]


def test_the_name_stays_through_its_last_day_and_not_one_longer(participant, organiser, standard) -> None:
    made = make_certificate(participant, standard, organiser)
    erase_now(participant, organiser)
    last = name_until(made.valid_until)
    noon = timezone.localtime().replace(year=last.year, month=last.month, day=last.day, hour=12)
    assert complete_erasures(noon) == 0
    assert "courses.Certificate.facts" in found_in_database(NAME)
    assert complete_erasures(noon + timedelta(days=1)) == 1
    assert "courses.Certificate.facts" not in found_in_database(NAME)


def test_why_things_were_decided_stays_as_long_as_the_name_and_goes_with_it(passed, certificate, organiser) -> None:
    holder, now = certificate.person, timezone.now()
    Application.objects.update(reason=SAID)
    ReviewOpened.objects.create(certificate=certificate, reason=SAID, told_at=now)
    Conflict.objects.create(decider=organiser, about=holder, reason=SAID, declared_on=now.date())
    erase_now(holder, organiser)
    kept = ["courses.Application.reason", "courses.Conflict.reason", "courses.ReviewOpened.reason"]
    assert found_in_database(SAID) == kept
    complete_erasures(now + timedelta(days=365 * 9))
    assert found_in_database(SAID) == []


def test_whoever_decided_a_certificate_that_still_counts_is_not_proposed(participant, stranger, organiser, standard):
    """Nor is anybody who has asked already."""
    today = timezone.localdate()
    Person.objects.exclude(pk=organiser.pk).update(left_on=today - timedelta(days=9 * 366))
    assert set(past_keeping(today)) == {participant, stranger}
    make_certificate(organiser, standard, participant)
    assert past_keeping(today) == [stranger]
    ask_to_be_erased(stranger, now=timezone.now())
    assert past_keeping(today) == []


def test_the_request_that_presses_most_comes_first(participant, stranger, organiser) -> None:
    now = timezone.now()
    later = ask_to_be_erased(participant, now=now)
    sooner = ask_to_be_erased(stranger, now=now, asked_at=now - timedelta(days=9), recorded_by=organiser)
    waiting, done = erasure_lists(timezone.localdate())
    assert ([each.request for each in waiting], done) == ([sooner, later], [])
    erase(sooner, by=organiser, now=now)
    waiting, done = erasure_lists(timezone.localdate())
    assert ([each.request for each in waiting], done) == ([later], [sooner])


def test_what_is_left_without_somebody_is_said_before(tutor, course, organiser) -> None:
    make_meeting(course, days_ahead=3, leader=tutor)
    make_meeting(course, days_ahead=-3, leader=tutor)
    page = erasure_page(ask_to_be_erased(tutor, now=timezone.now()), timezone.localdate())
    assert {each.what: each.count for each in page.hands_over} == {
        "Courses without this tutor": 1,
        "Walks to come without a leader": 1,
    }


def test_a_request_hangs_on_nobody_but_a_code_afterwards(participant, organiser) -> None:
    request = erase_now(participant, organiser)
    kept = ErasureRequest.objects.select_related("person").get(pk=request.pk)
    assert kept.person.name.startswith("Erased person")
    assert not Certificate.objects.of(kept.person_id).exists()
    assert apps.get_model("courses.Person")._base_manager.filter(name=NAME).count() == 0


def test_an_appeal_against_a_decision_that_waits_ends_and_stays_on_record(participant, standard, organiser) -> None:
    held = make_certificate(participant, standard, organiser)
    event = record_event(held, "suspended", organiser, "Until it is tested again", now=timezone.now())
    waiting = DecisionAppeal.objects.create(
        person=participant,
        event=event,
        words=f"{NAME} was not there.",
        received_at=timezone.now(),
        decide_by=timezone.localdate(),
    )
    erase_now(participant, organiser)
    waiting.refresh_from_db()
    assert waiting.outcome == "taken_back"
    assert waiting.ended_at is not None
    assert not DecisionAppeal.objects.undecided().exists()
