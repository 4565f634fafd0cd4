"""Spot tests of the past: live plants, each in a stage that showed on that day."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from random import Random

from django.contrib.auth.models import User

from assessments.models import Evidence, IdentityCheck, Seen, SpotTest, Station
from assessments.rules.evidence import Medium
from courses.actions.demo.history import Learner, Truth
from courses.actions.demo.planting import Kind
from courses.models import Site
from species.models import Determination, Individual, Species, Specimen
from species.rules.season import stages_showing
from species.rules.vocabulary import Settlement, Stage, Use

EDIBLE_STATIONS = 4
NOT_AT_A_STATION = (Stage.SEEDLING, Stage.DORMANT)
Skips = Callable[[Learner, str, date], bool]


def showing_kinds(kinds: dict[str, Kind], day: date) -> dict[str, list[str]]:
    """The kinds that can be met above ground on a day, each with its stages then."""
    found = {}
    for key, kind in kinds.items():
        stages = [stage.value for stage in stages_showing(kind.calendar, day) if stage not in NOT_AT_A_STATION]
        if stages:
            found[key] = stages
    return found


def hold_spot_test(
    title: str,
    held_at: datetime,
    site: Site,
    kinds: tuple[dict[str, Kind], dict[str, Kind]],
    per_species: int,
    staff: tuple[User, User],
    random: Random,
) -> SpotTest:
    """One spot test with its stations, its key checked by a second person."""
    test = SpotTest.objects.create(
        title=title,
        locality_id=site.locality_id,
        held_at=held_at,
        set_by=staff[0],
        key_checked_by=staff[1],
        key_checked_at=held_at,
        closed_at=held_at + timedelta(hours=2),
    )
    dangerous, edible = (showing_kinds(side, held_at.date()) for side in kinds)
    few = random.sample(sorted(edible), min(EDIBLE_STATIONS, len(edible)))
    wanted = [(k, random.choice(s)) for k, s in dangerous.items() for _ in range(per_species)]
    wanted += [(key, random.choice(edible[key])) for key in few]
    random.shuffle(wanted)
    specimens = _live_specimens(wanted, site, held_at, staff)
    Station.objects.bulk_create(
        Station(spot_test=test, number=number, specimen=specimen) for number, specimen in enumerate(specimens, start=1)
    )
    return test


def _live_specimens(
    wanted: Sequence[tuple[str, str]], site: Site, held_at: datetime, staff: tuple[User, User]
) -> list[Specimen]:
    """Living plants of that day, each named by both, gone from the bank on the same day."""
    species = {row.key: row for row in Species.objects.filter(key__in=[key for key, _stage in wanted])}
    day = held_at.date()
    plants = Individual.objects.bulk_create(
        Individual(locality_id=site.locality_id, label=f"live, {day}") for _each in wanted
    )
    specimens = Specimen.objects.bulk_create(
        Specimen(
            individual=plant,
            seen_on=day,
            stage=stage,
            use=Use.ASSESSMENT.value,
            added_by=staff[0],
            added_at=held_at,
            species=species[key],
            settlement=Settlement.CONFIRMED.value,
            retired_on=day,
            retired_why="live, on that day only",
        )
        for plant, (key, stage) in zip(plants, wanted, strict=True)
    )
    Determination.objects.bulk_create(
        Determination(
            specimen=specimen,
            determiner=user,
            species=specimen.species,
            said=specimen.species.name if specimen.species else "",
            characters="the living plant",
            determined_at=held_at,
        )
        for specimen in specimens
        for user in staff
    )
    return specimens


def walk_stations(test: SpotTest, learners: Sequence[Learner], truth: Truth, recorder: User, skips: Skips) -> None:
    """Everybody answers at every station, but for those that the story withholds."""
    stations = list(test.stations.select_related("specimen__species"))
    day = test.held_at.date()
    rows, seen = [], []
    IdentityCheck.objects.bulk_create(
        IdentityCheck(spot_test=test, person=learner.user, how="sight", checked_by=recorder, checked_at=test.held_at)
        for learner in learners
    )
    for learner in learners:
        for station in stations:
            species = station.specimen.species
            if species is None or skips(learner, species.key, day):
                continue
            given = truth.answer_of(learner, species.key)
            named = truth.named(given)
            rows.append(
                Evidence(
                    person=learner.user,
                    specimen=station.specimen,
                    station=station,
                    medium=Medium.LIVE.value,
                    decision=given.decision.value,
                    named=named,
                    said=named.common_name if named else "",
                    confidence=given.confidence.value,
                    opened_at=test.held_at,
                    position=station.number,
                    shown_at=test.held_at,
                    recorded_at=test.held_at + timedelta(hours=2),
                    recorded_by=recorder,
                )
            )
            seen.append(Seen(person=learner.user, specimen=station.specimen, seen_at=test.held_at, why=Seen.STATION))
    Evidence.objects.bulk_create(rows)
    Seen.objects.bulk_create(seen, ignore_conflicts=True)
