"""The pages around assessors, leaks and applications in a real browser: each fits a phone and a desk, by anybody."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.spot_tests import add_station, set_up_spot_test
from assessments.models import Evidence, IdentityCheck, SpotTest
from courses.actions.certificates import issue_certificate
from courses.actions.complaints import complain
from courses.models import Application, Certificate, Person
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.certificates import give_pass, make_application, trust_founder
from tests.factories.people import make_person, make_school
from tests.factories.species import LocalityFactory, PairFactory, make_species
from tests.journeys.watching import DESKTOP, PHONE, WatchedPage

pytestmark = pytest.mark.django_db(transaction=True)
SIZES = pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desk"])


@pytest.fixture
def organiser(transactional_db: None) -> Person:
    make_school()
    return make_person("Olga Organiser", "organiser")


@pytest.fixture
def pair(organiser: Person) -> Pair:
    return PairFactory(gathered=make_species("cow parsley"), mistaken=make_species("hemlock", deadly=True))


@pytest.fixture
def application(organiser: Person, pair: Pair) -> Application:
    """Somebody who passed under one standard and asks under it, and under another without having passed."""
    person, standard = make_person("Pat Participant"), make_standard(pair)
    make_standard(pair, key="leader", name="Walk leader", leads_walks=True)
    give_pass(person, standard, pair, set_by=make_person("Sera Setter"), checked_by=make_person("Asa Assessor"))
    return make_application(person, standard)


@pytest.fixture
def certificate(application: Application, organiser: Person) -> Certificate:
    return issue_certificate(application, organiser, now=timezone.now())


@pytest.fixture
def spot_test(organiser: Person, pair: Pair) -> SpotTest:
    now = timezone.now()
    test = set_up_spot_test("By the ditch", LocalityFactory(), now - timedelta(hours=1), organiser.user)
    add_station(test, pair.mistaken, "hemlock", "rosette", organiser.user, now)
    return test


def look(window: WatchedPage, paths: list[str]) -> None:
    for path in paths:
        answer = window.visit(path)
        assert answer is not None
        assert answer.status == 200, path
        window.assert_fits()
        window.assert_within_reach()
        window.assert_accessible()


@SIZES
def test_what_organisers_open_fits_and_can_be_used_by_everybody(
    open_window: Callable[..., WatchedPage],
    organiser: Person,
    application: Application,
    spot_test: SpotTest,
    size: dict[str, object],
) -> None:
    answer = Evidence.objects.filter(decision="refuse", sitting__isnull=False).select_related("specimen").first()
    assert answer is not None
    assert answer.sitting is not None
    person, made = make_person("Asa Trusted", "assessor"), complain(
        name="Ann", email="ann@example.org", text="The bus was late.", now=timezone.now()
    )  # fmt: skip
    look(
        open_window(size).enter(organiser.user),
        [
            reverse("assessments:spot_tests"),
            reverse("assessments:spot_test", args=[spot_test.key]),
            reverse("assessments:spot_test_record", args=[spot_test.key]),
            reverse("assessments:plant_leaked", args=[answer.specimen.key]),
            reverse("assessments:paper_leaked", args=[answer.sitting.seat.paper.key]),
            reverse("courses:founding", args=[person.uuid]),
            reverse("courses:person", args=[person.uuid]),
            reverse("courses:application", args=[application.pk]),
            reverse("courses:complaints"),
            reverse("courses:complaint", args=[made.key]),
        ],
    )


@SIZES
def test_what_applicants_and_strangers_open_fits_and_can_be_used_by_everybody(
    open_window: Callable[..., WatchedPage], certificate: Certificate, pair: Pair, size: dict[str, object]
) -> None:
    other = make_application(certificate.person, make_standard(pair, key="another", name="Another"))
    look(
        open_window(size).enter(certificate.person.user),
        [
            reverse("courses:certificates_mine"),
            reverse("courses:application_take_back", args=[other.pk]),
            reverse("courses:certificate", args=[certificate.number]),
        ],
    )
    look(open_window(size), [reverse("courses:check", args=[certificate.key]), reverse("courses:check_number")])


def test_an_applicant_takes_an_application_back_by_keyboard(
    open_window: Callable[..., WatchedPage], application: Application
) -> None:
    window = open_window(PHONE).enter(application.person.user)
    window.visit(reverse("courses:certificates_mine"))
    window.get_by_role("link", name="Take this application back").press("Enter")
    window.get_by_role("button", name="Take it back").press("Enter")
    window.get_by_text("Your application is taken back").wait_for()
    assert Application.objects.get(pk=application.pk).taken_back_at is not None


def test_an_assessor_reads_why_not_and_records_once_on_record_as_a_founder(
    open_window: Callable[..., WatchedPage], spot_test: SpotTest, organiser: Person
) -> None:
    person, window = make_person("Lou Learner"), open_window(PHONE).enter(organiser.user)
    window.allow("422")
    window.visit(reverse("assessments:spot_test_record", args=[spot_test.key]))
    assert window.get_by_text("Station 1 is a dangerous plant").is_visible()
    trust_founder(organiser)
    window.visit(reverse("assessments:spot_test_record", args=[spot_test.key]))
    window.get_by_label("Whose answers are these?").fill(person.user.email)
    window.get_by_label("Its name, common or scientific").fill("hemlock")
    window.get_by_label("No, I would not").check()
    window.get_by_label("Sure: 19 in 20", exact=True).check()
    window.get_by_role("button", name="Record").click()
    window.get_by_text("Choose one of the two").wait_for()
    assert not Evidence.objects.exists()
    window.get_by_label("A document with a photograph was shown").check()
    window.get_by_role("button", name="Record").click()
    window.get_by_text("Recorded.").wait_for()
    assert IdentityCheck.objects.get().how == "document"
    assert Evidence.objects.get().decision == "refuse"
