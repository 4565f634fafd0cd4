"""A small standard of one pair, a bank for it, and a paper that the participant may sit."""

from datetime import timedelta

import pytest
from django.utils import timezone

from assessments.actions.papers import PaperPlan, set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Paper, Sitting, Standard
from courses.models import Person
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species

from .evidence import a_full_record, open_windows

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
