"""Tables of this room to take away: as many queries as the page, the cells safe in a spreadsheet."""

from datetime import date, datetime

from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from courses.models import Course, Meeting, Person
from courses.querysets import CourseQuerySet, MeetingQuerySet, PersonQuerySet

from .cohort import cohort_of
from .course_page import course_lines
from .directory import people_listed, person_lines
from .register import register_of
from .sites import site_lines


def people_table(people: PersonQuerySet, today: date) -> bytes:
    """People by name, with their roles and courses."""
    rows: QuerySet[Person] = people_listed(people, today)
    lines = person_lines(rows.order_by("name"))
    columns = [_("name"), _("family name"), _("e-mail"), _("telephone"), _("roles"), _("courses")]
    return written_table(
        columns,
        (
            [
                line.person.name,
                line.person.family_name,
                line.person.user.email,
                line.person.phone,
                ", ".join(str(each) for each in line.roles),
                ", ".join(str(each) for each in line.courses),
            ]
            for line in lines
        ),
    )


def courses_table(courses: CourseQuerySet, today: date) -> bytes:
    """Courses with their places."""
    columns = [_("title"), _("key"), _("first day"), _("last day"), _("places"), _("taken"), _("waiting"), _("when")]
    return written_table(
        columns,
        (
            [
                line.course.title,
                line.course.key,
                line.course.starts_on.isoformat(),
                line.course.ends_on.isoformat(),
                line.course.capacity,
                line.taken,
                line.waiting,
                line.when,
            ]
            for line in course_lines(courses, today)
        ),
    )


def meetings_table(meetings: MeetingQuerySet) -> bytes:
    """Meetings in the order of time."""
    columns = [_("title"), _("course"), _("begins"), _("ends"), _("place"), _("leader"), _("cancelled")]
    rows = meetings.select_related("course", "site__locality", "leader").order_by("starts_at", "id")
    return written_table(
        columns,
        (
            [
                row.title,
                row.course.title if row.course else "",
                _local(row.starts_at),
                _local(row.ends_at),
                row.site.locality.name if row.site else row.place,
                row.leader.name if row.leader else "",
                _local(row.cancelled_at) if row.cancelled_at else "",
            ]
            for row in rows
        ),
    )


def places_table(course: Course) -> bytes:
    """Everybody with a place or a turn, and those who gave theirs back."""
    columns = [_("name"), _("e-mail"), _("asked"), _("state")]
    rows = course.enrolments.select_related("person__user").order_by("asked_at", "id")
    return written_table(
        columns,
        (
            [
                row.person.name,
                row.person.user.email,
                _local(row.asked_at),
                _("ended") if row.withdrawn_at else _("waiting") if row.waiting else _("has a place"),
            ]
            for row in rows
        ),
    )


def register_table(meeting: Meeting, now: datetime) -> bytes:
    """The register of one meeting."""
    columns = [_("name"), _("said"), _("marked")]
    lines = register_of(meeting, now).lines
    return written_table(
        columns,
        ([line.person.name, line.presence_label, _local(line.marked_at) if line.marked_at else ""] for line in lines),
    )


def cohort_table(course: Course, now: datetime) -> bytes:
    """A row a person, a column a pair: how far they are."""
    page = cohort_of(course, now)
    columns = [_("name"), *(f"{each.gathered} / {each.mistaken}" for each in page.columns), _("passed")]
    return written_table(
        columns, ([row.person.name, *(cell.far.value for cell in row.cells), row.passed] for row in page.rows)
    )


def sites_table(now: datetime, today: date) -> bytes:
    """Sites with how their permissions stand. Exact positions stay in the school."""
    columns = [_("site"), _("permission"), _("until"), _("meetings to come")]
    return written_table(
        columns,
        (
            [
                line.site.locality.name,
                line.permission.state.value,
                line.permission.until.isoformat() if line.permission.until else "",
                line.coming,
            ]
            for line in site_lines(now, today)
        ),
    )


def _local(moment: datetime) -> str:
    return timezone.localtime(moment).strftime("%Y-%m-%d %H:%M")
