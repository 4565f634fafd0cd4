"""What the people of the invented school did before today: papers sat, spot tests held. Written in bulk.

The rows are what the sitting itself would have written: seat, sitting, questions, answers, evidence, seen.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random

from django.contrib.auth.models import User

from assessments.models import Answer, Evidence, Paper, Period, Question, Seat, Seen, Sitting, Standard, Window
from assessments.rules.evidence import Medium
from courses.actions.demo.answering import Given, Shown, answer
from courses.actions.demo.cast import Part
from courses.actions.demo.turns import Turns
from species.models import Pair, Species

SECONDS_A_QUESTION = 40


@dataclass
class Learner:
    """Somebody in the story with the row they sign in with, and their turns at the bank."""

    part: Part
    user: User
    turns: Turns
    random: Random


@dataclass
class Truth:
    """What every species of the bank truly is, for drawing answers."""

    shown: dict[str, Shown]
    species: dict[str, Species]
    edible: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, pairs: Iterable[Pair]) -> "Truth":
        taken_for: dict[str, list[str]] = {}
        species: dict[str, Species] = {}
        for pair in pairs:
            species[pair.gathered.key], species[pair.mistaken.key] = pair.gathered, pair.mistaken
            taken_for.setdefault(pair.mistaken.key, []).append(pair.gathered.key)
        shown = {
            key: Shown(key, tuple(taken_for.get(key, ())), row.is_known_by_name_alone) for key, row in species.items()
        }
        return cls(shown, species, [key for key in species if key not in taken_for])

    @property
    def dangerous(self) -> list[str]:
        return [key for key, shown in self.shown.items() if shown.is_dangerous]

    def answer_of(self, learner: Learner, species: str) -> Given:
        """One answer of this learner to a specimen of this species."""
        others = [key for key in self.edible if key != species]
        return answer(learner.part.rates, self.shown[species], others, learner.random)

    def named(self, given: Given) -> Species | None:
        return self.species[given.named] if given.named else None


def begin_period(learner: Learner, at: datetime, standard: Standard) -> None:
    """The first period and its first window, opened by the first paper that counts."""
    months = standard.period_months
    period = Period.objects.create(
        person=learner.user, number=1, started_at=at, ends_at=at + timedelta(days=round(months * 30.4375))
    )
    Window.objects.create(period=period, number=1, opened_at=at, opened_by=learner.user)


def sit_past_paper(
    paper: Paper, learners: Sequence[Learner], truth: Truth, dangerous: list[str], edible: list[str]
) -> None:
    """Let everybody sit one paper of the past and hand it in."""
    seats = Seat.objects.bulk_create(
        Seat(paper=paper, person=each.user, opens_at=paper.opens_at, closes_at=paper.closes_at) for each in learners
    )
    answered = []
    for learner, seat in zip(learners, seats, strict=True):
        opened = paper.opens_at + timedelta(minutes=learner.random.randrange(30, 60 * 40))
        chosen = learner.turns.draw(paper.questions, dangerous, edible)
        ended = opened + timedelta(seconds=SECONDS_A_QUESTION * len(chosen))
        sitting = Sitting(
            seat=seat,
            opened_at=opened,
            handed_in_at=ended,
            settled_at=ended + timedelta(minutes=1),
            result_shown_at=ended + timedelta(minutes=1),
        )
        answered.append((learner, sitting, chosen))
    Sitting.objects.bulk_create([sitting for _learner, sitting, _chosen in answered])
    for learner, sitting, chosen in answered:
        _answer_paper(learner, sitting, [(held.pk, held.species) for held in chosen], truth)


def _answer_paper(learner: Learner, sitting: Sitting, chosen: list[tuple[int, str]], truth: Truth) -> None:
    moments = [sitting.opened_at + timedelta(seconds=SECONDS_A_QUESTION * n) for n in range(len(chosen))]
    questions = Question.objects.bulk_create(
        Question(sitting=sitting, position=n, specimen_id=pk, first_shown_at=moment)
        for n, ((pk, _species), moment) in enumerate(zip(chosen, moments, strict=True), start=1)
    )
    given = [truth.answer_of(learner, species) for _pk, species in chosen]
    Answer.objects.bulk_create(
        Answer(
            question=question,
            decision=each.decision.value,
            named=truth.named(each),
            said=_said(truth, each),
            confidence=each.confidence.value,
            saved_at=moment + timedelta(seconds=30),
        )
        for question, each, moment in zip(questions, given, moments, strict=True)
    )
    Evidence.objects.bulk_create(
        Evidence(
            person=learner.user,
            specimen_id=pk,
            sitting=sitting,
            medium=Medium.PHOTO.value,
            decision=each.decision.value,
            named=truth.named(each),
            said=_said(truth, each),
            confidence=each.confidence.value,
            opened_at=sitting.opened_at,
            position=n,
            shown_at=moment,
            recorded_at=sitting.settled_at or sitting.opened_at,
            recorded_by=learner.user,
        )
        for n, ((pk, _species), each, moment) in enumerate(zip(chosen, given, moments, strict=True), start=1)
    )
    Seen.objects.bulk_create(
        (
            Seen(person=learner.user, specimen_id=pk, seen_at=moment, why=Seen.QUESTION)
            for (pk, _species), moment in zip(chosen, moments, strict=True)
        ),
        ignore_conflicts=True,
    )


def _said(truth: Truth, given: Given) -> str:
    named = truth.named(given)
    return named.common_name if named else ""
