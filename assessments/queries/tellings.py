"""What tells the two plants of a pair apart, in the words of its own list."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass

from species.models import PairCharacter
from species.rules.vocabulary import Trust

MOST_CHARACTERS = 4
Characters = dict[str, list[PairCharacter]]
"""By the key of a pair: its characters that are to be relied on."""


@dataclass(frozen=True)
class Telling:
    """What told a pair apart: what to look at, what it shows on either plant, and the key of the character."""

    what: str
    on_gathered: str
    on_mistaken: str
    character: str = ""


def characters_of(pairs: Collection[str]) -> Characters:
    """The characters of these pairs; one query."""
    found: Characters = defaultdict(list)
    rows = PairCharacter.objects.filter(pair__key__in=pairs)
    for row in rows.exclude(trust=Trust.NOT_TO_BE_RELIED_ON).select_related("character", "pair"):
        found[row.pair.key].append(row)
    return found


def tellings_at(rows: Collection[PairCharacter], stage: str) -> tuple[Telling, ...]:
    """The best characters of a pair that can be seen in a stage, deciding ones first."""
    seen = [row for row in rows if not row.stages or stage in row.stages]
    seen.sort(key=lambda row: (row.trust != Trust.DECISIVE, row.order))
    return tuple(
        Telling(row.name, row.gathered_text, row.mistaken_text, row.character.key if row.character else "")
        for row in seen[:MOST_CHARACTERS]
    )
