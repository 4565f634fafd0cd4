"""The headings of a risk assessment, and what changed between two reviews. Pure.

The headings are common practice of the trade, no source. What is written under them is the school's own.
"""

from collections.abc import Mapping
from dataclasses import dataclass

HEADINGS = (
    "site_and_access",
    "ground",
    "weather",
    "plants",
    "ticks_and_stings",
    "contamination",
    "people",
    "tasting",
    "tools",
    "lone_working",
    "signal",
    "emergency",
)


@dataclass(frozen=True)
class Change:
    """What one heading said before and says now; `is_new` and `is_gone` where one of the two is empty."""

    heading: str
    before: str
    now: str

    @property
    def is_new(self) -> bool:
        return bool(self.now) and not self.before

    @property
    def is_gone(self) -> bool:
        return bool(self.before) and not self.now


def changes_between(before: Mapping[str, str], now: Mapping[str, str]) -> tuple[Change, ...]:
    """The headings that say something else than before, in their order; spaces at the ends do not count."""
    pairs = ((heading, before.get(heading, "").strip(), now.get(heading, "").strip()) for heading in HEADINGS)
    return tuple(Change(*each) for each in pairs if each[1] != each[2])


def unanswered(headings: Mapping[str, str]) -> tuple[str, ...]:
    """The headings under which nothing is written."""
    return tuple(heading for heading in HEADINGS if not headings.get(heading, "").strip())
