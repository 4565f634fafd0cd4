"""Inventing the school: one call makes everything that the first screens show.

Rows are written in one transaction, so a broken start leaves nothing half done. The plants are drawn meanwhile on
the other cores, and hung when the rows are there.
"""

from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from random import Random

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from assessments.actions.standings import rebuild_standings
from assessments.models import Standard
from courses.actions.demo.around import let_things_go_on
from courses.actions.demo.bank import Progress, Stock, commissions, hang, kinds_of, plan_bank, plant
from courses.actions.demo.cast import (
    EVERYBODY,
    SCHOOL_NAME,
    SCHOOL_REGION,
    Company,
    Part,
)
from courses.actions.demo.certified import certify, show_proofs
from courses.actions.demo.doubt import raise_doubt
from courses.actions.demo.drawing import drawing
from courses.actions.demo.past import let_the_past_happen
from courses.actions.demo.places import settle_places
from courses.actions.demo.practising import let_people_practise
from courses.actions.demo.standards import make_standards
from courses.actions.demo.teaching import enrol_people, keep_registers, next_weekday, run_course
from courses.actions.demo.today import leave_things_open
from courses.actions.people import take_in
from courses.models import Course, Person, School, Site
from species.models import Photo, Specimen

SEED = 20_260_512
Say = Callable[[str], None]


class NotTheDemo(Exception):
    """A school may be invented only where DEMO is set and no real school is."""


@dataclass
class Story:
    """What was made so far, for the parts of the story that build on it."""

    now: datetime
    random: Random
    people: dict[str, Person] = field(default_factory=dict)
    sites: list[Site] = field(default_factory=list)
    standards: dict[str, Standard] = field(default_factory=dict)
    courses: dict[str, Course] = field(default_factory=dict)

    @property
    def today(self) -> date:
        return timezone.localdate(self.now)

    def person(self, address: str) -> Person:
        """Somebody by the front of their address."""
        return self.people[f"{address}@demo.invalid"]

    def company(self, company: Company) -> list[tuple[Part, Person]]:
        """The people of one part of the story, in order."""
        return [(part, self.people[part.email]) for part in EVERYBODY if part.company == company]


def is_whole() -> bool:
    """Whether the invented school is complete, pictures included."""
    if not School.objects.filter(is_demo=True).exists():
        return False
    return not Specimen.objects.drawn().in_the_bank().filter(photos__isnull=True).exists() and Photo.objects.exists()


def invent_school(
    now: datetime,
    say: Say = lambda sentence: None,
    progress: Progress = lambda done, total: None,
    stock: Stock | None = None,
    pictures: bool = True,
) -> Story:
    """Make the invented school as it stands on this day. The same day gives the same school.

    Raises NotTheDemo outside the demo, or where a school exists.
    """
    if not settings.DEMO or School.objects.exists():
        raise NotTheDemo
    story = Story(now, Random(SEED))
    with ExitStack() as at_the_end:
        with transaction.atomic():
            _found(story)
            say("Planting the bank, and beginning to draw it …")
            _plant_bank(story, stock or Stock())
            wanted = commissions() if pictures else []
            drawings = at_the_end.enter_context(drawing(wanted)) if wanted else iter(())
            say("Letting the last two seasons pass …")
            _let_it_happen(story)
        say("Hanging the drawings …")
        hang(drawings, len(wanted), now, progress)
    return story


def _let_it_happen(story: Story) -> None:
    _teach(story)
    let_the_past_happen(story)
    show_proofs(story)
    certify(story)
    raise_doubt(story)
    leave_things_open(story)
    let_things_go_on(story)
    let_people_practise(story)
    rebuild_standings(story.now)


def _found(story: Story) -> None:
    School.objects.create(
        name=SCHOOL_NAME,
        region=SCHOOL_REGION,
        address=settings.PUBLIC_ADDRESS,
        email="school@demo.invalid",
        time_zone=settings.TIME_ZONE,
        language=settings.LANGUAGE_CODE,
        emergency_number="112",
        poisons_number="",
        is_demo=True,
        seeded_on=story.today,
    )
    since = story.today - timedelta(days=800)
    for part in EVERYBODY:
        story.people[part.email] = take_in(part.email, part.name, today=since, roles=part.roles)
    story.sites = settle_places(story.today)
    story.standards = make_standards(story.person("organiser"), story.today)


def _plant_bank(story: Story, stock: Stock) -> None:
    standard = story.standards["participant"]
    plan = plan_bank(standard, stock, len(story.sites), story.today, story.random)
    determiners = (story.person("tutor").user, story.person("assessor").user)
    plant(plan, story.sites, determiners, story.now)


def _teach(story: Story) -> None:
    today, standard = story.today, story.standards["participant"]
    tutor, second = story.person("tutor"), story.person("bertram.oakhanger")
    leader = story.person("leader")
    this_week = next_weekday(today, 5)  # the coming Saturday
    story.courses["ended"] = run_course(
        "hedge-and-shore",
        "Hedge and shore, eight weeks",
        "What can be eaten between the hedge and the sea, and everything it is mistaken for.",
        this_week - timedelta(weeks=12),
        standard,
        [second],
        story.sites,
        12,
        second,
    )
    story.courses["running"] = run_course(
        "wood-and-meadow",
        "Wood and meadow, eight weeks",
        "From wood to wet meadow: leaves, roots and berries, the leave-it-alone plants first.",
        this_week - timedelta(weeks=4),
        standard,
        [tutor],
        story.sites,
        12,
        leader,
    )
    asked = story.now - timedelta(weeks=16)
    enrol_people(story.courses["ended"], [p for _, p in story.company(Company.ENDED)], asked)
    waiting = [p for _, p in story.company(Company.WAITING)]
    running = [p for _, p in story.company(Company.RUNNING)]
    enrol_people(story.courses["running"], running, asked + timedelta(weeks=6), waiting)
    keep_registers(story.courses["ended"], second, story.now, story.random)
    keep_registers(story.courses["running"], tutor, story.now, story.random)


__all__ = ["SEED", "NotTheDemo", "Story", "invent_school", "is_whole", "kinds_of"]
