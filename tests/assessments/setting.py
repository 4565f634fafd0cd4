"""What the tests of setting papers type and press."""

from datetime import timedelta

from django.urls import reverse
from django.utils import timezone

from assessments.queries.paper_plan import PaperPlan
from species.models import Pair
from tests.factories.species import SpecimenFactory, give_picture

SET = reverse("assessments:set_paper")


def address(name, *args):
    return reverse(f"assessments:{name}", args=args)


def moment(when):
    return timezone.localtime(when).strftime("%Y-%m-%dT%H:%M")


def typed(standard, pair, *people, **changed):
    """The form as it is sent: four questions, open for a day from tomorrow."""
    opens = timezone.now() + timedelta(days=1)
    return {
        "title": "A test", "standard": standard.pk, "pairs": [pair.pk], "questions": "4", "opens_at": moment(opens),
        "closes_at": moment(opens + timedelta(days=1)), "minutes": "", "example": "11",
        "people": "\n".join(person.user.email for person in people), "step": "keep", **changed,
    }  # fmt: skip


def plan(standard, pair, questions=4, **changed):
    """The same as a plan."""
    opens = timezone.now() + timedelta(days=1)
    fields = {"each_stage": False, "closes_at": opens + timedelta(days=1), **changed}
    return PaperPlan(**{"title": "A test", "standard": standard, "pairs": [pair], "questions": questions,
                        "opens_at": opens, **fields})  # fmt: skip


def pressed(page, number=0):
    """What the press of one of the offers of a page sends, as far as it stands in the page."""
    _sentence, fields = page.context["offers"][number]
    text = page.content.decode()
    assert all(f'name="{name}"' in text for name, _value in fields)
    sent: dict[str, list[str]] = {}
    for name, value in fields:
        sent.setdefault(name, []).append(value)
    return {**sent, "step": "keep"}


def add(species, count=1, **fields):
    found = [SpecimenFactory(species=species, **fields) for _each in range(count)]
    for specimen in found:
        give_picture(specimen)
    return found


def sides_of(pair: Pair):
    return pair.gathered, pair.mistaken
