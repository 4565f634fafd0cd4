"""Who was shown what and said what; checked against scikit-learn's own table of the same answers."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sklearn.metrics import confusion_matrix

from assessments.rules.confusion_map import ANOTHER, NOTHING, Said, confusion_map

PLANTS = ["goodleaf", "badleaf", "worseleaf"]
ANSWERS = st.lists(
    st.builds(Said, st.sampled_from(PLANTS), st.sampled_from([*PLANTS, ANOTHER, NOTHING]), st.booleans()), max_size=20
)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(answers=ANSWERS)
def test_the_numbers_are_those_of_another_library(answers) -> None:
    found = confusion_map(answers, frozenset({"badleaf"}))
    labels = [*PLANTS, ANOTHER, NOTHING]
    if not answers:
        assert found.shown == found.said == ()
        return
    table = confusion_matrix([a.shown for a in answers], [a.named for a in answers], labels=labels)
    for row, shown in enumerate(labels):
        for column, said in enumerate(labels):
            assert found.cell(shown, said).answers == table[row][column]


@given(answers=ANSWERS)
def test_every_answer_stands_in_one_cell_and_every_row_and_column_is_there(answers) -> None:
    found = confusion_map(answers, frozenset({"badleaf"}))
    assert sum(cell.answers for cell in found.cells.values()) == len(answers)
    assert set(found.shown) == {each.shown for each in answers}
    assert set(found.said) == {each.named for each in answers}


def test_what_was_missed_most_stands_first_and_no_name_last() -> None:
    answers = [
        Said("goodleaf", "goodleaf", True),
        Said("badleaf", "badleaf", False),
        Said("worseleaf", "goodleaf", True),
        Said("goodleaf", NOTHING, False),
    ]
    found = confusion_map(answers, frozenset({"badleaf", "worseleaf"}))
    assert found.shown == ("worseleaf", "badleaf", "goodleaf")
    assert found.said[-1] == NOTHING
    assert found.is_miss("worseleaf", "goodleaf")
    assert (found.misses("worseleaf"), found.misses("goodleaf")) == (1, 0)
    assert not found.is_miss("goodleaf", "goodleaf")


def test_what_a_dangerous_plant_was_gathered_as_stands_beside_it() -> None:
    answers = [Said("badleaf", "zleaf", True), Said("aleaf", "aleaf", True), Said("zleaf", "zleaf", True)]
    found = confusion_map(answers, frozenset({"badleaf"}))
    assert found.shown == ("badleaf", "zleaf", "aleaf")
    assert found.said == ("zleaf", "aleaf")
