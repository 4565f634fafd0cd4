"""What is taught at a meeting and what of it shows on that day at that place."""

from datetime import UTC, datetime, timedelta

import pytest
from django.urls import reverse

from courses.models import Course, Meeting
from courses.queries.plan import plan_of
from species.models import Module, ModulePair, ModuleSpecies, Showing
from tests.courses.pages import same_queries
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.species import LocalityFactory, PairFactory, make_species

MAY = datetime(2026, 5, 14, 9, tzinfo=UTC)


@pytest.fixture
def module(db: None) -> Module:
    """A pair of which the gathered plant shows leaves in April and May, the mistaken one in June alone."""
    module = Module.objects.create(key="umbels", title="Umbels")
    gathered, mistaken = make_species("cow parsley"), make_species("hemlock", deadly=True)
    Showing.objects.create(species=gathered, stage="leafy", months=[4, 5])
    Showing.objects.create(species=mistaken, stage="flower", months=[6])
    Showing.objects.create(species=mistaken, stage="dormant", months=[5])
    pair = PairFactory(gathered=gathered, mistaken=mistaken)
    ModulePair.objects.create(module=module, pair=pair)
    for species in (gathered, make_species("sea beet")):
        ModuleSpecies.objects.create(module=module, species=species)
    return module


def meeting_of(module: Module, course: Course | None = None, days_late: int = 0) -> Meeting:
    site = SiteFactory(locality=LocalityFactory(days_late=days_late))
    meeting = make_meeting(course, starts_at=MAY, ends_at=MAY + timedelta(hours=3), site=site)
    meeting.modules.add(module, through_defaults={"order": 1})
    return meeting


def test_each_side_of_a_pair_says_what_shows(module: Module) -> None:
    pair = plan_of(meeting_of(module))[0].pairs[0]
    assert (pair.gathered.stages, pair.mistaken.stages) == (("leafy",), ())
    assert not pair.both_show


def test_what_does_not_show_says_when_it_will_and_a_resting_root_shows_nothing(module: Module) -> None:
    mistaken = plan_of(meeting_of(module))[0].pairs[0].mistaken
    assert mistaken.next_on is not None
    assert (mistaken.next_on.month, mistaken.next_on.day) == (6, 1)


def test_a_late_place_is_behind_the_region(module: Module) -> None:
    early, late = plan_of(meeting_of(module, days_late=-20))[0], plan_of(meeting_of(module, days_late=60))[0]
    assert early.pairs[0].mistaken.stages == ("flower",)
    assert late.pairs[0].gathered.stages == ()


def test_a_species_of_a_pair_is_not_listed_twice(module: Module) -> None:
    assert [each.species.common_name for each in plan_of(meeting_of(module))[0].species] == ["sea beet"]


def test_the_page_words_it(signed_in, participant, course: Course, module: Module) -> None:
    page = signed_in(participant).get(reverse("courses:meeting", args=[meeting_of(module, course).key]))
    assert "leafy stem" in page.content.decode()
    assert "nothing shows; again from June" in page.content.decode()


def test_the_page_takes_as_many_queries_however_many_pairs(signed_in, participant, course, module) -> None:
    meeting = meeting_of(module, course)

    def grow() -> None:
        for number in range(3):
            more = Module.objects.create(key=f"more-{number}", title="More")
            ModulePair.objects.create(module=more, pair=PairFactory())
            ModuleSpecies.objects.create(module=more, species=make_species(f"plant {number}"))
            meeting.modules.add(more, through_defaults={"order": number + 2})

    assert same_queries(signed_in(participant), reverse("courses:meeting", args=[meeting.key]), grow)
