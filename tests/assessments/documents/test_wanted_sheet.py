"""The wanted list on paper, and tables that no spreadsheet runs."""

import csv
from io import BytesIO, StringIO

import pytest
from pypdf import PdfReader

from assessments.documents.tables import written_table
from assessments.documents.wanted import SheetLine, SheetSection, SheetWords, draw_wanted


def test_each_part_of_the_sheet_begins_a_page_and_a_long_one_goes_on_under_its_heading():
    line = SheetLine(30, "Badleaf", "Genus mala", "(dangerous)", ("Rosette: photograph 30 plants",), "Place and day:")
    now, later = SheetSection("Now", "Go.", (line,) * 14), SheetSection("Later", "Wait.", (line,))
    words = SheetWords("Wanted", "A day", "en", "Somebody", (now, later), "Be certain.", "Page {page} of {pages}")
    texts = [page.extract_text() for page in PdfReader(BytesIO(draw_wanted(words))).pages]
    assert [("Now" in text, "Later" in text, "+6" in text) for text in texts] == [
        (True, False, True),
        (True, False, True),
        (False, True, True),
    ]
    assert sum(text.count("Badleaf") for text in texts) == 15
    assert draw_wanted(words) == draw_wanted(words)


def test_letters_that_cannot_be_printed_become_question_marks():
    words = SheetWords("Wanted \u4e09", "", "en", "", (), "", "Page {page} of {pages}")
    assert "Wanted ?" in PdfReader(BytesIO(draw_wanted(words))).pages[0].extract_text()


@pytest.mark.parametrize("cell", ["=1+1", "+49", "-x", "@name", "\tx", "\rx"])
def test_no_cell_of_a_table_is_run_by_a_spreadsheet(cell):
    (row,) = list(csv.reader(StringIO(written_table(["a", "b"], [[cell, 3]]).decode("utf-8-sig"), newline="")))[1:]
    assert row == [f"'{cell}", "3"]
