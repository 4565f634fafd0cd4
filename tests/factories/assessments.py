"""Makers of standards, papers and evidence."""

from datetime import datetime

from django.contrib.auth.models import User
from django.utils import timezone

from assessments.models import Evidence, Standard, StandardPair
from assessments.models.live import SpotTest, Station
from species.models import Pair, Specimen
from tests.factories.species import LocalityFactory


def make_standard(
    *pairs: Pair, in_use: bool = True, required_stages: tuple[str, ...] = (), **fields: object
) -> Standard:
    """The participant standard over these pairs, with the numbers of the decision rule."""
    numbers = {
        "key": "participant",
        "name": "Participant",
        "miss_limit": "0.20",
        "miss_ratio": 10,
        "miss_alpha": "0.10",
        "refusal_limit": "0.50",
        "refusal_ratio": 5,
        "refusal_alpha": "0.10",
        "window_weights": [0.8, 0.1, 0.1],
        "live_run": 3,
        "live_occasions": 2,
        "valid_months": 24,
    }
    standard = Standard(**{**numbers, **fields})
    standard.save()
    for pair in pairs:
        StandardPair.objects.create(
            standard=standard, pair=pair, required_stages=list(required_stages), edible_stages=["rosette", "flower"]
        )
    if in_use:
        standard.in_use_since = timezone.localdate()
        standard.save()
    return standard


def make_live_evidence(
    person: User, specimen: Specimen, decision: str, *, by: User, at: datetime | None = None, named: bool = True
) -> Evidence:
    """One live answer at a spot test of its own, with the right name or with none."""
    moment = at or timezone.now()
    test = SpotTest.objects.create(title="Live check", locality=LocalityFactory(), held_at=moment, set_by=by)
    station = Station.objects.create(spot_test=test, number=1, specimen=specimen)
    evidence = Evidence(
        person=person,
        specimen=specimen,
        station=station,
        medium="live",
        decision=decision,
        named=specimen.species if named else None,
        said=specimen.species.name if specimen.species and named else "",
        confidence="sure",
        opened_at=moment,
        position=1,
        shown_at=moment,
        recorded_at=moment,
        recorded_by=by,
    )
    evidence.save()
    return evidence
