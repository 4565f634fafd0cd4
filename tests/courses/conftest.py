"""A small standard of one pair, and people who have passed it or not."""

from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from assessments.models import Standard
from courses.models import Application, Course, Meeting, Person, Site, SiteRecord
from species.models import Pair, Showing
from tests.factories.assessments import make_standard
from tests.factories.certificates import give_pass, make_application
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.people import make_person
from tests.factories.species import PairFactory, make_species


@pytest.fixture
def pair(school) -> Pair:
    return PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))


@pytest.fixture
def standard(pair: Pair) -> Standard:
    return make_standard(pair)


@pytest.fixture
def setter(school) -> Person:
    """Sets papers, and teaches nobody."""
    return make_person("Sera Setter", "tutor")


@pytest.fixture
def application(participant: Person, standard: Standard) -> Application:
    """An application without any evidence behind it."""
    return make_application(participant, standard)


@pytest.fixture
def passed(
    application: Application, pair: Pair, setter: Person, assessor: Person, organiser: Person, course: Course
) -> Application:
    """An application with a pass behind it, three days old: papers by the setter, live checks by the assessor."""
    give_pass(application.person, application.standard, pair, set_by=setter, checked_by=assessor)
    return application


@pytest.fixture
def old_pass(stranger: Person, pair: Pair, setter: Person, assessor: Person, organiser: Person) -> Application:
    """An application on a pass that is 400 days old, under a standard whose certificates last a year."""
    leader = make_standard(pair, key="leader", name="Leader", leads_walks=True, valid_months=12)
    at = timezone.now() - timedelta(days=400)
    give_pass(stranger, leader, pair, set_by=setter, checked_by=assessor, at=at)
    return make_application(stranger, leader)


@pytest.fixture
def sends_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What waits for the end of a transaction runs at once, since the one around a test never ends."""
    monkeypatch.setattr(transaction, "on_commit", lambda run, **_options: run())


@pytest.fixture
def site(tutor: Person) -> Site:
    """A site at which the dangerous plant of a pair grows, in flower whenever the walk is."""
    deadly = make_species("badleaf", deadly=True)
    good = make_species("goodleaf")
    PairFactory(gathered=good, mistaken=deadly)
    for plant in (deadly, good):
        Showing.objects.create(species=plant, stage="flower", months=list(range(1, 13)))
    made = SiteFactory(region="North", group_size=10)
    SiteRecord.objects.create(site=made, species=deadly, stage="flower", seen_on=timezone.localdate(), seen_by=tutor)
    return made


@pytest.fixture
def walk(course: Course, site: Site) -> Meeting:
    """A walk there in twenty days, without a leader."""
    return make_meeting(course, days_ahead=20, site=site)
