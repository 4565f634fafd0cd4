"""This walk: which dangerous pairs can be met there and then, who could lead it, and a proposal for all walks."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

from assessments.models import Standard
from assessments.queries.flora import the_flora
from assessments.queries.kept_standings import figures_of
from assessments.queries.standards import standards_with_parts
from assessments.rules.standard import Side
from courses.models import Availability, Certificate, Meeting, Person, Site, SiteRecord
from courses.queries.course_plan import calendars
from courses.queries.sentences.requirements import CheckLine, check_line
from courses.rules.certification import State, state_of
from courses.rules.leaders import Bar, Candidate, Chosen, WalkFacts, propose_leaders
from courses.rules.readiness import readiness
from courses.rules.walk_check import Lack, PairFacts, PairThere, lacking, leaders_needed, pairs_there
from species.models import Pair
from species.models.flora import STAGE_WORDS
from species.queries.season import plants_seen_at
from species.rules.season import Calendar

from .leader_facts import asked_of, leader_facts, occasion_of
from .readiness import possible_leaders

STAGES = dict(STAGE_WORDS)
SEEN_LATELY = timedelta(days=42)
SEASON = timedelta(days=183)
ADULTS_TO_A_LEADER = 12
"""Where a site says nothing: common practice, no source."""


@dataclass(frozen=True)
class PairLine:
    """A pair that can be met, in words."""

    key: str
    gathered: str
    mistaken: str
    stages: tuple[str, ...]


@dataclass(frozen=True)
class LackLine:
    """What a candidate lacks on a pair: the pair, and the stages; all of it where `whole`."""

    pair: PairLine
    stages: tuple[str, ...]
    whole: bool


@dataclass(frozen=True)
class CandidateLine:
    """Somebody who might lead this walk: what is missing of requirements and of pairs; whether they can come."""

    person: Person
    missing: tuple[CheckLine, ...]
    lacks: tuple[LackLine, ...]
    can_come: bool | None
    is_busy: bool

    @property
    def could_lead(self) -> bool:
        return not self.missing and not self.lacks and self.can_come is not False and not self.is_busy


@dataclass(frozen=True)
class WalkPage:
    """One walk: what can be met, who could lead, how many leaders and assistants the group asks for."""

    walk: Meeting
    pairs: tuple[PairLine, ...]
    candidates: tuple[CandidateLine, ...]
    people: int
    group_size: int
    leaders_needed: int

    @property
    def named(self) -> int:
        """Leader and assistants as they are named."""
        return (1 if self.walk.leader_id else 0) + self.walk.assistants.count()


@dataclass(frozen=True)
class Proposed:
    """One walk of a proposal: who is proposed out of those who could, or what bars each."""

    walk: Meeting
    person: Person | None
    could: tuple[Person, ...]
    barred: tuple[tuple[Person, str], ...]


def walk_page(walk: Meeting, now: datetime) -> WalkPage:
    """All of one walk, in a constant number of queries."""
    lines, pairs = _candidates([walk], now)
    people = walk.course.enrolments.with_a_place().count() if walk.course else 0
    group = (walk.site.group_size if walk.site else None) or ADULTS_TO_A_LEADER
    return WalkPage(
        walk,
        tuple(pairs[walk.pk]),
        tuple(sorted(lines[walk.pk], key=lambda line: (not line.could_lead, line.person.name))),
        people,
        group,
        leaders_needed(people, group),
    )


def proposal(now: datetime) -> list[Proposed]:
    """A leader for every walk of the season that has none, as the rule proposes; the same queries for all."""
    rows = Meeting.objects.walks().coming(now).without_leader().filter(starts_at__lte=now + SEASON)
    walks = list(rows.select_related("course", "site__locality").order_by("starts_at", "pk"))
    lines, _pairs = _candidates(walks, now)
    people = {line.person.pk: line.person for each in lines.values() for line in each}
    led = _led(people, now)
    candidates = [
        Candidate(str(pk), led.get(pk, 0), _bars(pk, walks, lines))
        for pk, _person in sorted(people.items(), key=lambda item: item[1].name)
    ]
    facts = [WalkFacts(walk.key, walk.starts_at, walk.ends_at) for walk in walks]
    by_key = {walk.key: walk for walk in walks}
    return [_proposed(each, by_key[each.walk], people) for each in propose_leaders(facts, candidates)]


def _proposed(chosen: Chosen, walk: Meeting, people: Mapping[int, Person]) -> Proposed:
    person = people[int(chosen.person)] if chosen.person else None
    barred = tuple((people[int(key)], bar.value) for key, bar in chosen.barred.items())
    return Proposed(walk, person, tuple(people[int(key)] for key in chosen.could), barred)


def _bars(person: int, walks: Sequence[Meeting], lines: Mapping[int, Sequence[CandidateLine]]) -> dict[str, Bar]:
    bars: dict[str, Bar] = {}
    for walk in walks:
        line = next((each for each in lines[walk.pk] if each.person.pk == person), None)
        if line is None or line.missing:
            bars[walk.key] = Bar.NOT_READY
        elif line.lacks:
            bars[walk.key] = Bar.LACKS_PAIRS
        elif line.can_come is False:
            bars[walk.key] = Bar.NOT_FREE
        elif line.is_busy:
            bars[walk.key] = Bar.BUSY
    return bars


def _led(people: Collection[int], now: datetime) -> dict[int, int]:
    """How many walks of the season around now each leads already."""
    rows = Meeting.objects.walks().standing().filter(leader__in=people)
    rows = rows.filter(starts_at__gte=now - SEASON, starts_at__lte=now + SEASON)
    found: dict[int, int] = {}
    for leader in rows.values_list("leader_id", flat=True):
        if leader is not None:
            found[leader] = found.get(leader, 0) + 1
    return found


def _candidates(
    walks: Sequence[Meeting], now: datetime
) -> tuple[dict[int, list[CandidateLine]], dict[int, list[PairLine]]]:
    """For each walk everybody who is on the way to leading, and the pairs to be met; the same queries for all."""
    people = possible_leaders()
    keys = [person.pk for person in people]
    facts, asked, passed = leader_facts(keys), asked_of(), _passed(people, now)
    pairs, there = _pairs_there(walks)
    said = {(row.person_id, row.meeting_id): row.can_come for row in Availability.objects.filter(meeting__in=walks)}
    busy = _busy(keys)
    lines: dict[int, list[CandidateLine]] = {}
    for walk in walks:
        occasion = occasion_of(walk)
        lines[walk.pk] = [
            CandidateLine(
                person,
                tuple(
                    check_line(check) for check in readiness(facts[person.pk](occasion.day), occasion, asked).missing
                ),
                tuple(_lack_line(each, pairs) for each in lacking(there[walk.pk], passed.get(person.pk, {}))),
                said.get((person.pk, walk.pk)),
                any(
                    key != walk.pk and starts < walk.ends_at and ends > walk.starts_at
                    for key, starts, ends in busy.get(person.pk, ())
                ),
            )
            for person in people
        ]
    shown = {pk: [pairs[each.key] for each in found] for pk, found in there.items()}
    stages = {pk: {each.key: each.stages for each in found} for pk, found in there.items()}
    return lines, {
        pk: [PairLine(p.key, p.gathered, p.mistaken, _words(stages[pk][p.key])) for p in found]
        for pk, found in shown.items()
    }


def _busy(people: Collection[int]) -> dict[int, list[tuple[int, datetime, datetime]]]:
    found: dict[int, list[tuple[int, datetime, datetime]]] = {}
    rows = Meeting.objects.standing()
    led = rows.filter(leader__in=people).values_list("leader", "pk", "starts_at", "ends_at")
    assisted = rows.filter(assistants__in=people).values_list("assistants", "pk", "starts_at", "ends_at")
    for person, key, starts, ends in [*led, *assisted]:
        found.setdefault(person, []).append((key, starts, ends))
    return found


def _pairs_there(walks: Sequence[Meeting]) -> tuple[dict[str, PairLine], dict[int, tuple[PairThere, ...]]]:
    rows = list(Pair.objects.dangerous().with_both_species())
    flora = the_flora()
    facts = [PairFacts(row.key, row.gathered.key, row.mistaken.key) for row in rows]
    lines = {
        row.key: PairLine(row.key, flora.common(row.gathered.key), flora.common(row.mistaken.key), ()) for row in rows
    }
    shows: dict[str, Calendar] = calendars()
    known = {site.pk: _known_at(site) for site in {walk.site for walk in walks if walk.site}}
    there = {}
    for walk in walks:
        day = timezone.localdate(walk.starts_at)
        late = walk.site.locality.days_late if walk.site else 0
        species, lately = known.get(walk.site_id or 0, (set(), {}))
        seen = {
            key: [stage for stage, seen_on in each if timedelta(0) <= day - seen_on <= SEEN_LATELY]
            for key, each in lately.items()
        }
        there[walk.pk] = pairs_there(facts, shows, species, day, late, seen)
    return lines, there


def _known_at(site: Site) -> tuple[set[str], dict[str, list[tuple[str, date]]]]:
    """The species known at a site, and those seen there with stage and day; two queries a site."""
    seen: dict[str, list[tuple[str, date]]] = {}
    for key, stage, seen_on in SiteRecord.objects.filter(site=site).values_list("species__key", "stage", "seen_on"):
        seen.setdefault(key, []).append((stage, seen_on))
    photographed = plants_seen_at(site.locality).values_list("key", flat=True)
    return set(seen) | set(photographed), seen


def _passed(people: Sequence[Person], now: datetime) -> dict[int, dict[str, frozenset[str]]]:
    """By person the pairs that a current leader certificate covers, with the stages they were shown to tell.

    The stages are those of today's evidence: what was never shown to somebody they do not lead among.
    """
    today = timezone.localdate(now)
    rows = Certificate.objects.filter(person__in=people, standard__leads_walks=True).prefetch_related("events")
    covered: dict[int, set[str]] = {}
    for row in rows.select_related("standard"):
        events = tuple(event.kind for event in row.events.all())
        if state_of(row.valid_from, row.valid_until, events, today) is State.CURRENT:
            covered.setdefault(row.person_id, set()).update(_pairs_of(row))
    found: dict[int, dict[str, frozenset[str]]] = {}
    for standard in standards_with_parts().filter(leads_walks=True):
        stages = _stages_shown(standard, [person.user_id for person in people if person.pk in covered], now)
        for person in people:
            for pair, shown in stages.get(person.user_id, {}).items():
                if pair in covered.get(person.pk, ()):
                    mine = found.setdefault(person.pk, {})
                    mine[pair] = mine.get(pair, frozenset()) | shown
    return found


def _pairs_of(certificate: Certificate) -> set[str]:
    """The pairs that a certificate names, less what it was narrowed by."""
    named = {each["key"] for each in certificate.facts.get("pairs", ())}
    for event in certificate.events.all():
        if event.kind == "narrowed":
            named &= set(event.facts.get("pairs", named))
    return named


def _stages_shown(standard: Standard, users: Collection[int], now: datetime) -> dict[int, dict[str, frozenset[str]]]:
    found: dict[int, dict[str, frozenset[str]]] = {}
    pairs = [(row.pair.key, row.pair.mistaken.key) for row in standard.pairs.all()]
    for user, figures in figures_of(users, standard, now, the_flora()).items():
        by_species = {
            each.species: frozenset(stage for window in each.windows for stage in window.covered)
            for each in figures.ledgers
            if each.side is Side.DANGEROUS
        }
        found[user] = {key: by_species.get(species, frozenset()) for key, species in pairs}
    return found


def _lack_line(lack: Lack, pairs: Mapping[str, PairLine]) -> LackLine:
    return LackLine(pairs[lack.pair], _words(lack.stages), lack.whole)


def _words(stages: Sequence[str]) -> tuple[str, ...]:
    return tuple(str(STAGES[stage]) for stage in stages)
