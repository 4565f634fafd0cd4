"""Spot tests as their pages show them."""

from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import Count

from assessments.models import SpotTest, Station
from assessments.queries.people import name_of
from species.rules.vocabulary import Settlement


@dataclass(frozen=True)
class StationLine:
    """One station. `name` is empty for whoever has not named the plant yet."""

    number: int
    stage: str
    name: str
    common_name: str
    is_confirmed: bool
    is_disputed: bool
    may_name: bool
    struck_out_why: str


def station_lines(test: SpotTest, viewer: User) -> list[StationLine]:
    """The stations in order; three queries however many. The first name stays hidden from a second person."""
    rows = test.stations.select_related("specimen__species").prefetch_related(
        "specimen__determinations__species__common_names"
    )
    return [_line(row, viewer, test) for row in rows.order_by("number")]


def _line(row: Station, viewer: User, test: SpotTest) -> StationLine:
    named = [d for d in row.specimen.determinations.all() if d.determiner_id == viewer.pk]
    species = named[-1].species if named else None
    return StationLine(
        number=row.number,
        stage=row.specimen.get_stage_display(),
        name=species.name if species else "",
        common_name=species.common_name if species else "",
        is_confirmed=row.specimen.settlement == Settlement.CONFIRMED,
        is_disputed=row.specimen.settlement == Settlement.DISPUTED,
        may_name=not named and viewer.pk != test.set_by_id,
        struck_out_why=row.struck_out_why,
    )


@dataclass(frozen=True)
class Recorded:
    """Somebody who was recorded, at how many stations, and how they were recognised (empty: nobody wrote it down)."""

    name: str
    stations: int
    recognised: str


def recorded_people(test: SpotTest) -> list[Recorded]:
    """Who was recorded; two queries."""
    how = {each.person_id: str(each.get_how_display()) for each in test.identity_checks.all()}
    rows = User.objects.filter(evidence__station__spot_test=test).annotate(stations=Count("evidence__station"))
    return [
        Recorded(name_of(person), person.stations, how.get(person.pk, ""))
        for person in rows.order_by("first_name", "email")
    ]
