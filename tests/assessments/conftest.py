"""A small standard of one pair, a bank for it, and a paper that the participant may sit."""

from datetime import timedelta

import pytest
from django.utils import timezone

from assessments.actions.papers import set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Evidence, Paper, Sitting, Standard
from assessments.queries.paper_plan import PaperPlan
from courses.models import Person
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.people import make_person
from tests.factories.species import PairFactory, SpecimenFactory, determine, give_picture, make_species

from .evidence import PaperTrail, a_full_record, open_windows

QUESTIONS = 4


@pytest.fixture
def pair(school) -> Pair:
    gathered, mistaken = make_species("goodleaf"), make_species("badleaf", deadly=True)
    return PairFactory(gathered=gathered, mistaken=mistaken)


@pytest.fixture
def standard(pair: Pair) -> Standard:
    return make_standard(pair)


@pytest.fixture
def bank(pair: Pair) -> None:
    for species in (pair.gathered, pair.mistaken):
        for _each in range(6):
            give_picture(SpecimenFactory(species=species))


@pytest.fixture
def paper(standard: Standard, bank: None, participant: Person, tutor: Person, pair: Pair) -> Paper:
    now = timezone.now() - timedelta(minutes=5)
    plan = PaperPlan("A paper", standard, [pair], QUESTIONS, now, now + timedelta(days=1), each_stage=False)
    return set_paper(plan, [participant.user], tutor.user, 7, now)


@pytest.fixture
def sitting(paper: Paper) -> Sitting:
    return open_sitting(paper.seats.get(), timezone.now())


@pytest.fixture
def record(participant: Person, standard: Standard, pair: Pair, tutor: Person) -> None:
    """Two windows, and everything that can happen to an answer."""
    open_windows(participant.user, 0, 30)
    a_full_record(participant.user, standard, pair, tutor.user)


@pytest.fixture
def miss(participant, standard, pair, tutor, organiser, assessor) -> Evidence:
    """The participant gathered the dangerous plant, which the tutor and a second person had named."""
    open_windows(participant.user)
    trail = PaperTrail(participant.user, standard, tutor.user)
    row = trail.answer(pair.mistaken, "gather", named=pair.gathered)
    row.sitting.result_shown_at = timezone.now()
    row.sitting.save()
    for person in (tutor, make_person("Sev Second", "tutor")):
        determine(row.specimen, pair.mistaken, person.user)
    return row


@pytest.fixture
def refused(stranger, standard, pair, tutor, miss) -> Evidence:
    """Somebody else refused the very same plant."""
    open_windows(stranger.user)
    return PaperTrail(stranger.user, standard, tutor.user, 2).answer(pair.mistaken, "refuse", specimen=miss.specimen)
