"""A number of a certificate is known again however it was typed."""

import pytest

from courses.rules.certificate_number import as_printed


@pytest.mark.parametrize(
    "typed",
    ["2026-0007", " 2026-0007 ", "No. 2026-0007", "2026–0007", "2026 0007", "2026 7", "20260007", "2026/0007."],
)
def test_what_is_typed_off_a_paper_is_the_number_on_it(typed: str) -> None:
    assert as_printed(typed) == "2026-0007"


def test_a_number_with_five_digits_keeps_them() -> None:
    assert as_printed("No. 2026-12345") == as_printed("202612345") == "2026-12345"


@pytest.mark.parametrize("typed", ["", "abc", "26-0007", "2026-0007-1", "2026"])
def test_what_is_no_number_is_left_as_it_is(typed: str) -> None:
    assert as_printed(typed) == typed
