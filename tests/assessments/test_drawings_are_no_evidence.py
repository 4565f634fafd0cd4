"""A drawing never counts as evidence outside the invented school, whatever was answered to it."""

import os
import subprocess
import sys

import pytest
from django.conf import settings as settings_of_the_house

from assessments.queries.bank import specimens_for_tests
from assessments.queries.evidence import answers_of
from assessments.queries.standards import standard_facts
from assessments.rules.treatment import Reason, set_aside
from species.models import Species, Specimen
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture

from .evidence import PaperTrail

pytestmark = pytest.mark.django_db
SEED = 7


def drawing_of(species: Species) -> Specimen:
    specimen = SpecimenFactory(species=species, drawing_seed=SEED)
    give_picture(specimen)
    return specimen


@pytest.fixture
def answers(participant, standard, pair, assessor):
    """Refused in a paper and on a walk: one drawing each, and one photograph."""
    trail = PaperTrail(participant.user, standard, assessor.user)
    trail.answer(pair.mistaken, "refuse", specimen=drawing_of(pair.mistaken))
    trail.answer(pair.mistaken, "refuse")
    make_live_evidence(participant.user, drawing_of(pair.mistaken), "refuse", by=assessor.user)
    return participant.user


def reasons(person, standard) -> list[Reason | None]:
    return [set_aside(answer, standard_facts(standard)) for answer in answers_of([person.pk])[person.pk]]


def test_answers_to_drawings_are_set_aside_in_every_medium(settings, answers, standard):
    settings.DRAWINGS_COUNT = False
    found = reasons(answers, standard)
    assert sorted(found, key=str) == sorted([Reason.DRAWING, None, Reason.DRAWING], key=str)


def test_the_invented_school_alone_counts_them(settings, answers, standard):
    settings.DRAWINGS_COUNT = True
    assert reasons(answers, standard) == [None, None, None]


@pytest.mark.parametrize(("demo", "counts"), [({}, "False"), ({"KENSPECKLE_DEMO": "yes"}, "True")])
def test_only_the_settings_of_the_invented_school_let_them_count(tmp_path, demo, counts):
    script = "from courses.config import settings; print(settings.DRAWINGS_COUNT)"
    kept = {name: value for name, value in os.environ.items() if not name.startswith("KENSPECKLE_")}
    place = {"KENSPECKLE_VAR": str(tmp_path)}
    said = subprocess.run(
        [sys.executable, "-c", script],
        cwd=settings_of_the_house.BASE_DIR,
        env={**kept, **place, **demo},
        capture_output=True,
        text=True,
        check=True,
    )
    assert said.stdout.strip() == counts


def test_no_paper_outside_the_invented_school_is_set_from_drawings(settings, pair):
    drawn, photographed = drawing_of(pair.mistaken), SpecimenFactory(species=pair.mistaken)
    give_picture(photographed)
    settings.DRAWINGS_COUNT = False
    assert set(specimens_for_tests()) == {photographed}
    settings.DRAWINGS_COUNT = True
    assert set(specimens_for_tests()) == {drawn, photographed}
