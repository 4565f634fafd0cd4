"""Several values in one cell come back as they went in."""

from hypothesis import given
from hypothesis import strategies as st

from species.rules.lists import joined_list, split_list


def test_a_cell_is_taken_apart_at_its_bars() -> None:
    assert split_list("rosette | leafy|flower ") == ("rosette", "leafy", "flower")
    assert split_list("") == ()


def test_a_bar_inside_a_value_is_written_with_a_backslash() -> None:
    assert joined_list(["a|b", "c"]) == r"a\|b | c"
    assert split_list(r"a\|b | c") == ("a|b", "c")


@given(st.lists(st.text().map(str.strip).filter(bool)))
def test_values_survive_the_cell(values: list[str]) -> None:
    assert split_list(joined_list(values)) == tuple(values)
