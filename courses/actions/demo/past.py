"""The last two seasons of the invented school: who sat what, and what they said to live plants."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from random import Random
from typing import TYPE_CHECKING

from assessments.models import Paper, Standard
from courses.actions.demo.bank import kinds_of
from courses.actions.demo.cast import FOXGLOVE, Company
from courses.actions.demo.history import Learner, Truth, begin_period, sit_past_paper
from courses.actions.demo.spot_tests import Skips, hold_spot_test, walk_stations
from courses.actions.demo.teaching import at
from courses.actions.demo.turns import Held, Turns
from courses.models import Course, Person, Site
from species.models import Pair, Specimen

if TYPE_CHECKING:
    from courses.actions.demo.school import Story

LEADER_PAPERS, LEADER_QUESTIONS, LEADER_EVERY_DAYS = 19, 32, 29
COURSE_QUESTIONS = {"ended": 34, "running": 24}
SCHOOL_WALKS, SCHOOL_WALK_EVERY_DAYS = 11, 33
LEADER_WALKS, LEADER_WALK_EVERY_DAYS = 18, 31


def let_the_past_happen(story: "Story") -> None:
    """Papers and spot tests up to today."""
    standard = story.standards["participant"]
    pairs = list(
        Pair.objects.filter(in_standards__standard=standard)
        .with_both_species()
        .prefetch_related("gathered__common_names", "mistaken__common_names")
    )
    truth = Truth.of(pairs)
    leaders = _learners(story, Company.LEADERS, _held(truth, retired=True))
    ended = _learners(story, Company.ENDED, _held(truth, retired=False))
    running = _learners(story, Company.RUNNING, _held(truth, retired=False))
    _leaders_sit(story, leaders, truth, pairs)
    _course_sits(story, "ended", ended, truth, pairs)
    _course_sits(story, "running", running, truth, pairs)
    _walk_and_test(story, leaders, ended, running, truth)


def _held(truth: Truth, *, retired: bool) -> list[Held]:
    bank = Specimen.objects.for_assessment().confirmed().drawn().filter(retired_on__isnull=not retired)
    return [
        Held(pk, key, stage, truth.shown[key].is_dangerous)
        for pk, key, stage in bank.values_list("pk", "species__key", "stage").order_by("pk")
        if key in truth.shown
    ]


def _learners(story: "Story", company: Company, held: Sequence[Held]) -> list[Learner]:
    learners = []
    for part, person in story.company(company):
        random = Random(f"{part.name} {story.random.randrange(2**31)}")
        learners.append(Learner(part, person.user, Turns.over(held, random), random))
    return learners


def _paper(title: str, standard: Standard, pairs: Sequence[Pair], questions: int, opens: datetime, by: Person) -> Paper:
    paper = Paper.objects.create(
        title=title,
        standard=standard,
        questions=questions,
        opens_at=opens,
        closes_at=opens + timedelta(days=6),
        seed=opens.toordinal(),
        set_by=by.user,
        set_at=opens - timedelta(days=1),
    )
    paper.pairs.set(pairs)
    return paper


def _leaders_sit(story: "Story", leaders: list[Learner], truth: Truth, pairs: Sequence[Pair]) -> None:
    first = story.today - timedelta(days=LEADER_PAPERS * LEADER_EVERY_DAYS + 7)
    standard, by = story.standards["walk-leader"], story.person("tutor")
    for learner in leaders:
        begin_period(learner, at(first, 8), standard)
    for number in range(LEADER_PAPERS):
        opens = at(first + timedelta(days=number * LEADER_EVERY_DAYS), 9)
        paper = _paper(f"Leaders' paper {number + 1}", standard, pairs, LEADER_QUESTIONS, opens, by)
        sit_past_paper(paper, leaders, truth, truth.dangerous, truth.edible)


def _course_sits(story: "Story", key: str, learners: list[Learner], truth: Truth, pairs: Sequence[Pair]) -> None:
    course: Course = story.courses[key]
    by = course.tutors.get()
    over = list(course.meetings.over(story.now))
    # the walks of the school come before the course, so the period begins with the first of them
    begins = at(story.today - timedelta(days=SCHOOL_WALKS * SCHOOL_WALK_EVERY_DAYS + 7), 8)
    for learner in learners:
        begin_period(learner, begins, course.standard)
    for number, meeting in enumerate(over, start=1):
        opens = meeting.ends_at + timedelta(hours=3)
        if opens + timedelta(days=6) > story.now:
            continue
        title = f"After meeting {number}"
        paper = _paper(title, course.standard, pairs, COURSE_QUESTIONS[key], opens, by)
        course.papers.add(paper)
        sit_past_paper(paper, learners, truth, truth.dangerous, truth.edible)


def _walk_and_test(
    story: "Story", leaders: list[Learner], ended: list[Learner], running: list[Learner], truth: Truth
) -> None:
    kinds = kinds_of(story.standards["participant"])
    tutor, second = story.person("tutor").user, story.person("bertram.oakhanger").user
    for number in range(LEADER_WALKS, 0, -1):
        day = story.today - timedelta(days=number * LEADER_WALK_EVERY_DAYS)
        test = hold_spot_test(
            "Leaders' walk", at(day, 14), _site(story, number), kinds, 2, (tutor, second), story.random
        )
        walk_stations(test, leaders, truth, tutor, lambda learner, species, on: False)
    for number in range(SCHOOL_WALKS, 0, -1):
        day = story.today - timedelta(days=number * SCHOOL_WALK_EVERY_DAYS)
        test = hold_spot_test("School walk", at(day, 11), _site(story, number), kinds, 1, (second, tutor), story.random)
        walk_stations(test, ended, truth, second, withheld(story.today))
        if day >= story.courses["running"].starts_on:
            walk_stations(test, running, truth, second, lambda learner, species, on: False)


def withheld(today: date) -> Skips:
    """What the story keeps from people: somebody nearly there has met foxglove alive only twice."""

    def skips(learner: Learner, species: str, on: date) -> bool:
        nearly = learner.part.story == "nearly there"
        return nearly and species == FOXGLOVE and (today - on).days > 2 * SCHOOL_WALK_EVERY_DAYS

    return skips


def _site(story: "Story", number: int) -> Site:
    return story.sites[number % len(story.sites)]
