"""The style sheets of the rooms beside the common ones: no room gives a second meaning to a common word."""

import re
from pathlib import Path

import pytest
from django.conf import settings

SHEETS = Path(settings.BASE_DIR) / "courses/static/kenspeckle/css"
COMMON = ("base.css", "pieces.css", "records.css", "forms.css")
ROOMS = sorted(path.name for path in SHEETS.glob("*.css") if path.name not in (*COMMON, "tokens.css", "print.css"))


def rules(name: str) -> list[str]:
    """Every selector of a sheet for the screen."""
    text = re.sub(r"/\*.*?\*/", "", (SHEETS / name).read_text(), flags=re.DOTALL).split("@media print")[0]
    return [each.strip() for group in re.findall(r"([^{}]+)\{", text) for each in group.split(",")]


COMMON_WORDS = {word for name in COMMON for rule in rules(name) for word in re.findall(r"\.([a-z][\w-]*)", rule)}


@pytest.mark.parametrize("name", ROOMS)
def test_no_sheet_of_a_room_styles_alone_what_a_common_sheet_styles(name: str) -> None:
    """A bare `.shows` in one room once laid out every month that shows as if it were a line of a meeting."""
    alone = {found[1] for rule in rules(name) if (found := re.fullmatch(r"\.([a-z][\w-]*)", rule))}
    assert alone & COMMON_WORDS == set()
