"""The invented school: the same story on every day of the year, and a rule that agrees with what is true."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from random import Random

import pytest
from django.contrib.auth.models import User
from django.core.management import call_command
from django.test import override_settings

from assessments.models import Evidence, IdentityCheck
from assessments.queries.competence import plants_beyond
from assessments.queries.standings import standings_of
from assessments.rules.standard import Side
from courses.actions.demo import school
from courses.actions.demo.bank import Stock
from courses.actions.demo.cast import EVERYBODY, Company
from courses.actions.demo.drawing import Commission, Finished
from courses.actions.demo.planting import PER_PLACE_AND_DAY, Kind, plan_specimens
from courses.actions.demo.school import NotTheDemo, Story, invent_school, is_whole
from courses.actions.demo.teaching import calendars, teachables
from courses.models import (
    Certificate,
    Course,
    Enquiry,
    Incident,
    JoiningForm,
    Meeting,
    School,
    SiteRecord,
    SiteReview,
)
from courses.rules.programme import fit_of
from courses.rules.risk import changes_between
from species.documents.cameras import CameraFacts
from species.documents.pictures import Picture
from species.models import Specimen
from species.rules.season import stages_showing
from species.rules.vocabulary import Stage, Use

pytestmark = pytest.mark.django_db
MONTHS = range(1, 13)


def invented_in(month: int, pictures: bool = False) -> Story:
    call_command("load_flora", verbosity=0)
    return invent_school(datetime(2026, month, 15, 12, tzinfo=UTC), pictures=pictures)


@pytest.mark.parametrize("month", MONTHS)
def test_the_story_holds_in_every_month(month: int) -> None:
    story = invented_in(month)
    assert Certificate.objects.count() == 4
    assert Meeting.objects.coming(story.now).walks().without_leader().count() == 1
    assert Specimen.objects.disputed().count() == 1
    assessor = story.person("assessor").user
    assert Specimen.objects.waiting_for_determination_by(assessor.pk).count() >= Stock().waiting_for_a_name
    plan_follows_the_season(story)
    nobody_at_the_limit_is_passed(story)
    nearly_there(story)
    live_evidence_is_confirmed_by_who_may(story)
    something_goes_on_around_the_courses(story)


def plan_follows_the_season(story: Story) -> None:
    known, shown_when = {each.key: each for each in teachables()}, calendars()
    for meeting in story.courses["running"].meetings.prefetch_related("modules"):
        for module in meeting.modules.all():
            fit = fit_of(known[module.key], shown_when, meeting.starts_at.date())
            assert fit.showing, f"nothing of {module} shows on {meeting.starts_at:%d %B}"
    for test in Specimen.objects.filter(stations__isnull=False).select_related("species"):
        assert Stage(test.stage) in stages_showing(shown_when[test.species.key], test.seen_on)


def nobody_at_the_limit_is_passed(story: Story) -> None:
    learners = [
        (part, person)
        for company in (Company.LEADERS, Company.ENDED, Company.RUNNING)
        for part, person in story.company(company)
    ]
    for standard in story.standards.values():
        found = standings_of([person.user_id for _, person in learners], standard, story.now)
        for part, person in learners:
            for ledger in found[person.user_id].dangerous:
                true_rate = part.rates.miss_rate(ledger.species)
                if true_rate >= float(standard.miss_limit):
                    assert not ledger.passed, f"{part.name} passes {ledger.species} at {true_rate}"


def live_evidence_is_confirmed_by_who_may(story: Story) -> None:
    live = Evidence.objects.filter(station__isnull=False)
    who = live.order_by().values_list("recorded_by", "station__spot_test__held_at").distinct()
    assert who
    assert all(not plants_beyond(User.objects.get(pk=user), held_at) for user, held_at in who)
    recognised = IdentityCheck.objects.values_list("spot_test", "person")
    assert set(live.order_by().values_list("station__spot_test", "person")) <= set(recognised)


def nearly_there(story: Story) -> None:
    part, person = next(p for p in story.company(Company.ENDED) if p[0].story == "nearly there")
    standing = standings_of([person.user_id], story.standards["participant"], story.now)[person.user_id]
    assert [gap.still_needed for gap in standing.gaps] == [1], part.name
    assert standing.ledger(standing.gaps[0].species, Side.DANGEROUS).passed


def something_goes_on_around_the_courses(story: Story) -> None:
    assert [course.key for course in Course.objects.filter(is_public=True)] == ["first-leaves"]
    assert Enquiry.objects.unanswered().count() == 2
    assert JoiningForm.objects.filter(erased_at__isnull=True).count() == 2
    (incident,) = Incident.objects.all()
    assert incident.pair in {pair for module in incident.meeting.modules.all() for pair in module.pairs.all()}
    before, now = SiteReview.objects.order_by("reviewed_on")
    assert changes_between(before.headings, now.headings)
    shows = calendars()
    for record in SiteRecord.objects.select_related("species"):
        assert Stage(record.stage) in stages_showing(shows[record.species.key], record.seen_on)


def test_the_same_day_gives_the_same_school() -> None:
    first = [(s.seen_on, s.drawing_seed) for s in invented_specimens()]
    call_command("flush", interactive=False, verbosity=0)
    assert [(s.seen_on, s.drawing_seed) for s in invented_specimens()] == first


def invented_specimens() -> list[Specimen]:
    invented_in(5)
    return list(Specimen.objects.drawn().order_by("pk"))


def test_every_species_has_enough_specimens_and_the_cap_is_obeyed() -> None:
    kind = Kind("x", {Stage.ROSETTE: frozenset(range(1, 13))}, ("rosette",))
    day = datetime(2026, 5, 1, tzinfo=UTC).date()
    plan = plan_specimens(kind, 2 * PER_PLACE_AND_DAY, Use.ASSESSMENT, (day, day), 2, Random(1))
    assert sorted(planned.place for planned in plan) == [0, 0, 1, 1]
    assert (Stock().dangerous, Stock().edible) >= (30, 15)


def test_a_bank_that_cannot_obey_the_cap_is_refused() -> None:
    kind = Kind("x", {Stage.ROSETTE: frozenset({5})}, ("rosette",))
    day = datetime(2026, 5, 1, tzinfo=UTC).date()
    with pytest.raises(StopIteration):
        plan_specimens(kind, 3, Use.ASSESSMENT, (day, day), 1, Random(1))


@override_settings(DEMO=False)
def test_a_real_site_invents_nothing() -> None:
    with pytest.raises(NotTheDemo):
        invent_school(datetime(2026, 5, 1, tzinfo=UTC))
    assert not School.objects.exists()


def test_without_its_pictures_the_school_is_not_whole() -> None:
    invented_in(5)
    assert not is_whole()


def test_nobody_of_the_cast_can_be_written_to() -> None:
    assert all(part.email.endswith(".invalid") for part in EVERYBODY)
    assert len({part.email for part in EVERYBODY}) == len(EVERYBODY)


def test_every_specimen_gets_its_picture_the_disputed_one_too_and_a_second_start_finds_the_school_whole(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[Commission] = []

    @contextmanager
    def pretend(commissions: list[Commission]) -> Iterator[Iterator[Finished]]:
        asked.extend(commissions)
        yield (
            Finished(each.specimen, Picture(f"{each.specimen:064x}", 10, 10, "", CameraFacts(), ()), "", "")
            for each in asked
        )

    monkeypatch.setattr(school, "drawing", pretend)
    invented_in(5, pictures=True)
    assert is_whole()
    disputed = Specimen.objects.disputed().get()
    assert next(each.species for each in asked if each.specimen == disputed.pk) == "conium-maculatum"
