"""Papers of a course: what they could ask, and who has sat them."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.models import Paper, Seat
from courses.models import Course, MeetingModule, Person
from species.models import Pair

from .course_page import paper_when

QUESTIONS = 12
OPEN_FOR = timedelta(days=7)


@dataclass(frozen=True)
class Sitter:
    """One person and their paper: handed in, under way, annulled, not begun, or missed (closed, never begun).

    What they answered is for their own eyes and for the page of their standing.
    """

    person: Person | None
    seat: Seat
    state: str
    at: datetime | None


@dataclass(frozen=True)
class CoursePaper:
    """A paper of a course with those who have a seat in it."""

    paper: Paper
    when: str
    pairs: tuple[Pair, ...]
    sitters: tuple[Sitter, ...]

    @property
    def handed_in(self) -> int:
        return sum(sitter.state == "handed in" for sitter in self.sitters)


def users_to_sit(course: Course, *but: int) -> list[User]:
    """Who has a place in a course and would sit a paper set for it now, but for these users; one query."""
    placed = User.objects.filter(person__in=course.enrolments.with_a_place().values("person"))
    return list(placed.exclude(pk__in=but).order_by("pk"))


def pairs_taught(course: Course, now: datetime) -> QuerySet[Pair]:
    """The pairs of the standard of the course that its meetings have taught so far."""
    begun = course.meetings.standing().filter(starts_at__lte=now)
    modules = MeetingModule.objects.filter(meeting__in=begun).values("module")
    asked = Pair.objects.dangerous().filter(in_standards__standard=course.standard_id)
    return asked.filter(pk__in=Pair.objects.filter(modules__in=modules).values("pk"))


def paper_proposed(course: Course, now: datetime) -> dict[str, object]:
    """What the form for a new paper begins with."""
    opens = timezone.localtime(now).replace(minute=0, second=0, microsecond=0)
    return {
        "title": _("Paper %(number)d") % {"number": course.papers.count() + 1},
        "standard": course.standard_id,
        "pairs": [pair.pk for pair in pairs_taught(course, now)],
        "questions": QUESTIONS,
        "opens_at": opens,
        "closes_at": (opens + OPEN_FOR).replace(hour=22),
    }


def course_paper(paper: Paper, now: datetime) -> CoursePaper:
    """Who has sat a paper and who has not, in four queries."""
    seats = list(paper.seats.select_related("person", "sitting"))
    people = {each.user_id: each for each in Person.objects.filter(user_id__in=[s.person_id for s in seats])}
    sitters = [_sitter(seat, people.get(seat.person_id), now) for seat in seats]
    pairs = paper.pairs.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    ordered = sorted(sitters, key=lambda each: each.person.name.casefold() if each.person else "")
    return CoursePaper(paper, paper_when(paper, now), tuple(pairs), tuple(ordered))


def _sitter(seat: Seat, person: Person | None, now: datetime) -> Sitter:
    sitting = getattr(seat, "sitting", None)
    if sitting is None:
        missed = seat.closes_at is not None and seat.closes_at <= now
        return Sitter(person, seat, "missed" if missed else "not begun", None)
    if sitting.annulled_at is not None:
        return Sitter(person, seat, "annulled", sitting.annulled_at)
    if sitting.handed_in_at is not None:
        return Sitter(person, seat, "handed in", sitting.handed_in_at)
    return Sitter(person, seat, "under way", sitting.opened_at)
