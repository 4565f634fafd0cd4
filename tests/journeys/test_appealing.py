"""Appealing a suspension in a real browser: from the holder's phone to another organiser's desk and back."""

from collections.abc import Callable

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import expect

from courses.actions.certificates import issue_certificate, record_event
from courses.models import Certificate, DecisionAppeal, Person
from tests.factories.assessments import make_standard
from tests.factories.certificates import give_pass, make_application
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def organiser(transactional_db: None) -> Person:
    make_school()
    return make_person("Olga Organiser", "organiser")


@pytest.fixture
def suspended(organiser: Person) -> Certificate:
    pair = PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))
    person, standard = make_person("Pat Participant"), make_standard(pair)
    give_pass(person, standard, pair, set_by=make_person("Sera Setter"), checked_by=make_person("Asa Assessor"))
    found = issue_certificate(make_application(person, standard), organiser, now=timezone.now())
    record_event(found, "suspended", organiser, "Seen gathering without looking at the stem", now=timezone.now())
    return found


def sound(window: WatchedPage) -> None:
    window.assert_fits()
    window.assert_within_reach()
    window.assert_accessible()


def test_from_the_holders_phone_to_another_organisers_desk_and_back(
    open_window: Callable[..., WatchedPage], suspended: Certificate, organiser: Person
) -> None:
    other = make_person("Otto Other", "organiser")
    holder = open_window(PHONE).enter(suspended.person.user)
    holder.visit(reverse("courses:certificate", args=[suspended.number]))
    sound(holder)
    holder.get_by_role("link", name="Appeal this decision").click()
    holder.get_by_role("button", name="Send the appeal").wait_for()
    sound(holder)
    holder.allow("422")  # sent empty, and answered by the form with its sentence
    holder.get_by_role("button", name="Send the appeal").click()
    holder.get_by_text("Say in your own words what is wrong").first.wait_for()
    sound(holder)
    assert not DecisionAppeal.objects.exists()
    holder.get_by_label("What is wrong with this decision?").fill("It was my brother, and I was not there.")
    holder.get_by_role("button", name="Send the appeal").click()
    holder.get_by_role("heading", name="Your appeal").wait_for()
    sound(holder)
    made = DecisionAppeal.objects.get()

    first = open_window(PHONE).enter(organiser.user)
    first.visit(reverse("courses:decision_appeals"))
    sound(first)
    first.get_by_role("link", name="Pat Participant").click()
    first.get_by_text("You took the decision that it speaks against.").wait_for()
    assert first.get_by_role("button", name="Decide").count() == 0
    sound(first)

    desk = open_window(DESKTOP).enter(other.user)
    desk.visit(reverse("courses:decision_appeal", args=[made.key]))
    sound(desk)
    desk.get_by_label("Upheld: the decision was wrong").check()
    desk.get_by_label("Your reasons").fill("Two people saw Pat elsewhere that day.")
    desk.get_by_role("button", name="Decide").click()
    desk.get_by_text("It is decided, and the person is told.").wait_for()
    sound(desk)
    desk.visit(reverse("courses:decision_appeals"))
    sound(desk)

    holder.visit(reverse("courses:decision_appeal", args=[made.key]))
    holder.get_by_text("Two people saw Pat elsewhere that day.").wait_for()
    sound(holder)
    assert [each.kind for each in suspended.events.all()] == ["suspended", "lifted"]


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_which_pairs_are_lost_is_asked_of_a_narrowing_alone(
    open_window: Callable[..., WatchedPage], suspended: Certificate, size: dict[str, object]
) -> None:
    desk = open_window(size).enter(make_person("Otto Other", "organiser").user)
    desk.visit(reverse("courses:certificate", args=[suspended.number]))
    desk.get_by_text("Suspend, lift, narrow or withdraw").press("Enter")
    asked = desk.get_by_role("group", name="The pairs for which it no longer stands")
    desk.get_by_label("withdrawn").check()
    expect(asked).to_be_hidden()
    desk.get_by_label("narrowed").check()
    expect(asked).to_be_visible()
    sound(desk)
