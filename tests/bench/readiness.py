"""What readiness costs: everybody of a large school against one aggregate of the database over the same rows.

    .venv/bin/python -m tests.bench.readiness

10,000 people on the way to leading, each with a leader's certificate over 14 pairs, two proofs and three assisted
walks, in a database in memory. The floor is one SQL statement that reads every one of these rows and answers, by
person and kind, how many there are and the latest day. CPU time of both, one after the other in every round; and the
whole page of fifty through Django's test client. Ratios in one run; nothing is asserted.
"""

import os
import platform
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from statistics import median
from typing import Any

PEOPLE, PAIRS, ROUNDS = 10_000, 14, 7

FLOOR = """
SELECT person_id, kind, COUNT(*), MAX(until) FROM (
  SELECT c.person_id AS person_id, 'pair' AS kind, c.valid_until AS until
  FROM courses_certifiedpair p JOIN courses_certificate c ON c.id = p.certificate_id WHERE p.dropped_by_id IS NULL
  UNION ALL SELECT person_id, kind, valid_until FROM courses_requirementrecord
  UNION ALL SELECT person_id, step, walked_on FROM courses_walkpart WHERE went_well
) AS facts GROUP BY person_id, kind
"""


@dataclass(frozen=True)
class Cost:
    """Median CPU seconds of one side and of the aggregate, and the median of their ratios, round by round."""

    label: str
    above: float
    below: float
    ratio: float


def main() -> None:
    """Print what both sides took, and their ratio."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    import django

    django.setup()
    from django.db import connection
    from django.test.utils import setup_test_environment

    setup_test_environment()
    print(f"{platform.processor() or platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    print(" ".join(sys.orig_argv))
    name = connection.settings_dict["NAME"]
    connection.creation.create_test_db(verbosity=0, autoclobber=True)
    try:
        make_rows(PEOPLE, PAIRS)
        for cost in costs(ROUNDS):
            print(f"{cost.label:30} {cost.above:6.3f} s, aggregate {cost.below:6.3f} s: {cost.ratio:5.2f} times")
    finally:
        connection.creation.destroy_test_db(name, verbosity=0)


def make_rows(people: int, pairs: int) -> None:
    """The rows of a school in which everybody is on the way to leading."""
    from django.utils import timezone

    from courses.models import Certificate, CertifiedPair, RequirementRecord, WalkPart
    from tests.bench.schools import make_crowd
    from tests.factories.assessments import make_standard
    from tests.factories.certificates import make_facts
    from tests.factories.people import make_person, make_school

    make_school()
    organiser, today, now = make_person("Olga Organiser", "organiser"), timezone.localdate(), timezone.now()
    standard = make_standard(key="leader", name="Walk leader", leads_walks=True)
    everybody = make_crowd(people)
    facts = make_facts(pairs).as_json()
    certificates = Certificate.objects.bulk_create(
        Certificate(
            number=f"2030-{n}",
            key=f"key-{n}",
            person=person,
            standard=standard,
            issued_at=now,
            valid_from=today - timedelta(days=n % 300 + 30),
            valid_until=today + timedelta(days=n * 37 % 500 - 20),
            decided_by=organiser,
            facts={**facts, "number": f"2030-{n}"},
        )
        for n, person in enumerate(everybody)
    )
    CertifiedPair.objects.bulk_create(
        (CertifiedPair(certificate=each, key=f"pair-{n}") for each in certificates for n in range(pairs)),
        batch_size=5000,
    )
    seen = {"seen_by": organiser, "seen_on": today, "valid_from": today - timedelta(days=200)}
    RequirementRecord.objects.bulk_create(
        RequirementRecord(person=person, kind=kind, valid_until=today + timedelta(days=n * 53 % 700 - 30), **seen)
        for n, person in enumerate(everybody)
        for kind in ("first_aid", "insurance")
    )
    confirmed = {"step": "assisted", "confirmed_by": organiser, "confirmed_on": today}
    WalkPart.objects.bulk_create(
        WalkPart(person=person, walked_on=today - timedelta(days=30 * walk + n % 200 + 1), **confirmed)
        for n, person in enumerate(everybody)
        for walk in range(3)
    )


def costs(rounds: int) -> list[Cost]:
    """What the computing, the board with a filter and the page cost against the aggregate."""
    from django.test import Client
    from django.utils import timezone

    from courses.models import Person
    from courses.queries.board import BoardAsk, board
    from courses.queries.leader_facts import asked_of
    from courses.queries.readiness import on_the_way

    client = Client()
    client.force_login(Person.objects.get(name="Olga Organiser").user)

    def page() -> Any:
        answer = client.get("/readiness/?state=lapsing")
        assert answer.status_code == 200, answer.status_code
        return answer

    sides: dict[str, Callable[[], object]] = {
        "readiness of everybody": lambda: on_the_way().readiness(asked_of(), timezone.localdate()),
        "board, filtered and sorted": lambda: board(BoardAsk(state="lapsing"), on_the_way(), timezone.now()),
        "whole page of fifty": page,
    }
    found = []
    for label, above in sides.items():
        rounds_paired = [(seconds(above), seconds(aggregate)) for _round in range(rounds + 1)][1:]
        found.append(
            Cost(
                label,
                *(median(column) for column in zip(*rounds_paired, strict=True)),
                median(a / b for a, b in rounds_paired),
            )
        )
    return found


def aggregate() -> list[tuple[int, str, int, str]]:
    """The floor: person, kind, how many, and the latest day."""
    from django.db import connection

    with connection.cursor() as cursor:
        cursor.execute(FLOOR)
        return cursor.fetchall()


def seconds(call: Callable[[], object]) -> float:
    """CPU seconds of one call."""
    begun = time.process_time()
    call()
    return time.process_time() - begun


if __name__ == "__main__":
    main()
