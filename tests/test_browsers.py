"""Where the browser of the journeys is found."""

from pathlib import Path

import pytest

from tests.browsers import browser_is_required, find_chromium


def program(folder: Path, name: str) -> str:
    (folder / name).write_text("#!/bin/sh\n")
    (folder / name).chmod(0o755)
    return str(folder / name)


@pytest.mark.parametrize("name", ["chromium", "chromium-browser", "google-chrome"])
def test_a_chromium_on_the_path_is_found(tmp_path: Path, name: str):
    found = program(tmp_path, name)
    assert find_chromium({"PATH": str(tmp_path)}) == found


def test_the_one_that_is_named_comes_first(tmp_path: Path):
    program(tmp_path, "chromium")
    named = program(tmp_path, "my-browser")
    assert find_chromium({"PATH": str(tmp_path), "CHROMIUM": named}) == named


def test_a_named_one_that_is_not_there_is_not_replaced_by_another(tmp_path: Path):
    program(tmp_path, "chromium")
    assert find_chromium({"PATH": str(tmp_path), "CHROMIUM": "/nowhere/chromium"}) is None


def test_no_browser_is_none(tmp_path: Path):
    assert find_chromium({"PATH": str(tmp_path)}) is None


def test_a_browser_is_required_only_when_said():
    assert browser_is_required({"REQUIRE_BROWSER": "1"})
    assert not browser_is_required({"REQUIRE_BROWSER": "0"})
    assert not browser_is_required({})
