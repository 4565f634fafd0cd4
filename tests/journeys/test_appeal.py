"""An appeal in a real browser: sent from a phone, decided at a desk, its reasons read on the phone."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from assessments.actions.deciding_appeals import ask_for_names
from assessments.models import Appeal, Evidence
from courses.models import Person
from tests.assessments.appeals import make_appeal
from tests.assessments.evidence import PaperTrail, open_windows
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, determine, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


class Story:
    """A participant who gathered a hemlock, its tutor, an assessor who had no part in it, and another tutor."""

    def __init__(self) -> None:
        make_school()
        self.participant = make_person("Pat Participant", "participant")
        self.tutor, self.namer = make_person("Tilda Tutor", "tutor"), make_person("Sev Second", "tutor")
        self.assessor = make_person("Asa Assessor", "assessor")
        make_person("Olga Organiser", "organiser")
        pair = PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))
        open_windows(self.participant.user)
        trail = PaperTrail(self.participant.user, make_standard(pair), self.tutor.user)
        trail.answer(pair.gathered, "gather")
        self.miss: Evidence = trail.answer(pair.mistaken, "gather", named=pair.gathered)
        trail.sitting.result_shown_at = timezone.now() - timedelta(days=2)
        trail.sitting.save()
        for person in (self.tutor, self.namer):
            determine(self.miss.specimen, pair.mistaken, person.user)
        assert self.miss.sitting is not None
        self.feedback = reverse("assessments:feedback", args=[self.miss.sitting.seat.paper.key])


@pytest.fixture
def story(transactional_db: None) -> Story:
    return Story()


def signed_in(window: WatchedPage, person: Person) -> WatchedPage:
    client = Client()
    client.force_login(person.user)
    name = settings.SESSION_COOKIE_NAME
    window.context.add_cookies([{"name": name, "value": client.cookies[name].value, "url": window.address}])
    return window


def test_sent_on_a_phone_decided_at_a_desk_and_read_on_the_phone(
    open_window: Callable[..., WatchedPage], story: Story
) -> None:
    phone, desk = signed_in(open_window(PHONE), story.participant), signed_in(open_window(DESKTOP), story.assessor)
    phone.visit(story.feedback)
    phone.get_by_role("link", name="This question is wrong (2)").click()
    phone.get_by_label("The photograph does not show enough").check()
    phone.get_by_label("In your own words").fill("The leaf is out of focus.")
    phone.get_by_role("button", name="Send the appeal").click()
    phone.get_by_text("Your appeal is received").wait_for()

    desk.visit(reverse("assessments:appeals_to_decide"))
    desk.get_by_role("link", name="Paper of day 1, question 2").click()
    desk.get_by_text("The leaf is out of focus.").wait_for()
    desk.get_by_label("Uphold: this plant counts for nobody").check()
    desk.get_by_label("Your reasons").fill("Nothing that decides can be seen.")
    desk.get_by_role("button", name="Decide").click()
    desk.get_by_text("It is decided, everything is computed again").wait_for()

    phone.visit(reverse("assessments:appeals"))
    phone.get_by_text("(misses 1, now 0)").wait_for()
    phone.get_by_role("link", name="Paper of day 1, question 2").click()
    phone.get_by_text("Nothing that decides can be seen.").wait_for()


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_every_page_fits_and_has_no_barrier(open_window: Callable[..., WatchedPage], story: Story, size: dict) -> None:
    window = signed_in(open_window(size), story.participant)
    form = reverse("assessments:appeal", args=[story.feedback.split("/")[2], 2])
    window.visit(form)
    window.assert_fits()
    window.assert_accessible()
    made: Appeal = make_appeal(story.miss)
    one = reverse("assessments:one_appeal", args=[made.key])
    ask_for_names(made, story.assessor.user, "The stem cannot be seen.", timezone.now())
    for person, paths in (
        (story.participant, [reverse("assessments:appeals"), one]),
        (story.assessor, [reverse("assessments:appeals_to_decide"), one]),
        (story.namer, [reverse("assessments:appeals"), reverse("assessments:appeal_name", args=[made.key])]),
    ):
        signed_in(window, person)
        for path in paths:
            window.visit(path)
            window.evaluate("document.querySelectorAll('main details').forEach(each => { each.open = true })")
            window.assert_fits()
            window.assert_accessible()
