"""Everything that this room holds about one person, as plain values for that person: answers, results, what was done.

Left out: photographs of plants that serve for tests, keys of plants, what others wrote about others, and the names of
others. A sitting that is under way, or can still be taken back, is named without its answers.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from django.contrib.auth.models import User

from assessments.models import (
    Adjustment,
    Appeal,
    IdentityCheck,
    Notice,
    Period,
    PracticeState,
    PracticeTurn,
    Seat,
    Seen,
    Standard,
)

from .flora import Flora, the_flora
from .people import name_of
from .result_table import said_words
from .results import ResultLine, results_of
from .sentences.gaps import gap_lines
from .standards import standards_with_parts
from .standings import standings_under

SCHEME = 1
"""The number of this form; it rises when a field changes its meaning."""


def own_record(person: User, now: datetime) -> dict[str, Any]:
    """The record; moments are in UTC. A constant number of queries."""
    flora = the_flora()
    standards = list(standards_with_parts().in_use().order_by("leads_walks", "name"))
    results = results_of([person.pk], standards, flora, now)[person.pk]
    return {
        "scheme": SCHEME,
        "taken_at": _at(now),
        "person": {"name": name_of(person), "email": person.email},
        "tests": [_seat(seat) for seat in _seats(person)],
        "answers": [_answer(line, standards, flora) for line in results],
        "standings": _standings(person, standards, now, flora),
        "periods": [_period(each) for each in Period.objects.filter(person=person).prefetch_related("windows")],
        "appeals": [_appeal(each) for each in Appeal.objects.of(person.pk).prefetch_related("steps")],
        "recognised_at_spot_tests": [
            {"test": each.spot_test.title, "how": each.how, "recorded_at": _at(each.checked_at)}
            for each in IdentityCheck.objects.filter(person=person).select_related("spot_test")
        ],
        "practice": _practice(person),
        "plants_seen": _seen(person),
        "notices": [
            {"kind": each.kind, "happened_at": _at(each.happened_at), "sent_at": _at(each.sent_at)}
            for each in Notice.objects.filter(person=person)
        ],
    }


def _at(moment: datetime | None) -> str | None:
    return moment.isoformat() if moment is not None else None


def _seats(person: User) -> Iterable[Seat]:
    rows = Seat.objects.of(person.pk).select_related("paper__standard", "sitting").prefetch_related("adjustments")
    return rows.order_by("opens_at", "id")


def _seat(seat: Seat) -> dict[str, Any]:
    sitting = getattr(seat, "sitting", None)
    said: dict[str, Any] = {
        "title": seat.paper.title,
        "standard": str(seat.paper.standard),
        "questions": seat.paper.questions,
        "opens_at": _at(seat.opens_at),
        "closes_at": _at(seat.closes_at),
        "times_the_time": str(seat.time_factor),
        "agreed": [_adjustment(each) for each in seat.adjustments.all()],
        "sitting": None,
    }
    if sitting is not None:
        said["sitting"] = {
            "opened_at": _at(sitting.opened_at),
            "handed_in_at": _at(sitting.handed_in_at),
            "closed_by_itself": sitting.closed_itself,
            "settled_at": _at(sitting.settled_at),
            "result_first_seen_at": _at(sitting.result_shown_at),
            "annulled_at": _at(sitting.annulled_at),
            "annulled_because": sitting.annulled_why,
        }
    return said


def _adjustment(row: Adjustment) -> dict[str, Any]:
    return {"what": row.what, "why": row.why, "times_the_time": str(row.time_factor), "made_at": _at(row.made_at)}


def _answer(line: ResultLine, standards: Sequence[Standard], flora: Flora) -> dict[str, Any]:
    answer = line.answer
    return {
        "test": line.origin.title,
        "medium": answer.medium.value,
        "opened_at": _at(answer.opened_at),
        "number": line.origin.station if line.origin.station is not None else answer.position,
        "shown_at": _at(answer.shown_at),
        "kind": answer.kind,
        "stage": answer.specimen.stage,
        "plant": line.plant.name if line.plant else None,
        "decision": answer.decision.value if answer.decision else None,
        "said": said_words(line, flora),
        "chosen": line.chosen,
        "confidence": answer.confidence.value if answer.confidence else None,
        "annulled": answer.annulled,
        "counts_as": {
            str(standard): {"effect": line.counted[standard.pk].effect, "reason": line.counted[standard.pk].reason}
            for standard in standards
            if standard.pk in line.counted
        },
    }


def _standings(person: User, standards: Sequence[Standard], now: datetime, flora: Flora) -> list[dict[str, Any]]:
    found = standings_under(person, standards, now, flora)
    return [
        {
            "standard": str(standard),
            "passed": found[standard.pk].passed,
            "pairs": [
                {
                    "gathered": flora.plant(each.pair.gathered).name,
                    "mistaken": flora.plant(each.pair.mistaken).name,
                    "passed": each.passed,
                }
                for each in found[standard.pk].pairs
            ],
            "missing": [line.sentence for line in gap_lines(found[standard.pk], flora)],
        }
        for standard in standards
    ]


def _period(row: Period) -> dict[str, Any]:
    windows = [
        {"number": each.number, "opened_at": _at(each.opened_at), "taught_again": each.retraining}
        for each in row.windows.all()
    ]
    return {
        "number": row.number,
        "started_at": _at(row.started_at),
        "ends_at": _at(row.ends_at),
        "is_renewal": row.is_renewal,
        "windows": windows,
    }


def _appeal(row: Appeal) -> dict[str, Any]:
    steps = [{"step": each.get_kind_display(), "at": _at(each.at), "words": each.words} for each in row.steps.all()]
    return {
        "received_at": _at(row.received_at),
        "ground": row.get_ground_display(),
        "words": row.words,
        "decided_by": row.decide_by.isoformat(),
        "steps": steps,
    }


def _practice(person: User) -> dict[str, Any]:
    states = PracticeState.objects.filter(person=person).select_related("pair")
    turns = PracticeTurn.objects.answered().filter(round__person=person).select_related("pair")
    return {
        "pairs": [
            {"pair": each.pair.key, "kept_for_days": each.half_life, "last_at": _at(each.last_at)} for each in states
        ],
        "pictures": [
            {"pair": each.pair.key, "said": each.said, "outcome": each.outcome, "at": _at(each.answered_at)}
            for each in turns.order_by("answered_at", "id")
        ],
    }


def _seen(person: User) -> list[dict[str, Any]]:
    """When and why plants were met that are never set to this person again; not which, for some are still to test
    others with."""
    rows = Seen.objects.filter(person=person).order_by("seen_at", "id")
    return [{"seen_at": _at(each.seen_at), "why": each.get_why_display()} for each in rows]
