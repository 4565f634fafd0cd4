"""The pages of the school in a real browser: every one fits a phone and a desk, and the register answers a tap."""

import re
from collections.abc import Callable
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import expect

from assessments.models import Paper, Seat
from courses.actions.invitations import invite
from courses.models import Attendance, Course, Meeting, Person, RequirementRecord
from species.models import Module, ModulePair, Showing
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import SiteFactory, enrol, make_course, make_meeting
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, SpecimenFactory, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


def furnish(tutor: Person, organiser: Person, participant: Person) -> tuple[Course, Meeting]:
    """A course with something on each of its pages, and its meeting of today."""
    pair = PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))
    Showing.objects.create(species=pair.mistaken, stage="rosette", months=list(range(1, 13)))
    module = Module.objects.create(key="umbels", title="Umbels")
    ModulePair.objects.create(module=module, pair=pair)
    course = make_course(standard=make_standard(pair), summary="Carrot kin.", bring="Boots", capacity=2)
    course.tutors.add(tutor)
    for number, person in enumerate([participant, make_person("Bo Second"), make_person("Cy Third")]):
        enrol(person, course, waiting=number == 2)
    now = timezone.now()
    site = SiteFactory(hazards="Loose edge", access="Bus 7")
    hour = timedelta(hours=1)
    today = make_meeting(course, starts_at=now - hour / 60, ends_at=now + hour, site=site, title="Today")
    today.modules.add(module, through_defaults={"order": 1})
    make_meeting(course, days_ahead=7, site=site, title="Next week")
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "gather", by=tutor.user)
    paper = Paper.objects.create(
        title="First paper", standard=course.standard, questions=4, opens_at=now, seed=1, set_by=tutor.user, set_at=now
    )
    course.papers.add(paper)
    Seat.objects.create(paper=paper, person=participant.user, opens_at=now)
    RequirementRecord.objects.create(
        person=tutor, kind="first_aid", valid_from=now.date() - timedelta(days=900),
        valid_until=now.date() - timedelta(days=1), seen_by=organiser, seen_on=now.date(),
    )  # fmt: skip
    invite("nia@example.org", "Nia New", "participant", by=organiser, now=now, course=course)
    return course, today


@pytest.fixture
def people(transactional_db: None) -> dict[str, Person]:
    make_school()
    return {role: make_person(f"{role.title()} Person", role) for role in ("tutor", "organiser", "participant")}


def pages_of(role: str, course: Course, meeting: Meeting, people: dict[str, Person]) -> list[str]:
    paper = course.papers.get()
    own = [
        "home",
        "courses",
        "meetings",
        "notices",
        "certificates_mine",
        ("course", course.key),
        ("meeting", meeting.key),
    ]
    run = [
        "people", "sites", "site_new", ("cohort", course.key), ("course_edit", course.key),
        ("course_paper_new", course.key), ("course_paper", course.key, paper.key), ("register", meeting.key),
        ("meeting_edit", meeting.key), ("meeting_cancel", meeting.key), ("site", meeting.site_id),
        ("withdraw", course.enrolments.first().pk), ("person", people["participant"].uuid),
        ("confusion", course.key), ("calibration", course.key), ("items", course.key), ("next_week", course.key),
        ("course_wanted", course.key), ("course_season", course.key), ("course_draft", course.key),
        ("course_after", course.key), ("meeting_day", meeting.key), ("hand_over", meeting.key),
        ("permission_new", meeting.site_id), ("plant_seen", meeting.site_id), ("review_new", meeting.site_id),
        "incidents", "incident_new", ("walk", meeting.key), "about_certificates",
    ]  # fmt: skip
    lead = [
        "invitations", "invite", "course_new", "school_edit", ("person_edit", people["tutor"].uuid), "people_import",
        "enquiries", "complaints", "letters", "leaders_proposed", "certificates", "requirement_new",
    ]  # fmt: skip
    wanted = {"participant": own, "tutor": own + run, "organiser": [*own, *lead]}[role]
    return [
        reverse(f"courses:{page}") if isinstance(page, str) else reverse(f"courses:{page[0]}", args=page[1:])
        for page in wanted
    ]


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
@pytest.mark.parametrize("role", ["participant", "tutor", "organiser"])
def test_every_page_fits_and_can_be_used_by_everybody(
    open_window: Callable[..., WatchedPage], people: dict[str, Person], role: str, size: dict[str, object]
) -> None:
    course, meeting = furnish(people["tutor"], people["organiser"], people["participant"])
    window = open_window(size).enter(people[role].user)
    for path in pages_of(role, course, meeting, people):
        answer = window.visit(path)
        assert answer is not None
        assert answer.status == 200, path
        window.assert_fits()
        if size is PHONE:  # the rules look at the same markup at a desk
            window.assert_accessible()
            window.assert_within_reach()


def test_a_tap_marks_somebody_without_a_new_page(
    open_window: Callable[..., WatchedPage], people: dict[str, Person]
) -> None:
    _course, meeting = furnish(people["tutor"], people["organiser"], people["participant"])
    window = open_window(PHONE).enter(people["tutor"].user)
    window.visit(reverse("courses:register", args=[meeting.key]))
    window.page.evaluate("document.body.dataset.kept = 'yes'")
    window.get_by_role("button", name=re.compile("^came late.*Participant Person")).tap()
    pressed = window.locator('button[aria-pressed="true"]')
    pressed.wait_for()
    assert pressed.inner_text().startswith("came late")
    expect(window.locator("#register-counts")).to_contain_text("1 of 2 here")
    assert window.page.evaluate("document.body.dataset.kept") == "yes"
    assert Attendance.objects.get().presence == "late"


def test_the_register_works_without_scripts(browser, live_server, people: dict[str, Person]) -> None:
    _course, meeting = furnish(people["tutor"], people["organiser"], people["participant"])
    window = WatchedPage(browser.new_context(java_script_enabled=False), live_server.url)
    window.enter(people["tutor"].user).visit(reverse("courses:register", args=[meeting.key]))
    window.get_by_role("button", name=re.compile("^here.*Bo Second")).click()
    expect(window.locator("#register-counts")).to_contain_text("1 of 2 here")
    window.context.close()
    assert window.unexpected == []
