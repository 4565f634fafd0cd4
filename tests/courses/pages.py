"""What many tests of pages ask."""

from collections.abc import Callable

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext


def queries_of(client: Client, url: str) -> int:
    """How many queries opening a page takes; it has to open."""
    with CaptureQueriesContext(connection) as seen:
        answer = client.get(url)
    assert answer.status_code == 200
    return len(seen)


def same_queries(client: Client, url: str, grow: Callable[[], object]) -> bool:
    """Whether a page takes as many queries after `grow` has added rows as before."""
    client.get(url)  # whatever is asked for once and kept is asked for before the first count
    before = queries_of(client, url)
    grow()
    after = queries_of(client, url)
    assert after == before, f"{before} queries before, {after} with more rows"
    return True
