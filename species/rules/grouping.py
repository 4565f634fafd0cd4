"""Which photographs that came in show the same plant at the same time: a proposal, for somebody to agree to.

Two photographs are linked when any of these holds, and nothing speaks against it:

- the same camera took them within a moment of each other (a burst, or one walk around a plant);
- the same camera took them within a few minutes, and at the same spot;
- they look alike. Only this joins the pictures of two cameras, since their clocks need not agree.

Against it speak two different days, and two spots further apart than a receiver errs. A group holds together only
while all of it fits one spot and, likeness aside, a short time: a walk along a bank is no single plant. Pictures
of one spot on two days are the same plant met again, if anything: a proposal of its own, never one group.
All numbers are choices, kept honest by the tests.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import combinations
from math import asin, cos, radians, sin, sqrt

from species.rules.likeness import NEAR, distance

MOMENT = timedelta(seconds=90)
SAME_SPOT_WITHIN = timedelta(minutes=10)
LONGEST = timedelta(minutes=15)
SPOT_METRES = 15.0
WIDEST_METRES = 30.0
_EARTH_METRES = 6_371_000.0


@dataclass(frozen=True)
class Spot:
    """Where a camera was, in degrees."""

    latitude: float
    longitude: float


@dataclass(frozen=True)
class Shot:
    """One photograph: what tells it from others, and what its file and its picture say; None or "" is not known."""

    key: str
    taken_at: datetime | None = None
    camera: str = ""
    spot: Spot | None = None
    likeness: int | None = None


@dataclass(frozen=True)
class Grouping:
    """The groups, each with the keys of its shots in order of time, and pairs of groups that may be one plant
    on two days (positions in `groups`)."""

    groups: tuple[tuple[str, ...], ...]
    met_again: tuple[tuple[int, int], ...] = ()


def metres_between(first: Spot, second: Spot) -> float:
    """The distance over ground (haversine, on a sphere)."""
    north = radians(second.latitude - first.latitude)
    east = radians(second.longitude - first.longitude)
    level = cos(radians(first.latitude)) * cos(radians(second.latitude))
    half = sin(north / 2) ** 2 + level * sin(east / 2) ** 2
    return 2 * _EARTH_METRES * asin(min(1.0, sqrt(half)))


def grouped(shots: Sequence[Shot]) -> Grouping:
    """Group shots. Every shot is in exactly one group; one that nothing links stands alone."""
    ordered = sorted(shots, key=_in_time)
    groups: dict[int, list[Shot]] = {place: [shot] for place, shot in enumerate(ordered)}
    group_of = dict(enumerate(range(len(ordered))))
    for _strength, first, second in _links(ordered):
        mine, theirs = group_of[first], group_of[second]
        if mine == theirs:
            continue
        together = groups[mine] + groups[theirs]
        if _holds_together(together, are_alike=_alike(ordered[first], ordered[second])):
            groups[min(mine, theirs)] = sorted(together, key=_in_time)
            gone = max(mine, theirs)
            del groups[gone]
            group_of = {place: min(mine, theirs) if group == gone else group for place, group in group_of.items()}
    found = sorted(groups.values(), key=lambda group: _in_time(group[0]))
    return Grouping(tuple(tuple(shot.key for shot in group) for group in found), _met_again(found))


def _in_time(shot: Shot) -> tuple[bool, datetime, str]:
    return (shot.taken_at is None, shot.taken_at or datetime.min, shot.key)


def _links(shots: Sequence[Shot]) -> list[tuple[float, int, int]]:
    """What links two shots, the strongest first: likeness before time, a short time before a long one."""
    found = []
    for first, second in combinations(range(len(shots)), 2):
        strength = _strength(shots[first], shots[second])
        if strength is not None:
            found.append((strength, first, second))
    return sorted(found)


def _strength(first: Shot, second: Shot) -> float | None:
    if _day(first) and _day(second) and _day(first) != _day(second):
        return None
    apart = _apart(first, second)
    if apart is not None and apart > SPOT_METRES:
        return None
    if _alike(first, second):
        return -1.0
    if first.camera != second.camera or first.taken_at is None or second.taken_at is None:
        return None
    gap = abs(second.taken_at - first.taken_at)
    if gap <= MOMENT or (gap <= SAME_SPOT_WITHIN and apart is not None):
        return gap.total_seconds()
    return None


def _alike(first: Shot, second: Shot) -> bool:
    if first.likeness is None or second.likeness is None:
        return False
    return distance(first.likeness, second.likeness) <= NEAR


def _apart(first: Shot, second: Shot) -> float | None:
    return metres_between(first.spot, second.spot) if first.spot and second.spot else None


def _holds_together(shots: Sequence[Shot], *, are_alike: bool) -> bool:
    days = {day for shot in shots if (day := _day(shot))}
    spots = [shot.spot for shot in shots if shot.spot]
    if len(days) > 1 or any(metres_between(a, b) > WIDEST_METRES for a, b in combinations(spots, 2)):
        return False
    moments = [shot.taken_at for shot in shots if shot.taken_at]
    return are_alike or not moments or max(moments) - min(moments) <= LONGEST


def _met_again(groups: Sequence[Sequence[Shot]]) -> tuple[tuple[int, int], ...]:
    found = []
    for first, second in combinations(range(len(groups)), 2):
        one, other = groups[first], groups[second]
        days = {_day(shot) for shot in one} - {None}, {_day(shot) for shot in other} - {None}
        if days[0] and days[1] and not days[0] & days[1] and _share_a_spot(one, other):
            found.append((first, second))
    return tuple(found)


def _share_a_spot(one: Sequence[Shot], other: Sequence[Shot]) -> bool:
    return any(
        metres_between(first.spot, second.spot) <= SPOT_METRES
        for first in one
        for second in other
        if first.spot and second.spot
    )


def _day(shot: Shot) -> date | None:
    return shot.taken_at.date() if shot.taken_at else None
