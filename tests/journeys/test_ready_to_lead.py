"""Who is ready to lead, in a browser: the board, a proof, a leader named; and a stranger who checks a certificate."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import issue_certificate, record_event
from courses.models import Certificate, Letter, Meeting, Person, Requirement, RequirementRecord
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.certificates import gather_dangerous, give_pass, make_application, show_proof
from tests.factories.courses import make_meeting
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def organiser(transactional_db: None) -> Person:
    make_school()
    return make_person("Olga Organiser", "organiser")


@pytest.fixture
def pair(organiser: Person) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def lou(organiser: Person) -> Person:
    """Somebody who lacks a first aid ticket where that is all that is asked, and a walk without a leader."""
    Requirement.objects.create(key="aid", part="leader", kind="proof", proof="first_aid", title="First aid", order=1)
    made = make_person("Lou Later", "tutor")
    show_proof(made, "insurance", organiser, 30)
    make_meeting(None, days_ahead=5, is_walk=True, title="Hedges in rain")
    return made


@pytest.fixture
def held(organiser: Person, pair: Pair) -> Certificate:
    holder, standard = make_person("Pat Participant"), make_standard(pair)
    give_pass(holder, standard, pair, set_by=make_person("Sera Setter"), checked_by=make_person("Asa Assessor"))
    return issue_certificate(make_application(holder, standard), organiser, now=timezone.now())


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_every_page_of_leading_fits_and_can_be_used_by_everybody(
    open_window: Callable[..., WatchedPage], organiser: Person, lou: Person, size: dict[str, object]
) -> None:
    window, walk = open_window(size).enter(organiser.user), Meeting.objects.get()
    pages = ["readiness", "my_leading", "requirements", "requirement_set", "step_new", "grant_new", "leaders_proposed"]
    paths = [*(reverse(f"courses:{page}") for page in pages), reverse("courses:walk", args=[walk.key])]
    for path in [*paths, reverse("courses:person", args=[lou.uuid]), reverse("courses:readiness") + "?state=ready"]:
        answer = window.visit(path)
        assert answer is not None
        assert answer.status == 200, path
        window.assert_fits()
        window.assert_accessible()
        if size is PHONE:
            window.assert_within_reach()


def test_from_what_is_missing_to_a_named_leader(
    open_window: Callable[..., WatchedPage], organiser: Person, lou: Person
) -> None:
    window = open_window(PHONE).enter(organiser.user)
    window.visit(reverse("courses:readiness"))
    window.get_by_label("Show").select_option("not_yet")
    window.get_by_role("button", name="Show").tap()
    row = window.get_by_role("row", name="Lou Later")
    row.get_by_text("Show an organiser a ticket that is valid.").wait_for()
    window.get_by_role("link", name="Record a proof").tap()
    window.get_by_label("Person").select_option(str(lou.pk))
    window.get_by_label("Requirement").select_option("first_aid")
    window.get_by_label("Valid from").fill(timezone.localdate().isoformat())
    window.get_by_label("Valid until").fill((timezone.localdate() + timedelta(days=400)).isoformat())
    window.locator("main button[type=submit]").tap()
    window.get_by_text("It is recorded.").wait_for()
    assert RequirementRecord.objects.filter(person=lou, kind="first_aid", seen_by=organiser).exists()
    window.get_by_role("link", name="Propose leaders").tap()
    window.get_by_role("button", name="Name those ticked").tap()
    window.get_by_text("1 leader is named and written to.").wait_for()
    assert Meeting.objects.get().leader == lou
    assert Letter.objects.filter(to=lou.user.email).exists()


def test_the_filters_are_reached_and_used_with_the_keyboard_alone(
    open_window: Callable[..., WatchedPage], organiser: Person, lou: Person
) -> None:
    window = open_window(DESKTOP).enter(organiser.user)
    window.visit(reverse("courses:readiness"))
    window.get_by_label("Name").focus()
    window.keyboard.type("nobody of that name")
    window.keyboard.press("Enter")
    window.get_by_text("Nobody answers to that").wait_for()
    window.get_by_role("link", name="Show everybody").press("Enter")
    window.get_by_role("row", name="Lou Later").wait_for()


@pytest.mark.parametrize("kind", ["", "review", "suspended", "withdrawn"])
def test_a_stranger_sees_at_once_on_a_phone_what_a_certificate_is_worth(
    open_window: Callable[..., WatchedPage], organiser: Person, held: Certificate, kind: str
) -> None:
    if kind == "review":
        gather_dangerous(held.person, Pair.objects.get(), organiser)
    elif kind:
        record_event(held, kind, organiser, "A doubt", now=timezone.now())
    window = open_window(PHONE)
    window.visit(reverse("courses:check", args=[held.key]))
    heading = window.locator("h1")
    word = {"": "Current", "review": "Under review", "suspended": "Suspended", "withdrawn": "Withdrawn"}[kind]
    assert heading.inner_text().strip() == word
    box = heading.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < 400  # in the upper half of the first screenful
    sizes = window.evaluate(
        "[...document.querySelectorAll('main *')].map(e => parseFloat(getComputedStyle(e).fontSize))"
    )
    largest = heading.locator(".status").evaluate("e => parseFloat(getComputedStyle(e).fontSize)")
    assert largest == max(sizes)
    window.assert_fits()
    window.assert_accessible()


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_by_number_and_family_name_one_answer_for_what_is_wrong(
    open_window: Callable[..., WatchedPage], held: Certificate, size: dict[str, object]
) -> None:
    window = open_window(size)
    window.allow("404")
    told = []
    for number, name in (("2099-0001", "Participant"), (held.number, "Somebody")):
        window.visit(reverse("courses:check_number"))
        window.assert_fits()
        window.assert_accessible()
        window.locator("main input:visible").first.fill(number)
        window.locator("main input:visible").nth(1).fill(name)
        window.locator("main button[type=submit]").click()
        window.get_by_role("heading", name="No such certificate").wait_for()
        told.append(window.locator("main [role=alert], main .error, main p").first.inner_text())
    assert told[0] == told[1] != ""
