"""The readiness board: everybody on the way to leading against what is asked, filtered, a page at a time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from courses.models import Certificate, CertifiedPair, Person
from courses.models import Requirement as RequirementRow
from courses.rules.certification import State
from courses.rules.readiness import Readiness, readiness
from courses.rules.requirements import LeaderFacts
from species.models import Pair

from .certificates import state_on
from .leader_facts import asked_of
from .readiness import OnTheWay
from .sentences.requirements import CheckLine, check_lines, requirement_name
from .sentences.ways import WayLine, way_line
from .ways import ways_of

LEADER, ASSISTANT = RequirementRow.Part.LEADER.value, RequirementRow.Part.ASSISTANT.value
READY, NOT_YET, LAPSING = "ready", "not_yet", "lapsing"


@dataclass(frozen=True)
class BoardAsk:
    """What somebody looks for. Empty: no matter.

    part: leader or assistant; state: ready, not_yet or lapsing (met today, not in sixty days); missing: a requirement;
    pair: one that a current leader's certificate has to stand for; words: of the name.
    """

    part: str = LEADER
    state: str = ""
    missing: str = ""
    pair: str = ""
    words: str = ""


Found = tuple[int, Readiness]
"""Somebody by their id, and how they stand."""


@dataclass(frozen=True)
class Board:
    """Everybody who answers to what was asked, the readiest first, and how many there are of each kind in all."""

    requirements: tuple[tuple[str, str], ...]
    found: list[Found]
    everybody: int
    ready: int
    lapsing: int


@dataclass(frozen=True)
class LeaderLine:
    """One person on the board."""

    person: Person
    ready: bool
    checks: list[CheckLine]
    way: WayLine


def board(ask: BoardAsk, everybody: OnTheWay, now: datetime) -> Board:
    """Who answers to what is asked; two queries more where a pair is."""
    asked, today = asked_of(ask.part), timezone.localdate(now)
    stand = everybody.readiness(asked, today)
    among = _standing_for(ask.pair, now) if ask.pair else None
    found = [
        (person, each)
        for person, each in stand.items()
        if (among is None or person in among) and _answers(everybody.names[person], each, ask)
    ]
    found.sort(key=lambda each: (len(each[1].missing), everybody.names[each[0]]))
    shown = [check.requirement for check in readiness(LeaderFacts(), today, asked).checks]
    return Board(
        requirements=tuple((each.value, requirement_name(each)) for each in shown),
        found=found,
        everybody=len(stand),
        ready=sum(each.ready for each in stand.values()),
        lapsing=sum(bool(each.lapsing) for each in stand.values()),
    )


def board_lines(found: Sequence[Found], part: str, now: datetime) -> list[LeaderLine]:
    """Some people of the board in words, each with the shortest way; a constant number of queries."""
    people = Person.objects.in_bulk([person for person, _each in found])
    today, ways = timezone.localdate(now), ways_of({people[person]: each for person, each in found}, part, now)
    return [
        LeaderLine(people[person], each.ready, check_lines(each), way_line(ways[person], today))
        for person, each in found
    ]


@dataclass(frozen=True)
class BoardChoices:
    """What the filters offer: value and words. parts: empty where nothing is asked of assistants."""

    parts: list[tuple[str, str]]
    requirements: list[tuple[str, str]]
    pairs: list[tuple[str, str]]


def board_choices() -> BoardChoices:
    """The choices as they are today; three queries."""
    leaders, assistants = asked_of(LEADER), asked_of(ASSISTANT)
    names = {each.requirement.value: requirement_name(each.requirement) for each in (*leaders, *assistants)}
    rows = Pair.objects.dangerous().with_both_species()
    return BoardChoices(
        parts=[(value, str(label)) for value, label in RequirementRow.Part.choices] if assistants else [],
        requirements=list(names.items()),
        pairs=[(row.key, f"{row.gathered.common_name} / {row.mistaken.common_name}") for row in rows],
    )


def _answers(name: str, found: Readiness, ask: BoardAsk) -> bool:
    states: Mapping[str, bool] = {READY: found.ready, NOT_YET: not found.ready, LAPSING: bool(found.lapsing)}
    if ask.missing and ask.missing not in {check.requirement.value for check in found.missing}:
        return False
    return states.get(ask.state, True) and all(word in name.casefold() for word in ask.words.casefold().split())


def _standing_for(pair: str, now: datetime) -> set[int]:
    """People whose leader certificate is current and stands for a pair; three queries."""
    today = timezone.localdate(now)
    holding = CertifiedPair.objects.left().filter(key=pair).values("certificate")
    rows = Certificate.objects.filter(pk__in=holding, standard__leads_walks=True).not_expired(today)
    return {row.person_id for row in rows.prefetch_related("events") if state_on(row, today) is State.CURRENT}
