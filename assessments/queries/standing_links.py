"""Where the pages of one person's standing lie, so that every figure on them can lead to its answers."""

from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse

from assessments.rules.behind import Part
from assessments.rules.standard import Side


@dataclass(frozen=True)
class StandingLinks:
    """Addresses under one standard: the viewer's own where `person` is None, else of the user with that id."""

    standard_key: str
    person: int | None = None

    @property
    def standing(self) -> str:
        """The page of the whole standing."""
        return self._address("standing")

    @property
    def set_aside(self) -> str:
        """The answers that belong to no pair of the standard."""
        return self._address("set_aside")

    def ledger(self, species: str, side: Side, part: Part | None = None, window: int = 1) -> str:
        """The answers to one species: all of them, or those of one part seen from one window."""
        query = "?" + urlencode({"show": str(part), "window": window}) if part is not None else ""
        return self._address("ledger", species, str(side)) + query

    def _address(self, name: str, *more: str) -> str:
        if self.person is None:
            return reverse(f"assessments:{name}", args=[self.standard_key, *more])
        return reverse(f"assessments:{name}_of", args=[self.person, self.standard_key, *more])
