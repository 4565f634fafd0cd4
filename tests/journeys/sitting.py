"""What the journeys through a test share: a small school whose participant has a test open, and their window."""

from datetime import timedelta

from django.conf import settings
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Locator, expect

from assessments.actions.papers import set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Answer
from assessments.queries.paper_plan import PaperPlan
from courses.models import Person
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

NARROW = {**PHONE, "viewport": {"width": 320, "height": 640}}
SIZES = {"narrow": NARROW, "phone": PHONE, "desk": DESKTOP}
SENTENCE = "[data-unsent-sentence]"


class OpenTest:
    """A test of four questions, opened by a participant; pictures of one size for every plant."""

    def __init__(self) -> None:
        make_school()
        self.participant, tutor = make_person("Pat Participant", "participant"), make_person("Tilda Tutor", "tutor")
        pair = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
        for species in (pair.gathered, pair.mistaken):
            for _each in range(6):
                give_picture(SpecimenFactory(species=species))
        now = timezone.now() - timedelta(minutes=5)
        plan = PaperPlan("The leaves", make_standard(pair), [pair], 4, now, now + timedelta(days=1), each_stage=False)
        self.paper = set_paper(plan, [self.participant.user], tutor.user, 7, now)
        self.sitting = open_sitting(self.paper.seats.get(), timezone.now())

    def address(self, name: str, *more: int) -> str:
        """The path of one of the pages of the test."""
        return reverse(f"assessments:{name}", args=[self.paper.key, *more])

    def decisions(self) -> dict[int, str]:
        """What the school has: by position the decision that stands."""
        return dict(Answer.objects.values_list("question__position", "decision"))


def sign_in(window: WatchedPage, person: Person) -> WatchedPage:
    """Let the window be that person's."""
    client = Client()
    client.force_login(person.user)
    name = settings.SESSION_COOKIE_NAME
    window.context.add_cookies([{"name": name, "value": client.cookies[name].value, "url": window.address}])
    return window


def give(window: WatchedPage, decision: str = "No, I would not", name: str = "badleaf") -> None:
    """Fill in a question that is to be named and decided; nothing is pressed."""
    window.get_by_label("Its name, common or scientific").fill(name)
    window.get_by_text(decision, exact=True).click()
    window.get_by_text("Fairly sure: 3 in 4").click()


def go_on(window: WatchedPage) -> None:
    """Press the button that saves and goes on."""
    window.get_by_role("button", name="Save and go on").click()


def note(window: WatchedPage) -> Locator:
    """The words beside the button: saved, or not."""
    return window.locator(".action-note")


def expect_question(window: WatchedPage, number: int) -> None:
    """Wait for a question."""
    expect(window.get_by_role("heading", name=f"Question {number} of 4")).to_be_visible(timeout=15_000)


def kept_on(window: WatchedPage) -> list[str]:
    """The answers that lie on the device."""
    kept: list[str] = window.evaluate("Object.keys(localStorage).filter(k => k.startsWith('kenspeckle:answers:'))")
    return kept
