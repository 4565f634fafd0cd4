"""The question kinds there are. A new one is a module of the same name in every ring, and a line here."""

from . import name_and_decide, point_at_it, side_by_side, which_character
from .shape import Kind

KINDS: tuple[Kind, ...] = (
    name_and_decide.KIND,
    which_character.KIND,
    point_at_it.KIND,
    side_by_side.KIND,
)


def kind_called(key: str) -> Kind:
    """The kind with this key. KeyError if there is none."""
    for kind in KINDS:
        if kind.key == key:
            return kind
    raise KeyError(key)


def counts_as_evidence(key: str) -> bool:
    """Whether right answers to this kind enter a ledger. A kind that is not listed does not."""
    return any(kind.counts for kind in KINDS if kind.key == key)
