"""Spot tests of the past: live plants, each in a stage that showed on that day."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from random import Random

from django.contrib.auth.models import User

from assessments.models import Evidence, Seen, SpotTest, Station
from assessments.rules.evidence import Medium
from courses.actions.demo.history import Learner, Truth
from courses.actions.demo.planting import Kind
from courses.models import Site
from species.models import Determination, Individual, Species, Specimen
from species.rules.season import stages_showing
from species.rules.vocabulary import Settlement, Use

EDIBLE_STATIONS = 4
Skips = Callable[[Learner, str, date], bool]


def showing_kinds(kinds: dict[str, Kind], day: date) -> dict[str, list[str]]:
    """The kinds that show on a day, each with its stages then."""
    found = {}
    for key, kind in kinds.items():
        stages = [stage.value for stage in stages_showing(kind.calendar, day) if stage.value in kind.stages]
        if stages:
            found[key] = stages
    return found


def hold_spot_test(
    title: str, held_at: datetime, site: Site, kinds: tuple[dict[str, Kind], dict[str, Kind]], per_species: int,
    staff: tuple[User, User], random: Random,
) -> SpotTest:
    """One spot test with its stations, its key checked by a second person."""
    test = SpotTest.objects.create(
        title=title, locality_id=site.locality_id, held_at=held_at, set_by=staff[0], key_checked_by=staff[1],
        key_checked_at=held_at, closed_at=held_at + timedelta(hours=2),
    )
    dangerous, edible = (showing_kinds(side, held_at.date()) for side in kinds)
    few = random.sample(sorted(edible), min(EDIBLE_STATIONS, len(edible)))
    wanted = [(k, random.choice(s)) for k, s in dangerous.items() for _ in range(per_species)]
    wanted += [(key, random.choice(edible[key])) for key in few]
    random.shuffle(wanted)
    for number, (key, stage) in enumerate(wanted, start=1):
        specimen = _live_specimen(key, stage, site, held_at, staff)
        Station.objects.create(spot_test=test, number=number, specimen=specimen)
    return test


def _live_specimen(key: str, stage: str, site: Site, held_at: datetime, staff: tuple[User, User]) -> Specimen:
    species = Species.objects.get(key=key)
    plant = Individual.objects.create(locality_id=site.locality_id, label=f"live, {held_at:%Y-%m-%d}")
    specimen = Specimen.objects.create(
        individual=plant, seen_on=held_at.date(), stage=stage, use=Use.ASSESSMENT.value, added_by=staff[0],
        added_at=held_at, species=species, settlement=Settlement.CONFIRMED.value, retired_on=held_at.date(),
        retired_why="live, on that day only",
    )
    Determination.objects.bulk_create(
        Determination(specimen=specimen, determiner=user, species=species, said=species.name,
                      characters="the living plant", determined_at=held_at)
        for user in staff
    )
    return specimen


def walk_stations(
    test: SpotTest, learners: Sequence[Learner], truth: Truth, recorder: User, skips: Skips
) -> None:
    """Everybody answers at every station, but for those that the story withholds."""
    stations = list(test.stations.select_related("specimen__species"))
    day = test.held_at.date()
    rows, seen = [], []
    for learner in learners:
        for station in stations:
            species = station.specimen.species
            if species is None or skips(learner, species.key, day):
                continue
            given = truth.answer_of(learner, species.key)
            named = truth.named(given)
            rows.append(Evidence(
                person=learner.user, specimen=station.specimen, station=station, medium=Medium.LIVE.value,
                decision=given.decision.value, named=named, said=named.common_name if named else "",
                confidence=given.confidence.value, opened_at=test.held_at, position=station.number,
                shown_at=test.held_at, recorded_at=test.held_at + timedelta(hours=2), recorded_by=recorder,
            ))
            seen.append(Seen(person=learner.user, specimen=station.specimen, seen_at=test.held_at, why=Seen.STATION))
    Evidence.objects.bulk_create(rows)
    Seen.objects.bulk_create(seen, ignore_conflicts=True)
