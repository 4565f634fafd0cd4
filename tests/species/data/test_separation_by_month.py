"""The tables, put through the rule, give what an independent script gave for every pair, month and stage.

`separation_by_month.json` was computed with the rule of the state table by an independent script that
shares no code with the project.
"""

import json
from pathlib import Path

import pytest

from species.rules.separation import (
    Combination,
    MonthClass,
    combinations_in_month,
    comparison,
    month_class,
)
from species.rules.tables.comparing import (
    calendars,
    combinations_by_pair,
    scores_by_species,
    table_characters,
)
from species.rules.vocabulary import Stage
from tests.species.flora import flora

EXPECTED = json.loads((Path(__file__).parent / "separation_by_month.json").read_text("utf-8"))["pairs"]
LETTERS = {
    MonthClass.IN_ALL: "s",
    MonthClass.IN_SOME: "h",
    MonthClass.IN_NONE: "o",
    MonthClass.NOT_TOGETHER: ".",
}


def by_month(pair_key: str):
    """The comparisons of a pair for each month, from January."""
    tables = flora()
    pair = next(each for each in tables.lookalikes.pairs if each.key == pair_key)
    shown, scores = calendars(tables.plants), scores_by_species(tables.lookalikes)
    characters = table_characters(tables.lookalikes)
    for month in range(1, 13):
        showing = combinations_in_month(
            combinations_by_pair(tables.lookalikes)[pair_key],
            shown[pair.gathered],
            shown[pair.mistaken],
            month,
        )
        yield [
            comparison(characters.values(), scores[pair.gathered], scores[pair.mistaken], combination)
            for combination in showing
        ]


def combination_of(text: str) -> Combination:
    gathered, mistaken = text.split("/")
    return Combination(Stage(gathered), Stage(mistaken))


def test_all_pairs_are_expected() -> None:
    assert [each.key for each in flora().lookalikes.pairs] == list(EXPECTED)
    assert len(EXPECTED) == 38


@pytest.mark.parametrize("pair", EXPECTED)
def test_every_cell_of_the_year_is_as_computed(pair: str) -> None:
    found: dict[Combination, list[int]] = {}
    for month, comparisons in enumerate(by_month(pair), start=1):
        for each in comparisons:
            found.setdefault(each.combination, []).append(month)
            gathered, mistaken = each.combination.gathered, each.combination.mistaken
            wanted = EXPECTED[pair]["combinations"][f"{gathered}/{mistaken}"]
            assert list(each.separates) == wanted["separates"], (pair, month, each.combination)
            assert list(each.leans) == wanted["leans"], (pair, month, each.combination)
    expected = EXPECTED[pair]["combinations"]
    assert found == {combination_of(text): cell["months"] for text, cell in expected.items()}


@pytest.mark.parametrize("pair", [key for key, each in EXPECTED.items() if "class" in each])
def test_every_month_of_a_core_pair_has_its_class(pair: str) -> None:
    characters = table_characters(flora().lookalikes)
    classes = [LETTERS[month_class(comparisons, characters)] for comparisons in by_month(pair)]
    assert "".join(classes) == EXPECTED[pair]["class"]


def test_the_core_pairs_are_those_with_classes() -> None:
    core = [each.key for each in flora().lookalikes.pairs if each.core]
    assert core == [key for key, each in EXPECTED.items() if "class" in each]
    assert len(core) == 14
