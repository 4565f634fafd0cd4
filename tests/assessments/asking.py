"""A test that asks one question of each kind, on pictures on which what decides is framed."""

from datetime import timedelta

from django.utils import timezone

from assessments.actions.papers import set_paper
from assessments.models import Paper, Question, Standard
from assessments.queries.paper_plan import PaperPlan
from courses.models import Person
from species.models import Character, Pair, PairCharacter, Photo, Region
from species.rules.vocabulary import Trust

EACH_KIND_ONCE = {"which_character": 1, "point_at_it": 1, "side_by_side": 1}


def mark_what_decides(pair: Pair) -> None:
    """A character that decides, framed in the upper left field of every picture, and one that only leans."""
    for order, (key, trust) in enumerate((("rim", Trust.DECISIVE), ("stalk", Trust.SUPPORTING))):
        made = Character.objects.create(key=key, name=key.capitalize(), organ="leaf", sense="look")
        words = {"gathered_text": f"{key} smooth", "mistaken_text": f"{key} wavy"}
        PairCharacter.objects.create(pair=pair, character=made, trust=trust.value, order=order, **words)
    rim = Character.objects.get(key="rim")
    Region.objects.bulk_create(
        Region(photo=photo, character=rim, x="0.1", y="0.05", width="0.2", height="0.15", drawn_at=timezone.now())
        for photo in Photo.objects.all()
    )


def ask(
    kinds: dict[str, int], standard: Standard, pair: Pair, person: Person, tutor: Person, counting: int = 2
) -> Paper:
    """A test that is open now: two questions that count, and so many of other kinds."""
    now = timezone.now() - timedelta(minutes=5)
    questions = counting + sum(kinds.values())
    plan = PaperPlan("The leaves", standard, [pair], questions, now, now + timedelta(days=1), None, False, kinds)
    return set_paper(plan, [person.user], tutor.user, 7, now)


def question_of(paper: Paper, kind: str) -> Question:
    """The question of a kind in the one sitting of a test."""
    return Question.objects.select_related("specimen__species", "beside__species").get(
        sitting__seat__paper=paper, kind=kind
    )
