"""What was done and what was not: species, pairs and stages not taught or not tested, and what was done on the land."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import get_language, ngettext
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.models import Evidence
from courses.documents.sheet import SheetPart, SheetWords
from courses.models import Attendance, Course, Meeting, Presence, Site
from courses.queries.people import the_school
from courses.rules.after import Reason, TaughtFacts, untaught
from species.models import Pair, Species
from species.models.flora import STAGE_WORDS
from species.rules.season import stages_showing
from species.rules.vocabulary import Stage

STAGES = dict(STAGE_WORDS)
REASON_WORDS = {
    Reason.NOT_PLANNED: _("was on no plan"),
    Reason.CANCELLED: _("its meeting was cancelled"),
    Reason.NOT_TAUGHT: _("was left out at its meeting"),
    Reason.NOT_SHOWING: _("showed nothing on its day"),
}


@dataclass(frozen=True)
class NotTaught:
    """A pair that was not taught, and why."""

    pair: Pair
    reason: Reason
    because: str

    @property
    def words(self) -> str:
        return str(REASON_WORDS[self.reason]) + (f": {self.because}" if self.because else "")


@dataclass(frozen=True)
class NotTested:
    """A pair whose dangerous plant nobody in the course was tested on, or not in these stages."""

    pair: Pair
    stages: tuple[str, ...]
    never: bool

    @property
    def stage_words(self) -> list[str]:
        return [str(STAGES[stage]) for stage in self.stages]


@dataclass(frozen=True)
class AfterCourse:
    """A course looked back on."""

    course: Course
    held: int
    cancelled: tuple[Meeting, ...]
    not_taught: tuple[NotTaught, ...]
    not_tested: tuple[NotTested, ...]


def after_course(course: Course, now: datetime) -> AfterCourse:
    """What a course did not teach and did not test, and why; a constant number of queries."""
    rows = course.meetings.order_by("starts_at").select_related("site__locality")
    prefetch = "modules_in_order__module__pairs_in_order__pair"
    meetings = list(
        rows.prefetch_related(prefetch, "modules_in_order__module__pairs_in_order__pair__mistaken__showings")
    )
    required = course.standard.pairs.select_related("pair__gathered", "pair__mistaken")
    pairs = {row.pair.key: row for row in required if row.pair.is_dangerous}
    facts = [fact for meeting in meetings for fact in _facts(meeting, now)]
    missing = untaught(pairs, facts)
    tested = _tested(course)
    return AfterCourse(
        course=course,
        held=sum(each.cancelled_at is None and each.ends_at <= now for each in meetings),
        cancelled=tuple(each for each in meetings if each.cancelled_at is not None),
        not_taught=tuple(NotTaught(pairs[each.pair].pair, each.reason, each.because) for each in missing),
        not_tested=tuple(filter(None, (_not_tested(row.pair, row.required_stages, tested) for row in pairs.values()))),
    )


def _facts(meeting: Meeting, now: datetime) -> Iterable[TaughtFacts]:
    day = timezone.localdate(meeting.starts_at)
    late = meeting.site.locality.days_late if meeting.site else 0
    for row in meeting.modules_in_order.all():
        for each in row.module.pairs_in_order.all():
            yield TaughtFacts(
                pair=each.pair.key,
                was_cancelled=meeting.cancelled_at is not None,
                was_held=meeting.ends_at <= now,
                was_left_out=row.taught is False,
                showed=_shows(each.pair.mistaken, day, late),
                because=meeting.cancelled_because if meeting.cancelled_at else row.why_not,
            )


def _shows(species: Species, day: date, days_late: int) -> bool:
    calendar = {Stage(row.stage): frozenset(row.months) for row in species.showings.all() if row.stage != Stage.DORMANT}
    return bool(stages_showing(calendar, day, days_late))


def _tested(course: Course) -> set[tuple[int, str]]:
    """Species and stages that anybody with a place was tested on while the course ran; one query."""
    users = course.enrolments.with_a_place().values("person__user")
    rows = Evidence.objects.filter(person__in=users, opened_at__date__gte=course.starts_on)
    rows = rows.filter(opened_at__date__lte=course.ends_on, specimen__species__isnull=False)
    return set(rows.values_list("specimen__species_id", "specimen__stage").distinct())


def _not_tested(pair: Pair, stages: Iterable[str], tested: set[tuple[int, str]]) -> NotTested | None:
    seen = {stage for species, stage in tested if species == pair.mistaken_id}
    missing = tuple(stage for stage in stages if stage not in seen)
    return NotTested(pair, missing, not seen) if missing or not seen else None


def after_table(pages: Iterable[AfterCourse]) -> bytes:
    """Everything that was not taught or not tested, as a table."""
    columns = [_("course"), _("gathered"), _("mistaken"), _("what"), _("why")]
    rows = []
    for page in pages:
        for each in page.not_taught:
            names = (each.pair.gathered.name, each.pair.mistaken.name)
            rows.append([page.course.title, *names, _("not taught"), each.words])
        for each_tested in page.not_tested:
            names = (each_tested.pair.gathered.name, each_tested.pair.mistaken.name)
            stages = ", ".join(each_tested.stage_words) or _("in no stage")
            rows.append([page.course.title, *names, _("not tested"), stages])
    return written_table(columns, rows)


def courses_of_year(year: int) -> list[Course]:
    """The courses that ended in a year."""
    return list(Course.objects.filter(ends_on__year=year).select_related("standard").order_by("ends_on"))


def thanks_for(site: Site, year: int, now: datetime) -> SheetWords:
    """A note for whoever owns the land: what was done there in a year, by how many, and that nothing was dug."""
    held = site.meetings.standing().filter(starts_at__year=year, ends_at__lte=now).order_by("starts_at")
    meetings = list(held.prefetch_related("modules_in_order__module"))
    came = Attendance.objects.filter(meeting__in=meetings).exclude(presence=Presence.ABSENT)
    lines = [_thanked(meeting, came.filter(meeting=meeting).count()) for meeting in meetings]
    school = the_school()
    owner = site.permissions.order_by("-valid_from").first()
    dug = any(each.digging and each.ended_on is None for each in site.permissions.all())
    return SheetWords(
        title=_("Thank you: %(site)s, %(year)s") % {"site": site.locality.name, "year": year},
        subtitle=owner.given_by if owner else "",
        language=get_language() or "en",
        author=school.name if school else "",
        parts=(
            SheetPart(_("What was done on the land"), tuple(lines) or (_("No meeting was held there."),)),
            SheetPart(
                _("What was not"),
                (
                    _("Whole plants were dug only where you had allowed it, and marked beforehand.")
                    if dug
                    else _("No root and no whole plant was dug."),
                    _("Nothing rare was picked, and paths and gates were left as they were found."),
                ),
            ),
            SheetPart(_("If you want to know more"), (_contact(),)),
        ),
        format="A5",
    )


def _thanked(meeting: Meeting, came: int) -> str:
    day = date_format(timezone.localdate(meeting.starts_at), "DATE_FORMAT")
    words = {"day": day, "title": meeting.title, "n": came}
    if not came:
        return _("%(day)s: %(title)s.") % words
    besides = ngettext("%(n)s person besides the leader", "%(n)s people besides the leader", came) % words
    return f"{_('%(day)s: %(title)s') % words}, {besides}."


def _contact() -> str:
    school = the_school()
    if school is None:
        return ""
    return ", ".join(filter(None, (school.name, school.email, school.postal_address)))
