"""What pages of a course cost in a large school, against the same pages of a small one.

    .venv/bin/python -m tests.bench.school_lists

A small school as the invented one is (2 courses, 26 people) and a large one (200 courses, 5,000 people, a register
of 30), each in a database of its own in memory. CPU time of the whole request through Django's test client, the
median of some rounds, and the number of queries. Ratios in one run; nothing is asserted.
"""

import os
import platform
import sys
import time
from dataclasses import dataclass
from statistics import median
from typing import Any

ROUNDS = 9


@dataclass(frozen=True)
class Size:
    """How large a school is."""

    courses: int
    people: int
    register: int


SMALL, LARGE = Size(2, 26, 12), Size(200, 5000, 30)


@dataclass(frozen=True)
class Cost:
    """One page: CPU seconds, and queries."""

    seconds: float
    queries: int


def main() -> None:
    """Print the costs of both schools and their ratios."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    import django

    django.setup()
    from django.test.utils import setup_test_environment

    setup_test_environment()
    costs = [costs_of(size) for size in (SMALL, LARGE)]
    print(f"{platform.processor() or platform.machine()}, Python {sys.version.split()[0]}, {ROUNDS} rounds, CPU time")
    print(f"{'page':24} {'small':>9} {'large':>9} {'ratio':>6} {'queries':>9}")
    for name, small in costs[0].items():
        large = costs[1][name]
        ratio = large.seconds / small.seconds
        print(
            f"{name:24} {small.seconds * 1000:7.1f}ms {large.seconds * 1000:7.1f}ms {ratio:6.2f} "
            f"{small.queries:4d}/{large.queries:d}"
        )


def costs_of(size: Size) -> dict[str, Cost]:
    """Make a school of this size in a database of its own, and ask for its pages."""
    from django.db import connection

    from tests.bench.schools import made_up_school, pages_of

    name = connection.settings_dict["NAME"]
    connection.creation.create_test_db(verbosity=0, autoclobber=True)
    try:
        school = made_up_school(size.courses, size.people, size.register)
        return {label: cost_of(client, address) for label, client, address in pages_of(school)}
    finally:
        connection.creation.destroy_test_db(name, verbosity=0)


def cost_of(client: Any, address: str) -> Cost:
    """One page, asked for once to warm up and then so many times."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    answer = client.get(address)
    assert answer.status_code == 200, (address, answer.status_code)
    with CaptureQueriesContext(connection) as captured:
        client.get(address)
    seconds = []
    for _round in range(ROUNDS):
        begun = time.process_time()
        client.get(address)
        seconds.append(time.process_time() - begun)
    return Cost(median(seconds), len(captured))


if __name__ == "__main__":
    main()
