"""Who needs what next week: what each still lacks, and what of it the meetings of the coming days show."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.queries.evidence import answers_of
from assessments.queries.flora import Flora, the_flora
from assessments.queries.kept_standings import figures_of
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.rules.figures import PairFigures
from assessments.rules.standing import misses_since
from courses.models import Course, Meeting, Person
from courses.rules.next_week import Need, PairInNeed, Shows, in_order_of_need, pairs_in_need, what_shows
from courses.rules.progress import progress_from
from species.models import Pair
from species.rules.season import Calendar, stages_showing
from species.rules.vocabulary import Edibility, Stage

from .course_plan import calendars
from .home_tutor import LATELY

A_WEEK = timedelta(days=7)
MOST_NEEDS = 3
"""Pairs listed for one person: more than can be taught in a week helps nobody; the table holds all."""


@dataclass(frozen=True)
class Chance:
    """A meeting of the coming week, as far as one pair goes: on its plan or not, and what of the pair shows."""

    meeting: Meeting
    is_planned: bool
    shows: Shows


@dataclass(frozen=True)
class PairLine:
    """A pair that somebody needs, with where it can be met."""

    need: PairInNeed
    gathered: str
    mistaken: str
    level: str
    people: tuple[Person, ...]
    chances: tuple[Chance, ...]


@dataclass(frozen=True)
class PersonLine:
    """One person with what they need most, and the number of pairs that are left out here."""

    person: Person
    needs: tuple[tuple[str, str, Need], ...]
    """Names of both plants, and the need."""
    more: int


@dataclass(frozen=True)
class NextWeek:
    """The whole page."""

    course: Course
    meetings: tuple[Meeting, ...]
    pairs: tuple[PairLine, ...]
    people: tuple[PersonLine, ...]
    everybody: tuple[tuple[Person, str, str, Need], ...]
    """Every need of everybody, for the table."""


def next_week(course: Course, now: datetime) -> NextWeek:
    """Needs are those of the standard, whatever tests they come from; a constant number of queries."""
    placed = course.enrolments.with_a_place().select_related("person").order_by("person__name", "person_id")
    people = {each.person.user_id: each.person for each in placed}
    standard = standards_with_parts().get(pk=course.standard_id)
    flora, facts = the_flora(), facts_of([standard])[standard.pk]
    pairs = {row.pair.key: row.pair for row in standard.pairs.all() if row.pair.is_dangerous}
    standings, answers = figures_of(list(people), standard, now, flora), answers_of(list(people))
    needs = {}
    for user in people:
        missed = Counter(each.specimen.species or "" for each in misses_since(facts, answers[user], now - LATELY))
        needs[user] = in_order_of_need(_need(each, pairs[each.key], missed) for each in standings[user].pairs)
    names = {key: (flora.common(pair.gathered.key), flora.common(pair.mistaken.key)) for key, pair in pairs.items()}
    meetings, on_the_plan = _meetings(course, now)
    return NextWeek(
        course,
        meetings,
        _pair_lines(needs, pairs, people, flora, meetings, on_the_plan),
        tuple(_person(people[user], mine, names) for user, mine in needs.items()),
        tuple((people[user], *names[need.pair], need) for user, mine in needs.items() for need in mine),
    )


def _need(figures: PairFigures, pair: Pair, missed: Mapping[str, int]) -> Need:
    return Need(
        pair.key,
        progress_from(figures),
        figures.dangerous_missing,
        figures.edible_missing,
        missed.get(pair.mistaken.key, 0),
        pair.mistaken.edibility == Edibility.DEADLY,
    )


def _person(person: Person, needs: Sequence[Need], names: Mapping[str, tuple[str, str]]) -> PersonLine:
    shown = tuple((*names[need.pair], need) for need in needs[:MOST_NEEDS])
    return PersonLine(person, shown, len(needs) - len(shown))


def _meetings(course: Course, now: datetime) -> tuple[tuple[Meeting, ...], dict[int, set[str]]]:
    """The meetings that begin within a week, and the pairs on the plan of each."""
    rows = course.meetings.standing().filter(starts_at__gte=now, starts_at__lt=now + A_WEEK)
    found = list(
        rows.select_related("site__locality").prefetch_related("modules__pairs_in_order__pair").order_by("starts_at")
    )
    plans = {
        meeting.pk: {row.pair.key for module in meeting.modules.all() for row in module.pairs_in_order.all()}
        for meeting in found
    }
    return tuple(found), plans


def _pair_lines(
    needs: Mapping[int, Sequence[Need]],
    pairs: Mapping[str, Pair],
    people: Mapping[int, Person],
    flora: Flora,
    meetings: Sequence[Meeting],
    on_the_plan: Mapping[int, set[str]],
) -> tuple[PairLine, ...]:
    seasons, lines = calendars(), []
    for need in pairs_in_need([(user, each) for user, mine in needs.items() for each in mine]):
        pair = pairs[need.pair]
        chances = (Chance(each, pair.key in on_the_plan[each.pk], _shows(pair, each, seasons)) for each in meetings)
        level = pair.mistaken.edibility if pair.mistaken.edibility == Edibility.DEADLY else "dangerous"
        names = flora.common(pair.gathered.key), flora.common(pair.mistaken.key)
        lines.append(PairLine(need, *names, level, tuple(people[user] for user in need.people), tuple(chances)))
    return tuple(lines)


def _shows(pair: Pair, meeting: Meeting, seasons: Mapping[str, Calendar]) -> Shows:
    day = timezone.localdate(meeting.starts_at)
    late = meeting.site.locality.days_late if meeting.site else 0

    def is_up(key: str) -> bool:
        return bool(set(stages_showing(seasons.get(key, {}), day, late)) - {Stage.DORMANT})

    return what_shows(is_up(pair.gathered.key), is_up(pair.mistaken.key))


def next_week_table(page: NextWeek) -> bytes:
    """Every need of everybody as a file, the most pressing of each person first."""
    columns = [
        _("name"), _("gathered"), _("taken for it"), _("how far"), _("gathered the dangerous one lately"),
        _("dangerous specimens missing"), _("edible specimens missing"),
    ]  # fmt: skip
    rows = (
        [person.name, gathered, mistaken, n.progress.far.value, n.missed_lately, n.dangerous, n.edible]
        for person, gathered, mistaken, n in page.everybody
    )
    return written_table(columns, rows)
