"""Five minutes of practice in a real browser: on a phone by thumb, at a desk by keyboard and without any script."""

from collections.abc import Callable

import pytest
from django.conf import settings
from django.core.management import call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from assessments.models import Evidence, PracticeState, PracticeTurn, Seen
from courses.models import Person
from species.models import Pair, PairCharacter, Region
from species.rules.vocabulary import Trust
from tests.assessments.practising import hang_teaching_pictures
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
NARROW = {**PHONE, "viewport": {"width": 320, "height": 640}}
TAUGHT = ["cowparsley-hemlock", "carrot-hemlock", "ramsons-arum"]
LOOKS = 12


@pytest.fixture
def learner(transactional_db: None) -> Person:
    """Somebody in a school that teaches three pairs and has pictures of them, with frames where they are told apart."""
    make_school()
    call_command("load_flora", verbosity=0)
    pairs = list(Pair.objects.filter(key__in=TAUGHT))
    make_standard(*pairs, Pair.objects.get(key="comfrey-foxglove"))
    for pair in pairs:
        hang_teaching_pictures(pair, 2)
        rows = PairCharacter.objects.filter(pair=pair, character__isnull=False).exclude(trust=Trust.NOT_TO_BE_RELIED_ON)
        for specimen in pair.mistaken.specimens.all():
            Region.objects.create(
                photo=specimen.photos.get(),
                character=rows[0].character,
                x="0.1",
                y="0.2",
                width="0.5",
                height="0.3",
                drawn_at=timezone.now(),
            )
    return make_person("Pat Participant", "participant")


def signed_in(window: WatchedPage, person: Person) -> WatchedPage:
    client = Client()
    client.force_login(person.user)
    name = settings.SESSION_COOKIE_NAME
    window.context.add_cookies([{"name": name, "value": client.cookies[name].value, "url": window.address}])
    window.visit(reverse("assessments:practice"))
    return window


@pytest.mark.parametrize("size", [NARROW, PHONE, DESKTOP], ids=["narrow", "phone", "desk"])
def test_every_page_fits_and_can_be_used_by_all(
    open_window: Callable[..., WatchedPage], learner: Person, size: dict
) -> None:
    window = signed_in(open_window(size), learner)

    def look_over() -> None:
        window.assert_fits()
        window.assert_accessible()

    look_over()
    window.get_by_role("button", name="Begin").click()
    window.get_by_role("button", name="Say it").wait_for()
    look_over()
    window.get_by_role("radio").nth(1).check()
    window.get_by_role("button", name="Say it").click()
    window.get_by_role("heading", name="What tells them apart").wait_for()
    look_over()
    first, second = (window.locator(".side-by-side img").nth(n).bounding_box() for n in (0, 1))
    assert first["y"] == pytest.approx(second["y"], abs=2)
    window.get_by_role("link", name="Stop here").click()
    window.get_by_role("heading", name="What tells them apart").wait_for(state="detached")
    look_over()


def test_a_whole_round_by_keyboard_without_any_script(open_window: Callable[..., WatchedPage], learner: Person) -> None:
    window = signed_in(open_window({**DESKTOP, "java_script_enabled": False}), learner)
    window.get_by_role("button", name="Begin").focus()
    window.keyboard.press("Enter")
    for number in range(1, LOOKS + 1):
        window.get_by_role("heading", name=f"Look {number} of {LOOKS}").wait_for()
        window.get_by_role("radio").first.focus()
        window.keyboard.press("Space")
        for _step in range(number % 3):
            window.keyboard.press("ArrowDown")
        window.keyboard.press("Enter")
        window.get_by_role("heading", name="What tells them apart").wait_for()
        window.get_by_role("link", name="That was the last one" if number == LOOKS else "Next").focus()
        window.keyboard.press("Enter")
    window.get_by_role("heading", name="Enough for now").wait_for()
    assert PracticeTurn.objects.answered().count() == LOOKS
    assert PracticeTurn.objects.values("said").distinct().count() == 3
    assert PracticeState.objects.filter(person=learner.user).count() == len(TAUGHT)
    assert (Evidence.objects.count(), Seen.objects.count()) == (0, 0)
