"""Planning a course: meetings drafted with what their weeks show, the season check, and what testing still needs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

from assessments.queries.flora import the_flora
from assessments.queries.kept_standings import figures_of
from assessments.queries.standards import standards_with_parts
from assessments.rules.planning import load
from assessments.rules.standard import Side
from courses.models import Course, Meeting, Person, Site, SiteRecord
from courses.rules.programme import Fit, Teachable, propose_programme
from courses.rules.season_check import Checked, Outing, check_plan, days_of_weekday
from species.models import Module, Species
from species.rules.season import Calendar
from species.rules.vocabulary import Stage


@dataclass(frozen=True)
class Drafted:
    """A meeting that could be: its day, the module whose plants show best then, and which of them do not."""

    day: date
    module: Module
    showing: tuple[Species, ...]
    hidden: tuple[Species, ...]
    dangerous: int


@dataclass(frozen=True)
class MissingLine:
    """A planned plant that shows nothing; the meetings of the course, and the nearest week, in which it would."""

    species: Species
    shows_at: tuple[Meeting, ...]
    next_week: date | None


@dataclass(frozen=True)
class CheckedLine:
    """One meeting of the season check; of one that is over nothing can be changed any more."""

    meeting: Meeting
    is_over: bool
    showing: tuple[Species, ...]
    missing: tuple[MissingLine, ...]
    instead: tuple[Species, ...]


@dataclass(frozen=True)
class NeedLine:
    """What one person still needs by the end of the course: specimens of both sides, and questions a week."""

    person: Person
    dangerous: int
    edible: int
    questions: int
    per_week: float | None
    passed: bool


@dataclass(frozen=True)
class CourseNeeds:
    """What everybody still needs, and the weeks that are left."""

    lines: tuple[NeedLine, ...]
    weeks_left: int


def calendars() -> dict[str, Calendar]:
    """What shows when, for every species, in two queries."""
    return {
        species.key: {Stage(s.stage): frozenset(s.months) for s in species.showings.all()}
        for species in Species.objects.prefetch_related("showings")
    }


def teachables() -> list[Teachable]:
    """The modules as planning sees them, in the order of teaching."""
    found = []
    for module in Module.objects.prefetch_related("species_in_order__species", "pairs_in_order__pair__mistaken"):
        keys = tuple(row.species.key for row in module.species_in_order.all())
        dangerous = frozenset(r.pair.mistaken.key for r in module.pairs_in_order.all() if r.pair.is_dangerous)
        found.append(Teachable(module.key, keys, dangerous))
    return found


def draft_of(course: Course, weekday: int, weeks: int, site: Site | None) -> list[Drafted]:
    """Meetings for a course that has none at these days yet, each with the module its week shows best."""
    skipped = [date.fromisoformat(each) for each in course.skipped_days]
    taken = {timezone.localdate(each) for each in course.meetings.standing().values_list("starts_at", flat=True)}
    days = days_of_weekday(course.starts_on, course.ends_on, weekday, weeks, [*skipped, *taken])
    fits = propose_programme(teachables(), calendars(), days, site.locality.days_late if site else 0)
    modules = {module.key: module for module in Module.objects.all()}
    species = {each.key: each for each in Species.objects.all()}
    return [_drafted(day, fit, modules, species) for day, fit in zip(days, fits, strict=True)]


def _drafted(day: date, fit: Fit, modules: dict[str, Module], species: dict[str, Species]) -> Drafted:
    def named(keys: Iterable[str]) -> tuple[Species, ...]:
        return tuple(species[key] for key in keys)

    return Drafted(day, modules[fit.module], named(fit.showing), named(fit.hidden), fit.dangerous_showing)


def season_check(course: Course, now: datetime) -> list[CheckedLine]:
    """The plan of a course against the season, in a constant number of queries."""
    rows = course.meetings.standing().select_related("site__locality").order_by("starts_at")
    meetings = list(rows.prefetch_related("modules_in_order__module__species_in_order__species"))
    outings = [_outing(each) for each in meetings]
    checked = check_plan(outings, calendars(), _known_there(meetings), course.starts_on, course.ends_on)
    by_key = {each.key: each for each in meetings}
    species = {each.key: each for each in Species.objects.all()}
    return [_line(each, by_key, species, now) for each in checked]


def _outing(meeting: Meeting) -> Outing:
    rows = [row for each in meeting.modules_in_order.all() for row in each.module.species_in_order.all()]
    late = meeting.site.locality.days_late if meeting.site else 0
    keys = dict.fromkeys(row.species.key for row in rows)
    return Outing(meeting.key, timezone.localdate(meeting.starts_at), tuple(keys), late)


def _known_there(meetings: Sequence[Meeting]) -> dict[str, list[str]]:
    sites = {meeting.site_id for meeting in meetings if meeting.site_id}
    records = SiteRecord.objects.filter(site__in=sites).values_list("site_id", "species__key").distinct()
    by_site: dict[int, list[str]] = {}
    for site, key in records.order_by("species__key"):
        by_site.setdefault(site, []).append(key)
    return {meeting.key: by_site.get(meeting.site_id or 0, []) for meeting in meetings}


def _line(checked: Checked, meetings: dict[str, Meeting], species: dict[str, Species], now: datetime) -> CheckedLine:
    return CheckedLine(
        meetings[checked.outing.key],
        meetings[checked.outing.key].ends_at < now,
        tuple(species[key] for key in checked.showing),
        tuple(
            MissingLine(species[each.species], tuple(meetings[key] for key in each.shows_at), each.next_week)
            for each in checked.missing
        ),
        tuple(species[key] for key in checked.instead),
    )


def course_needs(course: Course, now: datetime) -> CourseNeeds:
    """What everybody with a place still needs of each side, if every further answer is right; constant queries."""
    placed = course.enrolments.with_a_place().select_related("person").order_by("person__name")
    people = [each.person for each in placed]
    standard = standards_with_parts().get(pk=course.standard_id)
    standings = figures_of([person.user_id for person in people], standard, now, the_flora())
    weeks = max(0, -(-(course.ends_on - timezone.localdate(now) + timedelta(days=1)).days // 7))
    lines = []
    for person in people:
        figures = standings[person.user_id]
        needed = {side: [each.nearest.still_needed for each in figures.ledgers if each.side is side] for side in Side}
        burden = load(needed[Side.DANGEROUS], needed[Side.EDIBLE])
        per_week = burden.per_week(weeks) if weeks else None
        lines.append(NeedLine(person, burden.dangerous, burden.edible, burden.questions, per_week, figures.passed))
    return CourseNeeds(tuple(lines), weeks)
