"""Courses as a list, and what the page of one course shows."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Count, Q, QuerySet

from assessments.models import Paper
from courses.models import Course, Enrolment, Offer, Person
from courses.querysets import CourseQuerySet

from .crowding import Crowded, crowded_meetings
from .meetings import MeetingLine, meeting_lines
from .people import Viewer
from .visible import courses_run_by

HOLDS_A_PLACE = Q(enrolments__withdrawn_at__isnull=True, enrolments__waiting=False)
WAITS = Q(enrolments__withdrawn_at__isnull=True, enrolments__waiting=True)


@dataclass(frozen=True)
class CourseLine:
    """A course on one line: when, how full, and what the viewer has to do with it."""

    course: Course
    when: str
    taken: int
    waiting: int

    @property
    def free(self) -> int:
        return max(0, self.course.capacity - self.taken)


@dataclass(frozen=True)
class PaperLine:
    """A paper set for a course: open, coming or closed, and how many of its sitters have handed in."""

    paper: Paper
    when: str
    seats: int
    handed_in: int


@dataclass(frozen=True)
class CoursePage:
    """One course. The people are there for those who run it alone."""

    course: Course
    when: str
    is_run: bool
    is_taught: bool
    own: Enrolment | None
    offer: Offer | None
    tutors: tuple[Person, ...]
    meetings: tuple[MeetingLine, ...]
    placed: tuple[Enrolment, ...]
    waiting: tuple[Enrolment, ...]
    papers: tuple[PaperLine, ...]
    crowded: tuple[Crowded, ...] = ()

    @property
    def taken(self) -> int:
        return len(self.placed)

    @property
    def free(self) -> int:
        return max(0, self.course.capacity - len(self.placed))


def course_lines(courses: CourseQuerySet, today: date) -> list[CourseLine]:
    """Courses with their numbers, the running ones first, in one query."""
    rows = courses.prefetch_related("tutors").annotate(
        taken=Count("enrolments", HOLDS_A_PLACE, distinct=True),
        in_line=Count("enrolments", WAITS, distinct=True),
    )
    lines = [CourseLine(each, when_is(each, today), each.taken, each.in_line) for each in rows]
    return sorted(lines, key=lambda line: ["running", "coming", "over"].index(line.when))


def when_is(course: Course, today: date) -> str:
    """running, coming or over."""
    if course.ends_on < today:
        return "over"
    return "coming" if course.starts_on > today else "running"


def course_page(course: Course, viewer: Viewer, now: datetime, today: date) -> CoursePage:
    """All that the page shows, in a constant number of queries."""
    is_run = courses_run_by(viewer).filter(pk=course.pk).exists()
    enrolments = list(course.enrolments.standing().select_related("person").order_by("asked_at", "id"))
    own = [each for each in enrolments if viewer.person is not None and each.person_id == viewer.person.pk]
    shown = sorted(enrolments, key=lambda each: each.person.name.casefold()) if is_run else []
    tutors = tuple(course.tutors.all())
    return CoursePage(
        course=course,
        when=when_is(course, today),
        is_run=is_run,
        is_taught=viewer.is_tutor and viewer.person in tutors,
        own=own[0] if own else None,
        offer=_offer_to(own[0], now) if own and own[0].waiting else None,
        tutors=tutors,
        meetings=tuple(meeting_lines(course.meetings.all(), now)),
        placed=tuple(each for each in shown if not each.waiting),
        waiting=tuple(each for each in enrolments if each.waiting and is_run),
        papers=tuple(lines_of_papers(course.papers.all(), now)) if is_run else (),
        crowded=tuple(crowded_meetings(course, now)) if is_run else (),
    )


def _offer_to(enrolment: Enrolment, now: datetime) -> Offer | None:
    found: Offer | None = Offer.objects.open().filter(enrolment=enrolment, answer_by__gt=now).first()
    return found


def lines_of_papers(papers: QuerySet[Paper], now: datetime) -> list[PaperLine]:
    """Papers, latest first, with how many of their sitters handed in; one query."""
    rows = papers.annotate(
        seats_given=Count("seats", distinct=True),
        handed_in=Count("seats", Q(seats__sitting__handed_in_at__isnull=False), distinct=True),
    ).order_by("-opens_at", "-id")
    return [PaperLine(each, paper_when(each, now), each.seats_given, each.handed_in) for each in rows]


def paper_when(paper: Paper, now: datetime) -> str:
    """open, coming, closed or withdrawn."""
    if paper.withdrawn_at is not None:
        return "withdrawn"
    if paper.opens_at > now:
        return "coming"
    return "closed" if paper.closes_at is not None and paper.closes_at <= now else "open"
