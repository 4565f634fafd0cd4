"""Rows out of CSV and XLSX files. The XLSX files are written by openpyxl, the CSV files by hand (RFC 4180)."""

from io import BytesIO

import pytest
from openpyxl import Workbook

from courses.documents import table_file
from courses.documents.table_file import MOST_ROWS, NOT_A_TABLE, NOT_TEXT, TOO_LARGE, TOO_MANY_ROWS, BadTable, rows_of


def book(*lines: list[object]) -> bytes:
    made, out = Workbook(), BytesIO()
    for line in lines:
        made.active.append(line)
    made.save(out)
    return out.getvalue()


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_csv_with_any_usual_separator(separator) -> None:
    text = f'name{separator}email\r\n"Ash, Ann"{separator}a@b.org\r\n\r\n'.encode("utf-8-sig")
    headings, (row,) = rows_of(text)
    assert headings == ["name", "email"]
    assert (row.number, row.cells) == (2, {"name": "Ash, Ann", "email": "a@b.org"})


def test_a_workbook_and_its_numbers_as_text() -> None:
    headings, rows = rows_of(book(["name", "phone"], ["Ann", 1234], [None, None], ["Ben", None]))
    assert headings == ["name", "phone"]
    assert [(row.number, row.cells["phone"]) for row in rows] == [(2, "1234"), (4, "")]


def test_a_formula_is_read_as_its_value_and_never_run() -> None:
    _headings, rows = rows_of(book(["name"], ["=1+1"]))
    assert [row.cells["name"] for row in rows] == []  # no value was kept with it


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", NOT_A_TABLE),
        (b"\n\n", NOT_A_TABLE),
        (b"PK\x03\x04 no workbook", NOT_A_TABLE),
        (b"name\n\xff\xfe", NOT_TEXT),
        (b"name\n\0", NOT_A_TABLE),
        (b'name\n"open', NOT_A_TABLE),
        (b"name\n" + b"x\n" * (MOST_ROWS + 1), TOO_MANY_ROWS),
    ],
)
def test_what_is_no_table_is_refused(content, why) -> None:
    with pytest.raises(BadTable) as refused:
        rows_of(content)
    assert refused.value.why == why


def test_what_is_too_large_is_not_even_read(monkeypatch) -> None:
    monkeypatch.setattr(table_file, "MOST_BYTES", 10)
    with pytest.raises(BadTable) as refused:
        rows_of(b"name\n" + b"x" * 10)
    assert refused.value.why == TOO_LARGE


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch) -> None:
    monkeypatch.setattr(table_file, "MOST_UNPACKED", 100)
    with pytest.raises(BadTable) as refused:
        rows_of(book(["name"]))
    assert refused.value.why == TOO_LARGE
