"""The question kinds there are. A new one is a module of the same name in every ring, and a line here."""

from . import name_and_decide, point_at_it, side_by_side, which_character
from .shape import Kind

KINDS: tuple[Kind, ...] = (
    name_and_decide.KIND,
    which_character.KIND,
    point_at_it.KIND,
    side_by_side.KIND,
)


def counts_as_evidence(key: str, kinds: tuple[Kind, ...] = KINDS) -> bool:
    """Whether right answers to this kind enter a ledger. A kind that is not listed does not."""
    return any(kind.counts for kind in kinds if kind.key == key)
