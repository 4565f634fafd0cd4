"""People out of a table: every row read or refused with its reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.people_table import COLUMNS, read_people

HEADINGS = ["Name", "E-mail".replace("-", ""), "Family name", "phone", "role", "course"]


def read(*rows: dict[str, str], known=(), courses=("spring",), headings=COLUMNS):
    return read_people(headings, list(enumerate(rows, start=2)), set(known), set(courses))


def row(**cells: str) -> dict[str, str]:
    return {"name": "Ann Ash", "email": "ann@example.org", **cells}


def test_a_row_becomes_a_person_in_small_letters_and_a_participant() -> None:
    (person,) = read(row(email="Ann@Example.org")).people
    assert (person.row, person.email, person.role) == (2, "ann@example.org", "participant")


def test_headings_may_be_written_in_any_case_with_spaces() -> None:
    found = read_people(
        ["NAME", "Email", "Family Name"], [(2, {"NAME": "A", "Email": "a@b.org", "Family Name": "B"})], (), ()
    )
    assert found.people[0].family_name == "B"
    assert found.is_clean


@pytest.mark.parametrize(
    ("cells", "column", "reason"),
    [
        ({"name": ""}, "name", "empty"),
        ({"email": ""}, "email", "empty"),
        ({"email": "ann"}, "email", "no address"),
        ({"email": "a b@c.org"}, "email", "no address"),
        ({"role": "king"}, "role", "no role"),
        ({"course": "autumn"}, "course", "no course"),
        ({"name": "x" * 121}, "name", "too long"),
    ],
)
def test_a_wrong_row_is_named_and_taken_as_nobody(cells, column, reason) -> None:
    found = read(row(**cells))
    assert [(each.row, each.column, each.reason) for each in found.problems] == [(2, column, reason)]
    assert not found.people


def test_the_same_address_twice_names_the_first_row() -> None:
    found = read(row(), row(email="ANN@example.org"))
    assert [(each.row, each.reason, each.said) for each in found.problems] == [(3, "twice", "2")]


def test_who_is_known_is_no_problem() -> None:
    found = read(row(), known={"ann@example.org"})
    assert found.is_clean
    assert (len(found.people), len(found.known)) == (0, 1)


def test_a_missing_and_an_unknown_column() -> None:
    found = read_people(["name", "shoe size"], [(2, {"name": "Ann"})], (), ())
    assert {(each.column, each.reason) for each in found.problems} == {
        ("email", "column missing"), ("shoe size", "column unknown"),
    }  # fmt: skip


@given(cells=st.lists(st.fixed_dictionaries({name: st.text(max_size=12) for name in COLUMNS}), max_size=6))
def test_every_row_is_a_person_known_or_a_problem_and_never_two_of_them(cells) -> None:
    found = read(*cells)
    taken = {each.row for each in (*found.people, *found.known)}
    wrong = {each.row for each in found.problems}
    assert taken | wrong == set(range(2, 2 + len(cells)))
    assert not taken & wrong
