"""Certificates and proofs in the invented school, through the same actions as anywhere."""

from datetime import timedelta
from typing import TYPE_CHECKING

from courses.actions.certificates import apply_for, issue_certificate
from courses.actions.demo.cast import Company
from courses.actions.demo.teaching import at
from courses.models import FoundingAssessor, Meeting, Person, RequirementRecord

if TYPE_CHECKING:
    from courses.actions.demo.school import Story

ASSISTED = {"ready": 4, "first aid lapsed": 3, "assisted too few walks": 1, "on the way": 0}
FIRST_AID, INSURANCE = RequirementRecord.Kind.FIRST_AID, RequirementRecord.Kind.INSURANCE


def certify(story: "Story") -> None:
    """Two participants and two leaders hold certificates; one more has applied."""
    organiser = story.person("organiser")
    for part, person in [*story.company(Company.ENDED), *story.company(Company.LEADERS)]:
        key = "walk-leader" if part.company is Company.LEADERS else "participant"
        if part.story in ("certified", "ready", "first aid lapsed"):
            _issue(story, person, key, organiser)
        elif part.story == "has applied":
            apply_for(person, story.standards[key], statement=True, agreed=True, now=story.now - timedelta(days=2))


def _issue(story: "Story", person: Person, key: str, organiser: Person) -> None:
    applied = story.now - timedelta(days=4)
    application = apply_for(person, story.standards[key], statement=True, agreed=True, now=applied)
    issue_certificate(application, organiser, now=story.now)


def show_proofs(story: "Story") -> None:
    """First aid, insurance, and the walks that the leaders assisted at."""
    organiser, today = story.person("organiser"), story.today
    for name in ("assessor", "tutor", "bertram.oakhanger"):
        FoundingAssessor.objects.create(
            person=story.person(name),
            recorded_by=organiser,
            recorded_on=today - timedelta(days=790),
            reason="Taught and determined for ten years before the school had a holder of its own.",
        )
    for part, person in story.company(Company.LEADERS):
        lapsed = part.story == "first aid lapsed"
        _proof(person, FIRST_AID, -1100, -12 if lapsed else 400, organiser, story)
        _proof(person, INSURANCE, -330, 35, organiser, story)
        for number in range(ASSISTED[part.story]):
            _assisted_walk(story, person, number)
    for person in (story.person("tutor"), story.person("bertram.oakhanger")):
        _proof(person, FIRST_AID, -500, 595, organiser, story)
        _proof(person, INSURANCE, -200, 165, organiser, story)


def _proof(person: Person, kind: str, since: int, until: int, organiser: Person, story: "Story") -> None:
    RequirementRecord.objects.create(
        person=person,
        kind=kind,
        valid_from=story.today + timedelta(days=since),
        valid_until=story.today + timedelta(days=until),
        seen_by=organiser,
        seen_on=story.today + timedelta(days=since + 5),
    )


def _assisted_walk(story: "Story", person: Person, number: int) -> None:
    day = story.today - timedelta(days=60 + 75 * number)
    walk, _made = Meeting.objects.get_or_create(
        title=f"Open walk {4 - number}",
        starts_at=at(day, 14),
        ends_at=at(day, 16, 30),
        defaults={"site": story.sites[number % len(story.sites)], "leader": story.person("bertram.oakhanger")},
    )
    walk.assistants.add(person)
