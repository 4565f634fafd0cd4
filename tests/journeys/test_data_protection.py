"""Being erased and the record of processing, in a real browser: on a phone and at a desk, by keyboard alone."""

from collections.abc import Callable

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.erasure import ask_to_be_erased
from courses.models import ErasureRequest, Person
from tests.factories.assessments import make_standard
from tests.factories.certificates import make_certificate
from tests.factories.courses import SiteFactory, enrol, make_course, make_meeting
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory
from tests.journeys.test_standing import signed_in
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def cast(transactional_db: None) -> tuple[Person, Person]:
    """A participant with a certificate, and the organiser who decided on it."""
    make_school(email="office@example.org", postal_address="1 Hedge Lane\nTest Coast")
    participant, organiser = make_person("Pat Participant"), make_person("Olga Organiser", "organiser")
    course = make_course(standard=make_standard(PairFactory()))
    enrol(participant, course)
    make_meeting(course, site=SiteFactory(group_size=5), most_people=4)
    make_certificate(participant, course.standard, organiser)
    return participant, organiser


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])
def test_every_page_fits_and_can_be_used_by_everybody(open_window: Callable[..., WatchedPage], cast, size) -> None:
    participant, organiser = cast
    asked = ask_to_be_erased(participant, now=timezone.now())
    window = signed_in(open_window(size), organiser)
    pages = [reverse(f"courses:{name}") for name in ("erasures", "processing", "processing_grounds", "data_notice")]
    pages += [reverse("courses:own_data"), reverse("courses:erasure", args=[asked.key])]
    pages += [reverse("courses:erasure_record", args=[organiser.uuid]), "/courses/spring-course/"]
    for page in pages:
        answer = window.visit(page)
        assert answer is not None
        assert answer.status == 200, page
        window.assert_fits()
        window.assert_accessible()


def test_asked_and_granted_by_keyboard_alone(open_window: Callable[..., WatchedPage], cast) -> None:
    participant, organiser = cast
    asks = signed_in(open_window(PHONE), participant)
    asks.visit(reverse("courses:own_data"))
    asks.get_by_label("Your e-mail address, to confirm").focus()
    asks.page.keyboard.type(participant.user.email)
    asks.page.keyboard.press("Enter")
    asks.get_by_role("button", name="Take it back").wait_for()
    answers = signed_in(open_window(DESKTOP), organiser)
    answers.visit(reverse("courses:erasure", args=[ErasureRequest.objects.get().key]))
    answers.get_by_text("Erase this person").focus()
    answers.page.keyboard.press("Enter")
    answers.get_by_role("button", name="Yes, erase for good").focus()
    answers.page.keyboard.press("Enter")
    answers.get_by_text("Erased, but for the name on certificates").wait_for()
    assert "Pat Participant" not in answers.page.content()
    asks.visit("/")
    assert "Pat Participant" not in asks.page.content()
