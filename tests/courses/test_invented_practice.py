"""The invented school: what its people have practised, and frames on its drawings where a plant is told."""

from datetime import UTC, datetime

import pytest
from django.core.management import call_command

from assessments.models import Evidence, PracticeState
from assessments.queries.practice import pairs_in_practice, pairs_named
from courses.actions.demo.cast import Company
from courses.actions.demo.drawing import shown_on
from courses.actions.demo.marking import Marker
from courses.actions.demo.school import invent_school
from courses.queries.practice import pairs_taught_to
from species.documents.plates.catalogue import draw_plate
from species.models import PairCharacter, Region, Species
from tests.factories.species import SpecimenFactory, give_picture

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 5, 15, 12, tzinfo=UTC)


def test_people_of_the_running_course_know_some_pairs_fresh_some_fading_and_some_not_yet() -> None:
    call_command("load_flora", verbosity=0)
    story = invent_school(NOW, pictures=False)
    words = set()
    for _part, person in story.company(Company.RUNNING):
        taught = pairs_named(pairs_taught_to(person, NOW))
        words |= {line.state for line in pairs_in_practice(person.user, taught, NOW)}
    assert words == {"new", "fresh", "fading"}
    assert PracticeState.objects.filter(last_at__gt=NOW).count() == 0
    assert not Evidence.objects.filter(specimen__use="teaching").exists()


def test_a_drawing_is_framed_where_it_differs_from_its_doubles_and_nowhere_else(school) -> None:
    call_command("load_flora", verbosity=0)
    hemlock = Species.objects.get(key="conium-maculatum")
    photo = give_picture(SpecimenFactory(species=hemlock, stage="rosette"))
    Marker(NOW).mark(photo, shown_on(draw_plate(hemlock.key, "rosette", 3)))
    framed = set(Region.objects.filter(photo=photo).values_list("character__key", flat=True))
    rows = PairCharacter.objects.filter(pair__mistaken=hemlock) | PairCharacter.objects.filter(pair__gathered=hemlock)
    assert framed
    assert framed <= set(rows.values_list("character__key", flat=True))
    assert all(each.state is not None for each in Region.objects.select_related("state"))
