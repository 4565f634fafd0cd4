"""Every address that a template of this room names exists, so that a link that is left out is left out on purpose."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.urls import get_resolver

FOLDER = Path(settings.BASE_DIR) / "templates" / "courses"
URL = re.compile(r"""{%\s*url\s+['"](\w+(?::\w+)?)['"]""")
NAMED = sorted(
    {(path.name, name) for path in FOLDER.rglob("*.*") for name in URL.findall(path.read_text(encoding="utf-8"))}
)


def names_known() -> set[str]:
    """All names of addresses, those of the rooms with the room in front."""
    resolver = get_resolver()
    known = {name for name in resolver.reverse_dict if isinstance(name, str)}
    for room, (_prefix, inner) in resolver.namespace_dict.items():
        known |= {f"{room}:{name}" for name in inner.reverse_dict if isinstance(name, str)}
    return known


@pytest.mark.parametrize(("template", "name"), NAMED)
def test_the_address_exists(template: str, name: str) -> None:
    assert name in names_known()


def test_there_are_links_to_look_at() -> None:
    assert len(NAMED) > 50
