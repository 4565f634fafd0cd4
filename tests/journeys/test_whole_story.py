"""The whole story on a small standard with the real rule: sign in, sit, be refused, go on, be certified."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.core.management import call_command
from django.utils import timezone
from playwright.sync_api import expect
from pypdf import PdfReader

from assessments.actions.handing_in import show_result
from assessments.actions.papers import set_paper
from assessments.actions.sittings import Given, open_sitting, save_answer
from assessments.actions.standards import make_standard, put_to_use
from assessments.models import Evidence, Paper, Standard
from assessments.queries.paper_plan import PaperPlan
from assessments.rules.standard import PARTICIPANT
from courses.models import Certificate, Person
from species.models import Pair, Species
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture
from tests.journeys.test_signing_in import sign_in_by_code
from tests.journeys.watching import PHONE, WatchedPage

ARUM, SORREL, RAMSONS = "arum-maculatum", "rumex-acetosa", "allium-ursinum"
BANK = {ARUM: ("rosette", "flower"), SORREL: ("rosette",), RAMSONS: ("rosette",)}
PER_STAGE, QUESTIONS = 22, 6


@pytest.fixture
def standard(organiser: Person) -> Standard:
    """Lords-and-ladies among sorrel and ramsons, with the numbers of the participant standard."""
    call_command("load_flora", verbosity=0)
    pairs = list(Pair.objects.filter(key__in=["sorrel-arum", "ramsons-arum"]).with_both_species())
    made = make_standard("small", "Small", PARTICIPANT, pairs, by=organiser.user, purpose="To try.", reasons="To try.")
    return put_to_use(made, timezone.localdate())


@pytest.fixture
def bank(standard: Standard) -> None:
    for key, stages in BANK.items():
        species = Species.objects.get(key=key)
        for number in range(PER_STAGE * len(stages)):
            specimen = SpecimenFactory(species=species, stage=stages[number % len(stages)])
            give_picture(specimen)


def set_for(person: Person, tutor: Person, standard: Standard, number: int) -> Paper:
    now = timezone.now() - timedelta(minutes=1)
    pairs = [row.pair for row in standard.pairs.select_related("pair")]
    plan = PaperPlan(f"Paper {number}", standard, pairs, QUESTIONS, now, each_stage=False)
    return set_paper(plan, [person.user], tutor.user, number, now)


def right_answer(species: Species) -> Given:
    decision = "refuse" if species.key == ARUM else "gather"
    return Given(decision, "sure", species.name, species.pk)


def sit_without_a_miss(person: Person, paper: Paper) -> None:
    now = timezone.now()
    sitting = open_sitting(paper.seats.get(person=person.user), now)
    for question in sitting.questions.select_related("specimen__species"):
        save_answer(question, right_answer(question.specimen.species), now)
    sitting.handed_in_at = now
    sitting.save(update_fields=["handed_in_at"])
    show_result(sitting, now)


def answer_in_the_browser(window: WatchedPage, paper: Paper) -> None:
    """As a person does it: the name typed, one of three answers, how sure; then on."""
    questions = {
        q.position: q.specimen.species for q in paper.seats.get().sitting.questions.select_related("specimen__species")
    }
    for position in range(1, QUESTIONS + 1):
        expect(window.get_by_role("heading", name=f"Question {position} of {QUESTIONS}")).to_be_visible()
        window.get_by_label("Its name, common or scientific").fill(questions[position].name)
        word = "No, I would not" if questions[position].key == ARUM else "Gather it"
        window.get_by_text(word, exact=True).click()
        window.get_by_text("Sure: 19 in 20").click()
        window.get_by_role("button", name="Save and").click()


def test_from_the_first_test_to_the_certificate(
    open_window, participant, tutor, organiser, assessor, standard, bank, settings
):
    paper = set_for(participant, tutor, standard, 1)
    phone = open_window(PHONE)
    sign_in_by_code(phone, participant)
    phone.visit("/tests/")
    phone.get_by_role("link", name="Paper 1").click()
    phone.get_by_role("button", name="Open the test").click()
    phone.get_by_role("heading", name="Question 1 of").wait_for()
    phone.assert_fits()
    answer_in_the_browser(phone, paper)
    expect(phone.get_by_text(f"{QUESTIONS} of {QUESTIONS} answered and saved.")).to_be_visible()
    phone.get_by_role("button", name="Hand in").click()
    phone.get_by_role("button", name="Show me now").wait_for()
    assert not Evidence.objects.exists()
    phone.get_by_role("button", name="Show me now").click()
    expect(phone.get_by_role("heading", name="How it came out")).to_be_visible()
    phone.assert_fits()
    phone.assert_accessible()
    assert Evidence.objects.filter(person=participant.user).count() == QUESTIONS

    phone.visit("/certificates/mine/")
    expect(phone.locator(".gap-list").first).to_contain_text("lords-and-ladies")
    expect(phone.get_by_role("button", name="Apply")).to_have_count(0)

    for number in range(2, 8):
        sit_without_a_miss(participant, set_for(participant, tutor, standard, number))
    arum = Species.objects.get(key=ARUM)
    for _each in range(3):
        specimen = SpecimenFactory(species=arum, stage="rosette")
        make_live_evidence(participant.user, specimen, "refuse", by=tutor.user)
    phone.visit("/certificates/mine/")
    phone.get_by_role("checkbox", name="The answers were my own").check()
    phone.get_by_role("checkbox", name="I will claim only what").check()
    phone.get_by_role("button", name="Apply").click()
    expect(phone.get_by_text("an organiser will decide").first).to_be_visible()

    desk = open_window()
    sign_in_by_code(desk, organiser)
    desk.visit("/certificates/")
    desk.assert_accessible()
    desk.get_by_role("link", name="Look at it and decide").click()
    desk.get_by_role("button", name="Issue the certificate").click()
    expect(desk.get_by_role("heading", name="Certificate of identification")).to_be_visible()
    certificate = Certificate.objects.get()
    page_words = desk.locator("article.sheet").inner_text()
    paper_bytes = desk.context.request.get(f"{desk.page.url}paper.pdf").body()
    paper_words = " ".join(PdfReader(BytesIO(paper_bytes)).pages[0].extract_text().split())
    for pair in certificate.facts["pairs"]:
        assert pair["mistaken"]["common"] in paper_words
    for sentence in (participant.name, certificate.number, organiser.name, "at most a 10 % chance"):
        assert sentence in page_words + certificate.number
        assert sentence in paper_words

    stranger = open_window(PHONE)
    stranger.visit(f"/check/{certificate.key}/")
    expect(stranger.get_by_role("heading", name="Current")).to_be_visible()
    expect(stranger.get_by_text(participant.name)).to_have_count(0)
    stranger.assert_fits()
    stranger.assert_accessible()
