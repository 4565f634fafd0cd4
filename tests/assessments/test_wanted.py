"""The wanted list from the database: what counts, for whom, and what papers can be set once all of it is there."""

from datetime import timedelta

import pytest
from django.utils import timezone

from assessments.actions.papers import BankTooSmall, set_paper
from assessments.models import Seen
from assessments.queries.paper_plan import PaperPlan
from species.models import Individual
from species.rules.vocabulary import Settlement
from tests.factories.assessments import make_standard
from tests.factories.species import LocalityFactory, SpecimenFactory, determine

from .wanted_bank import APRIL, add, asked, rosettes_in_april


@pytest.fixture
def standard(pair):
    return make_standard(pair, required_stages=("rosette",))


@pytest.fixture
def seasons(pair):
    rosettes_in_april(pair)


def lines_of(page):
    return {(line.plant.common_name, line.stage): line for line in page.lines}


def test_an_empty_bank_lacks_the_whole_paper_dangerous_plants_first(standard, seasons):
    page = asked(standard)
    assert page.short == 5
    assert [line.is_dangerous for line in page.lines] == sorted(
        (line.is_dangerous for line in page.lines), reverse=True
    )
    assert page.lines[0].shows_now
    assert [line.stage for line in page.for_later] == ["flower"]


def test_a_bank_that_can_fill_the_papers_lacks_nothing(standard, bank):
    assert asked(standard, papers=2).is_enough


def test_what_lacks_a_second_name_is_told_apart_from_what_has_to_be_photographed(standard, pair, seasons):
    add(pair.gathered, 6)
    add(pair.mistaken, 1, settlement=Settlement.SINGLE.value)
    line = lines_of(asked(standard))["badleaf", "rosette"]
    assert (line.to_name, line.to_settle, line.to_photograph, line.in_bank) == (1, 0, 1, 0)


def test_a_disputed_specimen_counts_for_what_somebody_said_it_is(standard, pair, seasons, tutor, assessor):
    add(pair.gathered, 6)
    (specimen,) = add(None, settlement=Settlement.DISPUTED.value)
    determine(specimen, pair.mistaken, tutor.user)
    determine(specimen, pair.gathered, assessor.user)
    line = lines_of(asked(standard))["badleaf", "rosette"]
    assert (line.to_settle, line.to_photograph) == (1, 1)


def test_specimens_without_any_name_are_counted(standard):
    add(None, 2, settlement=Settlement.UNDETERMINED.value)
    assert asked(standard).not_named == 2


def test_what_one_of_the_people_has_seen_counts_for_nobody(standard, bank, pair, participant):
    for specimen in pair.mistaken.specimens.all():
        Seen.objects.create(person=participant.user, specimen=specimen, seen_at=timezone.now(), why=Seen.QUESTION)
    assert asked(standard).is_enough
    page = asked(standard, people=(participant.user_id,))
    assert [line.plant.common_name for line in page.lines] == ["badleaf"]


def test_retired_and_teaching_specimens_fill_no_paper(standard, pair):
    add(pair.gathered, 6)
    add(pair.mistaken, 3, use="teaching")
    add(pair.mistaken, 3, retired_on=APRIL)
    assert not asked(standard).is_enough


def test_places_of_the_stage_come_before_other_places_of_the_species(standard, pair, seasons):
    for name, stage, days_late in (("Alder Wood", "flower", 0), ("Beck", "rosette", 0), ("Cold Hill", "rosette", 60)):
        plant = Individual.objects.create(locality=LocalityFactory(name=name, days_late=days_late))
        SpecimenFactory(species=pair.mistaken, stage=stage, individual=plant, use="teaching")
    places = lines_of(asked(standard))["badleaf", "rosette"].places
    assert [(place.name, place.in_this_stage, place.shows_now) for place in places] == [
        ("Beck", True, True),
        ("Cold Hill", True, False),
        ("Alder Wood", False, True),
    ]


def test_a_stage_that_the_standard_never_counts_is_said_to_need_another_version(pair):
    standard = make_standard(pair, in_use=False)
    standard.pairs.update(edible_stages=[])
    page = asked(standard)
    assert [plant.common_name for plant in page.never] == ["goodleaf"]
    assert not page.is_enough


def test_too_few_questions_for_every_stage_are_said_to_be_too_few(standard):
    assert not asked(standard, questions=1).asks_all
    assert asked(standard).asks_all


def test_a_standard_without_pairs_asks_for_nothing(school):
    page = asked(make_standard())
    assert not page.has_pairs
    assert not page.is_enough


def test_with_all_that_is_listed_a_paper_can_be_set(standard, pair, tutor, participant, stranger):
    def set_one():
        opens = timezone.now() + timedelta(days=1)
        people = [participant.user, stranger.user]
        return set_paper(PaperPlan("A paper", standard, [pair], 10, opens), people, tutor.user, 7, timezone.now())

    add(pair.mistaken, 2, settlement=Settlement.SINGLE.value)
    with pytest.raises(BankTooSmall):
        set_one()
    plants = {each.common_names.get().name: each for each in (pair.gathered, pair.mistaken)}
    for line in asked(standard, papers=2, questions=10).lines:
        add(plants[line.plant.common_name], line.to_photograph, stage=line.stage)
    pair.mistaken.specimens.update(settlement=Settlement.CONFIRMED.value)
    assert asked(standard, papers=2, questions=10).is_enough
    assert set_one().seats.count() == 2
