"""Files of published standards, read from a folder that the environment names, since they are not ours to copy."""

import os
from pathlib import Path

import pytest


def standards_file(path: str) -> Path:
    """A file below STANDARDS_FOLDER; the test is skipped, with the reason, where the folder is not named."""
    folder = os.environ.get("STANDARDS_FOLDER", "")
    if not folder:
        pytest.skip("STANDARDS_FOLDER names no folder of published standards, so nothing can be checked against them")
    found = Path(folder) / path
    assert found.is_file(), f"STANDARDS_FOLDER has no {path}"
    return found
