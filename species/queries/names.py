"""Every name that the school knows, and the species that bears it."""

from dataclasses import dataclass

from species.models import Species
from species.rules.names import nearest_names, squeezed


@dataclass(frozen=True)
class KnownNames:
    """The species by each of their names: scientific, common, older, and that of the aggregate."""

    species: dict[str, Species]
    names: dict[str, str]
    """Each name as it is written, to the key of its species."""

    def called(self, text: str) -> Species | None:
        """The species that bears this name, whatever its case, accents and hyphens; None where none does."""
        key = {squeezed(name): key for name, key in self.names.items()}.get(squeezed(text))
        return self.species[key] if key else None

    def nearest(self, text: str) -> tuple[str, ...]:
        """The names that look most like a wrong one."""
        return nearest_names(text, self.names)


def known_names() -> KnownNames:
    """All names of all species; three queries."""
    rows = list(Species.objects.prefetch_related("common_names", "synonyms"))
    names: dict[str, str] = {}
    for row in rows:
        for name in [row.name, *(n.name for n in row.common_names.all()), *(n.name for n in row.synonyms.all())]:
            names.setdefault(name, row.key)
    return KnownNames({row.key: row for row in rows}, names)
