"""Papers for a course: everybody with a place sits them, and whoever has a place later joins in."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction
from django.db.models import Q

from assessments.actions.papers import add_sitters, set_paper
from assessments.actions.previews import look_at_paper
from assessments.models import Paper
from assessments.queries.paper_plan import PaperPlan
from assessments.queries.setting import Setting
from courses.models import Course, Person
from courses.queries.course_papers import users_to_sit


class NobodyToSit(Exception):
    """Nobody has a place in the course."""


def set_course_paper(course: Course, plan: PaperPlan, *, by: Person, seed: int, now: datetime) -> Paper:
    """Set a paper for everybody who has a place. Raises NobodyToSit, or PaperRefused with its reasons."""
    people = users_to_sit(course)
    if not people:
        raise NobodyToSit
    with transaction.atomic():
        paper = set_paper(plan, people, by.user, seed, now)
        course.papers.add(paper)
    return paper


def look_at_course_paper(course: Course, plan: PaperPlan, *, by: Person, seed: int, now: datetime) -> Setting:
    """What would come of a paper for everybody who has a place. Raises NobodyToSit, or PaperRefused."""
    people = users_to_sit(course)
    if not people:
        raise NobodyToSit
    return look_at_paper(plan, people, by.user, seed, now)


def seat_in_papers(course: Course, people: Iterable[Person], *, now: datetime) -> None:
    """Give these people a seat in every paper of the course that is not closed yet."""
    users = [person.user for person in people]
    for paper in course.papers.standing().filter(Q(closes_at__isnull=True) | Q(closes_at__gt=now)):
        add_sitters(paper, [user for user in users if user.pk != paper.set_by_id], now)
