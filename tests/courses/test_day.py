"""The day of a meeting on one page and on paper, what of it is for whom, and handing it over."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from courses.actions.health import fill_form
from courses.actions.stand_ins import CannotStandIn, name_stand_in
from courses.models import HealthReading, Letter, SiteRecord, StandIn
from courses.rules.notes import Agreed, Notes
from tests.factories.courses import SiteFactory, enrol, give_permission, make_meeting
from tests.factories.people import make_person
from tests.factories.species import make_species


@pytest.fixture(autouse=True)
def own_keys(settings, tmp_path) -> None:
    settings.VAR_DIR = tmp_path


@pytest.fixture
def meeting(course, tutor):
    """Today at noon, at a site with a deadly plant, with one participant who told of an allergy."""
    site = SiteFactory(emergency_place="North gate", access="Bus 7")
    give_permission(site)
    SiteRecord.objects.create(
        site=site,
        species=make_species("badleaf", deadly=True),
        stage="rosette",
        seen_on=timezone.localdate(),
        seen_by=tutor,
    )
    noon = timezone.localtime().replace(hour=12, minute=0, second=0)
    return make_meeting(course, site=site, starts_at=noon, ends_at=noon + timedelta(hours=3))


@pytest.fixture
def told(meeting, participant) -> None:
    notes = Notes("Nan, 01234", allergies="celery")
    fill_form(participant.enrolments.get(), notes, Agreed({"health": "w"}), timezone.now())


def url(meeting, name="meeting_day") -> str:
    return reverse(f"courses:{name}", args=[meeting.key])


def test_the_tutor_sees_at_a_glance_who_must_not_eat_what(signed_in, tutor, meeting, told) -> None:
    page = signed_in(tutor).get(url(meeting)).content.decode()
    for words in ("celery", "Badleaf", "North gate", "Bus 7", "Pat Participant", "Tastes nothing:"):
        assert words in page
    assert HealthReading.objects.get().meeting == meeting


def test_the_organiser_sees_the_day_but_nothing_told_in_confidence(signed_in, organiser, meeting, told) -> None:
    page = signed_in(organiser).get(url(meeting)).content.decode()
    assert "Badleaf" in page
    assert "celery" not in page
    assert not HealthReading.objects.exists()


@pytest.mark.parametrize("who", ["participant", "stranger", "assessor"])
def test_others_do_not_find_it(signed_in, request, meeting, told, who) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert client.get(url(meeting)).status_code == 404
    assert client.get(url(meeting, "meeting_pack")).status_code == 404


def test_the_pack_says_the_same_on_paper(signed_in, tutor, meeting, told, school) -> None:
    content = signed_in(tutor).get(url(meeting, "meeting_pack")).content
    text = " ".join("".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())
    for words in (school.emergency_number, "celery", "Badleaf", "North gate", "Bus 7", "Pat Participant", "Nan, 01234"):
        assert words in text


def test_whoever_sent_no_form_is_named(signed_in, tutor, meeting) -> None:
    assert "No form yet: ask before you set out." in signed_in(tutor).get(url(meeting)).content.decode()


def test_a_stand_in_named_this_morning_sees_everything_today(signed_in, organiser, meeting, told) -> None:
    other = make_person("Stella Standin", "tutor")
    answer = signed_in(organiser).post(url(meeting, "hand_over"), {"person": other.pk, "reason": "Ill"})
    assert answer.status_code == 302
    letter = Letter.objects.get(kind="stand_in")
    assert letter.to == other.user.email
    assert url(meeting) in letter.text
    assert "celery" in signed_in(other).get(url(meeting)).content.decode()
    assert signed_in(other).get(reverse("courses:register", args=[meeting.key])).status_code == 200


def test_the_day_after_it_is_over_for_the_stand_in(signed_in, organiser, meeting, told, time_machine) -> None:
    other = make_person("Stella Standin", "tutor")
    name_stand_in(meeting, other, by=organiser, reason="", now=timezone.now() - timedelta(hours=23))
    time_machine.move_to(meeting.starts_at + timedelta(days=1, hours=14))
    assert signed_in(other).get(url(meeting)).status_code == 404


def test_a_stand_in_is_named_once_and_can_be_taken_back(signed_in, organiser, meeting, course) -> None:
    other, now = make_person("Stella Standin", "tutor"), meeting.starts_at
    named = name_stand_in(meeting, other, by=organiser, reason="", now=now)
    with pytest.raises(CannotStandIn):
        name_stand_in(meeting, other, by=organiser, reason="", now=now)
    with pytest.raises(CannotStandIn):
        name_stand_in(meeting, make_person("Else", "tutor"), by=organiser, reason="", now=meeting.ends_at)
    signed_in(organiser).post(reverse("courses:hand_over_end", args=[named.pk]))
    assert StandIn.objects.get().taken_back_at is not None
    assert signed_in(other).get(url(meeting)).status_code == 404


def test_the_page_costs_the_same_for_thirty_as_for_one(signed_in, tutor, meeting, told, django_assert_max_num_queries):
    client = signed_in(tutor)
    with django_assert_max_num_queries(40) as first:
        client.get(url(meeting))
    for number in range(30):
        place = enrol(make_person(f"P{number}"), meeting.course)
        fill_form(place, Notes("Nan"), Agreed({}), timezone.now())
    with django_assert_max_num_queries(len(first)):
        client.get(url(meeting))


def test_one_press_changes_to_the_plan_for_bad_weather_and_tells_everybody(
    signed_in, tutor, meeting, participant
) -> None:
    dry, barn = meeting.site, SiteFactory()
    meeting.wet_site, meeting.wet_plan = barn, "Indoors, with specimens"
    meeting.ends_at = timezone.now() + timedelta(hours=5)
    meeting.starts_at = timezone.now() + timedelta(hours=1)
    meeting.save()
    client, press = signed_in(tutor), reverse("courses:meeting_wet", args=[meeting.key])
    client.post(press)
    meeting.refresh_from_db()
    assert (meeting.site, meeting.wet_site, meeting.changes) == (barn, dry, 1)
    letter = Letter.objects.get(kind="wet")
    assert letter.to == participant.user.email
    assert "Indoors, with specimens" in letter.text
    client.post(press)
    meeting.refresh_from_db()
    assert meeting.site == dry


def test_without_a_plan_for_bad_weather_the_press_says_so(signed_in, tutor, meeting) -> None:
    meeting.ends_at = timezone.now() + timedelta(hours=5)
    meeting.starts_at = timezone.now() + timedelta(hours=1)
    meeting.save()
    page = signed_in(tutor).post(reverse("courses:meeting_wet", args=[meeting.key]), follow=True).content.decode()
    assert "Nothing is planned for bad weather" in page
    assert "A hand lens for every two people" in page
