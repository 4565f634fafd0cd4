"""How many people a meeting has room for: what was set for it, and what its leaders can take at its site. Pure."""

from dataclasses import dataclass
from enum import StrEnum


class Bound(StrEnum):
    """What keeps a meeting from taking more."""

    SET = "set"
    LEADERS = "leaders"


@dataclass(frozen=True)
class Room:
    """At most so many people, and why no more."""

    most: int
    bound: Bound


def room_for(most_people: int | None, group_size: int | None, named: int) -> Room | None:
    """The room of a meeting; None where nothing bounds it.

    `group_size`: most people to one leader at the site; `named`: leader and assistants, of whom each takes a group
    (common practice, no source). While nobody is named, one leader is reckoned with.
    """
    bounds = []
    if most_people is not None:
        bounds.append(Room(most_people, Bound.SET))
    if group_size is not None:
        bounds.append(Room(group_size * max(1, named), Bound.LEADERS))
    return min(bounds, key=lambda each: each.most, default=None)
