"""The whole inventory of what is held of people, in the order of the activities. Pure.

A new model, or a new field of one, gets its place in one of the modules beside this one; a test fails until it has.
"""

from .evidence import LINES as EVIDENCE
from .people import LINES as PEOPLE
from .plants import LINES as PLANTS
from .shape import Activity, Holding, Nature
from .teaching import LINES as TEACHING

HOLDINGS: tuple[Holding, ...] = (*PEOPLE, *TEACHING, *EVIDENCE, *PLANTS)

NOTHING_OF_PEOPLE = frozenset({"auth.Permission", "auth.Group", "contenttypes.ContentType"})
"""Models of Django that hold nothing about anybody."""


def holdings_for(activity: Activity) -> tuple[Holding, ...]:
    """What is held for one purpose, where it is about people at all."""
    return tuple(each for each in HOLDINGS if each.activity is activity and each.is_personal)


def free_texts() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Model by model the fields in whose free text people may be named."""
    found = ((each.model, each.of(Nature.WORDS)) for each in HOLDINGS)
    return tuple((model, fields) for model, fields in found if fields)
