"""What stands open in the invented school today: a paper to sit, a walk without a leader."""

from datetime import timedelta
from random import Random
from typing import TYPE_CHECKING

from assessments.actions.papers import set_paper
from assessments.queries.paper_plan import PaperPlan
from courses.actions.demo.teaching import at, next_weekday
from courses.models import Meeting
from species.models import Pair

if TYPE_CHECKING:
    from courses.actions.demo.school import Story

QUESTIONS = 12


def leave_things_open(story: "Story") -> None:
    """Something for everybody on the first screen."""
    _open_paper(story)
    _walk_without_leader(story)


def _open_paper(story: "Story") -> None:
    course = story.courses["running"]
    standard = course.standard
    pairs = list(Pair.objects.filter(in_standards__standard=standard))
    people = [row.person.user for row in course.enrolments.with_a_place().select_related("person__user")]
    opened = story.now - timedelta(days=1)
    plan = PaperPlan(
        "This week's twelve", standard, pairs, QUESTIONS, opened, story.now + timedelta(days=13), each_stage=False
    )
    seed = Random(story.today.toordinal()).randrange(2**31)
    # the bank is large enough for everybody by plan, and the drawing on trial would cost a minute's start
    paper = set_paper(plan, people, story.person("tutor").user, seed, opened, check_bank=False)
    course.papers.add(paper)


def _walk_without_leader(story: "Story") -> None:
    day = next_weekday(story.today, 6)
    Meeting.objects.create(
        title="Open walk: what the hedge hides",
        starts_at=at(day, 14),
        ends_at=at(day, 16, 30),
        site=story.sites[2],
        note="Open to everybody; at most twelve.",
    )
