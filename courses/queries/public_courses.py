"""Courses as a stranger sees them: what is taught, the effort, what to bring, how many places are left."""

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, TypedDict

from django.db.models import Count, F, Q, QuerySet

from courses.models import Course, Meeting
from species.models import Module

if TYPE_CHECKING:
    from django_stubs_ext import WithAnnotations

OPEN_OFFER = Q(
    enrolments__offers__taken_at__isnull=True,
    enrolments__offers__declined_at__isnull=True,
    enrolments__offers__lapsed_at__isnull=True,
    enrolments__offers__isnull=False,
)
PLACED = Q(enrolments__withdrawn_at__isnull=True, enrolments__waiting=False)


@dataclass(frozen=True)
class PublicLine:
    """A course in the public list."""

    course: Course
    free: int

    @property
    def is_full(self) -> bool:
        return self.free <= 0


@dataclass(frozen=True)
class PublicCourse:
    """A course on its public page. Places by the names that people know them by, never where plants grow."""

    line: PublicLine
    meetings: tuple[Meeting, ...]
    modules: tuple[Module, ...]

    @property
    def course(self) -> Course:
        return self.line.course


def public_courses(today: date) -> list[PublicLine]:
    """Public courses that are not over, the next one first; one query."""
    rows = _counted(Course.objects.filter(is_public=True).not_over(today))
    return [_line(row) for row in rows.order_by("starts_on", "title")]


def public_course(key: str, today: date) -> PublicCourse | None:
    """One public course that is not over; three queries."""
    found = _counted(Course.objects.filter(is_public=True, key=key).not_over(today)).first()
    if found is None:
        return None
    meetings = found.meetings.standing().select_related("site__locality").order_by("starts_at")
    modules = Module.objects.filter(meetings__course=found, meetings__cancelled_at__isnull=True).distinct()
    return PublicCourse(_line(found), tuple(meetings), tuple(modules))


class Places(TypedDict):
    """How many places of a course are free: below none where more were given than there are."""

    free: int


def _counted(courses: QuerySet[Course]) -> "QuerySet[WithAnnotations[Course, Places]]":
    return courses.annotate(
        taken=Count("enrolments", PLACED, distinct=True), kept=Count("enrolments__offers", OPEN_OFFER, distinct=True)
    ).annotate(free=F("capacity") - F("taken") - F("kept"))


def _line(course: "WithAnnotations[Course, Places]") -> PublicLine:
    return PublicLine(course, max(0, course.free))
