"""Every check value of ``scoring_vectors.json``, none skipped. Each carries its own source in the file."""

import json
from pathlib import Path
from typing import Any

import pytest

from .quantities import QUANTITIES, compute

FILE = json.loads(Path(__file__).with_name("scoring_vectors.json").read_text(encoding="utf-8"))
VECTORS = FILE["vectors"]


def assert_agrees(found: Any, expected: Any, tolerance: float, where: str) -> None:
    """Numbers within the tolerance; words, truth and null exactly; names that are expected only."""
    if isinstance(expected, dict):
        for name, value in expected.items():
            assert_agrees(found[name], value, tolerance, f"{where}.{name}")
        if where.endswith(".short"):
            assert found == expected, where
    elif isinstance(expected, list):
        assert len(found) == len(expected), where
        for place, (one, other) in enumerate(zip(found, expected, strict=True)):
            assert_agrees(one, other, tolerance, f"{where}[{place}]")
    elif isinstance(expected, bool | str) or expected is None:
        assert found == expected, where
        assert type(found) is type(expected), where
    else:
        assert found is not None, where
        assert abs(found - expected) <= tolerance, f"{where}: {found} is not {expected}"


@pytest.mark.parametrize("vector", VECTORS, ids=lambda vector: vector["id"])
def test_the_product_agrees_with_the_check_value(vector):
    found = compute(vector["quantity"], vector["inputs"])
    assert_agrees(found, vector["expected"], vector["tolerance"], vector["id"])


def test_the_file_is_whole_and_every_quantity_has_its_function():
    assert len(VECTORS) == 275
    assert set(QUANTITIES) == set(FILE["quantities"]) == {vector["quantity"] for vector in VECTORS}
    assert all(vector["source"] for vector in VECTORS)


def test_a_wrong_number_a_missing_name_and_a_wrong_word_are_noticed():
    with pytest.raises(AssertionError, match=r"x\.a"):
        assert_agrees({"a": 1.1}, {"a": 1.0}, 1e-9, "x")
    with pytest.raises(KeyError):
        assert_agrees({}, {"a": 1.0}, 1e-9, "x")
    with pytest.raises(AssertionError, match="x"):
        assert_agrees(1, True, 0, "x")
    with pytest.raises(AssertionError, match="x"):
        assert_agrees(None, 3, 0, "x")
