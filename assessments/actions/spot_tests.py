"""Spot tests: live plants at one place on one day. A station counts once two people gave it the same name."""

from collections.abc import Mapping
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.models import Evidence, IdentityCheck, Seen, SpotTest, Station
from assessments.models.live import RECOGNISED_WORDS
from assessments.queries.competence import stations_beyond
from assessments.queries.sentences.competence import why_beyond
from assessments.rules.evidence import Medium
from species.actions.determinations import determine
from species.models import Individual, Locality, Species, Specimen
from species.rules.vocabulary import Use

from .refusals import Refused
from .sittings import Given
from .standings import refresh_after_change_of, refresh_standings
from .windows import ensure_window

PERIOD_MONTHS = 24


class SpotTestRefused(Refused):
    """Nothing was recorded."""


def set_up_spot_test(title: str, locality: Locality, held_at: datetime, by: User) -> SpotTest:
    """A spot test without stations yet."""
    return SpotTest.objects.create(title=title.strip(), locality=locality, held_at=held_at, set_by=by)


def add_station(test: SpotTest, species: Species, said: str, stage: str, by: User, now: datetime) -> Station:
    """One more live specimen, with the setter's name for it."""
    with transaction.atomic():
        held_on = timezone.localdate(test.held_at)
        plant = Individual.objects.create(locality=test.locality, label=_("live, %(day)s") % {"day": held_on})
        specimen = Specimen.objects.create(
            individual=plant,
            seen_on=held_on,
            stage=stage,
            use=Use.ASSESSMENT.value,
            added_by=by,
            added_at=now,
            retired_on=held_on,
            retired_why=_("live, on that day only"),
        )
        determine(
            specimen, said=said or species.name, species=species, characters=_("the living plant"), by=by, now=now
        )
        last = test.stations.order_by("-number").first()
        station = Station.objects.create(spot_test=test, number=last.number + 1 if last else 1, specimen=specimen)
        _note_seen(by, specimen, now, Seen.STATION)
    return station


def name_station(station: Station, species: Species | None, said: str, by: User, now: datetime) -> Station:
    """A second person names the plant without having been told. Raises SpotTestRefused for the setter."""
    if by.pk == station.spot_test.set_by_id:
        raise SpotTestRefused(_("You set this station yourself: ask a second person to name it."))
    with transaction.atomic():
        determine(station.specimen, said=said, species=species, characters=_("the living plant"), by=by, now=now)
        _note_seen(by, station.specimen, now, Seen.DETERMINATION)
        test = station.spot_test
        test.key_checked_by, test.key_checked_at = by, now
        test.save(update_fields=["key_checked_by", "key_checked_at"])
        refresh_after_change_of([station.specimen_id], now)
    return station


def record_answers(
    test: SpotTest, person: User, answers: Mapping[int, Given], by: User, now: datetime, *, recognised: str
) -> list[Evidence]:
    """What one person answered, by number of the station. Each station once; all or nothing.

    `recognised`: how it was made sure that this person answered, "sight" or "document"; the first time stands.
    Raises SpotTestRefused where that is not said, a station was answered before or was struck out, the person knows
    the key, or whoever records holds no current pair of a dangerous plant there.
    """
    stations = {each.number: each for each in test.stations.select_related("specimen")}
    if recognised not in dict(RECOGNISED_WORDS):
        raise SpotTestRefused(_("Say how you recognised the person: without that, answers are nobody's."))
    _refuse(test, person, by, answers, stations, now)
    if sentences := why_beyond(stations_beyond(test, by, answers)):
        raise SpotTestRefused(*sentences)
    with transaction.atomic():
        IdentityCheck.objects.get_or_create(
            spot_test=test, person=person, defaults={"how": recognised, "checked_by": by, "checked_at": now}
        )
        ensure_window(person, by, PERIOD_MONTHS, test.held_at, now)
        rows = [_evidence(stations[number], given, test, person, by, now) for number, given in answers.items()]
        for row in rows:
            row.save()
            _note_seen(person, row.specimen, test.held_at, Seen.STATION)
        refresh_standings([person.pk], now)
    return rows


def _refuse(
    test: SpotTest, person: User, by: User, answers: Mapping[int, Given], stations: Mapping[int, Station], now: datetime
) -> None:
    if not answers:
        raise SpotTestRefused(_("Nothing was filled in: answer at least one station."))
    if test.held_at > now:
        raise SpotTestRefused(_("This spot test has not been held yet: look at its date."))
    if person.pk in (by.pk, test.set_by_id, test.key_checked_by_id):
        raise SpotTestRefused(_("This person set, checked or records the test, so their answers cannot count."))
    struck = [number for number in answers if stations[number].struck_out_why]
    if struck:
        raise SpotTestRefused(_("Station %(number)s was struck out for everybody.") % {"number": struck[0]})
    done = Evidence.objects.filter(person=person, station__in=[stations[n].pk for n in answers])
    if (before := done.select_related("station").first()) is not None and before.station:
        raise SpotTestRefused(
            _("Station %(number)s was recorded for this person before: the first answer counts. Leave it empty.")
            % {"number": before.station.number}
        )


def _evidence(station: Station, given: Given, test: SpotTest, person: User, by: User, now: datetime) -> Evidence:
    return Evidence(
        person=person,
        specimen=station.specimen,
        station=station,
        medium=Medium.LIVE.value,
        decision=given.decision,
        said=given.said,
        named_id=given.species_id,
        confidence=given.confidence,
        opened_at=test.held_at,
        position=station.number,
        shown_at=test.held_at,
        recorded_at=now,
        recorded_by=by,
    )


def _note_seen(person: User, specimen: Specimen, moment: datetime, why: str) -> None:
    Seen.objects.get_or_create(person=person, specimen=specimen, defaults={"seen_at": moment, "why": why})
