"""What kept ledgers were computed from, as stamps: a kept row is current exactly when its stamp is today's.

A ledger follows from the standard, the names of the plants, the windows of the period that runs, and the
answers to its species. The stamp is a digest of all of these as they are in the database at the moment of
reading, and of the program that computes it; so no action, in whatever room, has to say that it changed
something, and time that passes shows in the windows. Of an answer, its number stands for everything that is
written once; beside it stand the columns that may change: those of the specimen, voidings, annulled sittings.
"""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import fields, is_dataclass
from datetime import datetime
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from django.db.models import Exists, OuterRef

from assessments import rules
from assessments.models import Evidence, Voiding
from assessments.rules.standard import Side, StandardFacts
from species.rules import vocabulary
from species.rules.vocabulary import Settlement

from .evidence import windows_of
from .flora import Flora

CHANGING = (
    "specimen__individual_id",
    "specimen__individual__locality_id",
    "specimen__stage",
    "specimen__seen_on",
    "specimen__drawing_seed",
    "sitting__annulled_at",
    "is_void",
)
READERS = ("evidence.py", "flora.py", "standards.py")


class LedgerKey(NamedTuple):
    """Which ledger: of whom, under which version, on which side, of which species."""

    person: int
    standard: int
    side: Side
    species: str


def ledger_stamps(
    people: Collection[int], facts: Mapping[int, StandardFacts], now: datetime, flora: Flora
) -> dict[LedgerKey, str]:
    """The stamp of every ledger of these users under these versions; two queries, however many."""
    windows, answers = windows_of(people, now), _answer_stamps(people)
    names = _names_stamp(flora)
    found: dict[LedgerKey, str] = {}
    for standard, each in facts.items():
        common = f"{_program_stamp()} {names} {_stamp(_plain(each))}"
        for person in people:
            mine = f"{common} {_stamp(_plain(windows[person]))}"
            for side in Side:
                for species in each.species(side):
                    answered = answers.get((person, species), "")
                    found[LedgerKey(person, standard, side, species)] = _stamp(f"{mine} {side} {species} {answered}")
    return found


def standing_stamp(ledgers: Mapping[LedgerKey, str]) -> str:
    """The stamp of a standing: that of all its ledgers."""
    return _stamp(" ".join(stamp for _, stamp in sorted(ledgers.items())))


def _answer_stamps(people: Collection[int]) -> dict[tuple[int, str], str]:
    """Per person and species as determined today: the answers and what may have changed about them."""
    void = Exists(Voiding.objects.standing().filter(specimen_id=OuterRef("specimen_id")))
    rows = (
        Evidence.objects.of_people(list(people))
        .filter(specimen__settlement=Settlement.CONFIRMED, specimen__species__isnull=False)
        .annotate(is_void=void)
        .order_by("id")
        .values_list("person_id", "specimen__species__key", "id", *CHANGING)
    )
    found: dict[tuple[int, str], list[object]] = defaultdict(list)
    for person, species, *rest in rows:
        found[person, species].append(rest)
    return {key: _stamp(repr(mine)) for key, mine in found.items()}


def _names_stamp(flora: Flora) -> str:
    named = [
        (entry.key, flora.plants[entry.key].id, entry.genus, sorted(entry.texts), sorted(entry.also_right))
        for entry in flora.entries
    ]
    return _stamp(repr(sorted(named)))


@lru_cache(maxsize=1)
def _program_stamp() -> str:
    """The source of the rules and of what reads their facts: another version of the program, another stamp."""
    here = Path(__file__).parent
    sources = [*Path(rules.__path__[0]).rglob("*.py"), Path(vocabulary.__file__), *(here / name for name in READERS)]
    return _stamp("\n".join(source.read_text(encoding="utf-8") for source in sorted(sources)))


def _stamp(text: str) -> str:
    return sha256(text.encode()).hexdigest()


def _plain(value: object) -> str:
    """A record in words that are the same in every run of the program: sets and mappings in order."""
    if is_dataclass(value) and not isinstance(value, type):
        return f"({' '.join(f'{each.name}={_plain(getattr(value, each.name))}' for each in fields(value))})"
    if isinstance(value, Mapping):
        return f"{{{' '.join(sorted(f'{_plain(key)}:{_plain(each)}' for key, each in value.items()))}}}"
    if isinstance(value, frozenset):
        return f"{{{' '.join(sorted(_plain(each) for each in value))}}}"
    if isinstance(value, tuple | list):
        return f"[{' '.join(_plain(each) for each in value)}]"
    return value.isoformat() if isinstance(value, datetime) else repr(value)
