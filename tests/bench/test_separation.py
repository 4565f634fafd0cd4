"""The bench of separation still runs, and both ways give the same; how long it takes is nobody's test."""

import numpy as np
import pytest

from species.rules.bulk_separation import asked, table_arrays
from species.rules.separation import Relation
from tests.species.flora import flora

from . import separation as bench


@pytest.fixture(scope="module")
def asking() -> bench.Question:
    return bench.question(flora())


def test_every_pair_is_asked_about(asking) -> None:
    assert {pair for pair, _month in asking.months} == {each.key for each in flora().lookalikes.pairs}
    assert {month for _pair, month in asking.months} == set(range(1, 13))


def test_at_once_names_what_one_by_one_names(asking) -> None:
    table = table_arrays(asking.characters, asking.scores)
    said = bench.at_once(table, asked(table, asking.rows))
    separates, leans = (bench.named(table, said, each) for each in (Relation.SEPARATES, Relation.LEANS))
    assert list(zip(separates, leans, strict=True)) == bench.one_by_one(asking)


def test_the_floor_finds_all_that_separates_where_both_show_one_stage(asking) -> None:
    table = table_arrays(asking.characters, asking.scores)
    rows = asked(table, asking.rows)
    same = rows.gathered_stage == rows.mistaken_stage
    separating = bench.at_once(table, rows) == 3
    assert np.all(bench.floor(table, rows)[same] | ~separating[same])


def test_every_side_is_measured(asking) -> None:
    few = bench.Question(asking.characters, asking.scores, asking.rows[:5], asking.months[:5])
    assert set(bench.measured(few, rounds=2, times=2)) == {"one by one", "at once", "floor", "arrays", "ratio"}
