"""After any history, what is kept is what is rebuilt from nothing, bit for bit, and what a fresh look says."""

from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from random import Random

import pytest
from django.contrib.auth.models import User

from assessments.actions.handing_in import annul, hand_in, may_be_taken_back, settle_overdue, show_result, take_back
from assessments.actions.refusals import Refused
from assessments.actions.sittings import Given, save_answer, show_question
from assessments.actions.spot_tests import add_station, name_station, record_answers, set_up_spot_test
from assessments.actions.standings import rebuild_standings, refresh_after_change_of, refresh_standings
from assessments.actions.windows import ensure_window, open_window
from assessments.models import Evidence, KeptLedger, KeptStanding, Paper, Question, Seat, Sitting, Standard, Voiding
from assessments.rules.figures import LedgerFigures, figures_from
from species.actions.determinations import determine
from species.models import CommonName, Locality, Pair, Specimen
from tests.assessments.test_kept_standings import is_what_a_fresh_look_says, rows
from tests.factories.assessments import make_standard
from tests.factories.certificates import trust_founder
from tests.factories.people import make_person
from tests.factories.species import LocalityFactory, PairFactory, SpecimenFactory

STEPS = 40
QUESTIONS = 8


class History:
    """A small school to which things happen in random order; time goes on with every step."""

    def __init__(self, seed: int) -> None:
        self.dice = Random(seed)
        self.now = datetime(2024, 3, 1, 9, tzinfo=UTC)
        staff = [make_person(name, "assessor") for name in ("Sela Setter", "Seb Second", "Tess Third")]
        self.setter, self.second, self.third = (person.user for person in staff)
        trust_founder(staff[2])
        self.people = [make_person(f"Lou Learner {n}", "participant").user for n in range(2)]
        pairs: list[Pair] = [PairFactory(), PairFactory()]
        pairs.append(PairFactory(gathered=pairs[0].gathered, mistaken=pairs[1].mistaken))
        self.plants = [pairs[0].gathered, pairs[1].gathered, pairs[0].mistaken, pairs[1].mistaken]
        self.standards: list[Standard] = [
            make_standard(
                *pairs, required_stages=("rosette",), stage_clean=2, miss_limit="0.45", live_run=1, live_occasions=1
            ),
            make_standard(pairs[0], key="stricter", window_weights=[0.5, 0.5]),
        ]
        self.places: list[Locality] = [LocalityFactory() for _ in range(3)]

    def step(self) -> None:
        """One random act. One that is refused changes nothing, which is an act too."""
        self.now += timedelta(days=self.dice.choice([0, 1, 1, 1, 5, 40]), hours=3)
        acts: list[Callable[[], object]] = [
            self.sits, self.sits, self.sits, self.walks, self.walks, self.voids, self.lifts, self.names_anew,
            self.opens_window, self.annuls, self.moves, self.learns_a_name,
        ]  # fmt: skip
        with suppress(Refused):
            self.dice.choice(acts)()

    def sits(self) -> None:
        """A sitting of a few plants; handed in, perhaps taken back, its result opened or left to itself."""
        person = self.dice.choice(self.people)
        ensure_window(person, person, 24, self.now, self.now)
        sitting = self._sitting_of(person)
        for question in sitting.questions.all():
            if self.dice.random() < 0.9:
                save_answer(question, self._answer(question.specimen), self.now)
            else:
                show_question(question, self.now)
        hand_in(sitting, self.now)
        if self.dice.random() < 0.2 and may_be_taken_back(sitting, self.now):
            take_back(sitting, self.now)
            hand_in(sitting, self.now)
        if self.dice.random() < 0.6:
            show_result(sitting, self.now)
        self.now += timedelta(minutes=5)
        settle_overdue(self.now)

    def _sitting_of(self, person: User) -> Sitting:
        paper = Paper.objects.create(
            title="A paper", standard=self.standards[0], questions=QUESTIONS, seed=1,
            opens_at=self.now, set_by=self.setter, set_at=self.now,
        )  # fmt: skip
        seat = Seat.objects.create(paper=paper, person=person, opens_at=self.now)
        sitting = Sitting.objects.create(seat=seat, opened_at=self.now)
        for position in range(1, QUESTIONS + 1):
            Question.objects.create(sitting=sitting, position=position, specimen=self._specimen())
        return sitting

    def walks(self) -> None:
        """A spot test of four stations. The second name comes before or after the answers."""
        test = set_up_spot_test("Walk", self.dice.choice(self.places), self.now - timedelta(hours=1), self.setter)
        before = self.dice.random() < 0.5
        stations = []
        for _each in range(4):
            plant = self.dice.choice(self.plants)
            stations.append(add_station(test, plant, plant.name, "rosette", self.setter, self.now))
            if before:
                name_station(stations[-1], plant, plant.name, self.second, self.now)
        person = self.dice.choice(self.people)
        answers = {each.number: self._answer(each.specimen, careful=0.7) for each in stations}
        record_answers(test, person, answers, self.third, self.now, recognised="sight")
        for station in [] if before else stations:
            plant = self.dice.choice(self.plants)
            name_station(station, plant, plant.name, self.second, self.now)

    def voids(self) -> None:
        specimen = self._answered()
        Voiding.objects.create(specimen=specimen, voided_at=self.now, voided_by=self.second, reason="blurred")
        refresh_after_change_of([specimen.pk], self.now)

    def lifts(self) -> None:
        voiding = Voiding.objects.standing().first()
        if voiding:
            voiding.lifted_at, voiding.lifted_by = self.now, self.second
            voiding.save()
            refresh_after_change_of([voiding.specimen_id], self.now)

    def names_anew(self) -> None:
        """Somebody changes their mind: disputed, settled again, or another plant. Nothing here is told of it."""
        plant, specimen = self.dice.choice(self.plants), self._answered()
        for by in self.dice.sample([self.setter, self.second], self.dice.choice([1, 2])):
            determine(specimen, said=plant.name, species=plant, by=by, now=self.now)

    def opens_window(self) -> None:
        open_window(self.dice.choice(self.people), "Went through them again.", self.setter, self.now)

    def annuls(self) -> None:
        sitting = Sitting.objects.order_by("-pk").first()
        if sitting:
            annul(sitting, self.third, "The lamp failed.", self.now)

    def moves(self) -> None:
        """A slip in the bank is mended: the stage, or the place."""
        specimen = self._answered()
        specimen.stage = self.dice.choice(["rosette", "flower"])
        specimen.save()
        specimen.individual.locality = self.dice.choice(self.places)
        specimen.individual.save()

    def learns_a_name(self) -> None:
        if self.dice.random() < 0.3:
            CommonName.objects.create(species=self.plants[0], name=f"name {self.now:%Y%m%d}")

    def _specimen(self) -> Specimen:
        """A confirmed specimen, now and then one that was shown before."""
        known = Specimen.objects.filter(use="assessment", retired_on=None)
        if known.count() > 12 and self.dice.random() < 0.3:
            return self.dice.choice(list(known.exclude(questions__sitting__handed_in_at=None)))
        specimen: Specimen = SpecimenFactory(
            species=None, settlement="undetermined", seen_on=self.now.date(),
            stage=self.dice.choice(["rosette", "rosette", "flower"]),
        )  # fmt: skip
        plant = self.dice.choice(self.plants)
        for by in (self.setter, self.second):
            determine(specimen, said=plant.name, species=plant, by=by, now=self.now)
        return specimen

    def _answer(self, specimen: Specimen, careful: float = 0.93) -> Given:
        """What is right so often, and anything otherwise."""
        dangerous = specimen.species in self.plants[2:]
        right = "refuse" if dangerous else "gather"
        plant = specimen.species if self.dice.random() < 0.8 else self.dice.choice(self.plants)
        return Given(
            right if self.dice.random() < careful else self.dice.choice(["gather", "refuse", "leave"]),
            "sure", plant.name if plant else "", plant.pk if plant else None,
        )  # fmt: skip

    def _answered(self) -> Specimen:
        answers = Evidence.objects.order_by("pk")
        if not answers:
            raise Refused("Nobody has answered anything yet.")
        return self.dice.choice(list(answers)).specimen

    @property
    def everybody(self) -> list[int]:
        return [person.pk for person in self.people]


def looks_right(history: History, now: datetime) -> bool:
    return all(is_what_a_fresh_look_says(history.everybody, each, now) for each in history.standards)


@pytest.mark.parametrize("seed", range(1, 3))
def test_whatever_happens_what_is_answered_and_kept_is_what_follows_from_the_evidence(school, seed):
    history = History(seed)
    for number in range(STEPS):
        history.step()
        if number % 8 == 7:
            assert looks_right(history, history.now)
    refresh_standings(history.everybody, history.now)
    kept = rows()
    assert len(kept) == 2 * (4 + 2 + 2)
    rebuild_standings(history.now)
    assert rows() == kept
    assert looks_right(history, history.now)
    assert looks_right(history, history.now + timedelta(days=800))


def test_the_histories_reach_what_a_standing_can_hold(school):
    history, reached = History(2), Counter()
    for _each in range(STEPS):
        history.step()
        refresh_standings(history.everybody, history.now)
        for row in KeptLedger.objects.all():
            reached.update(_reached(figures_from(row.figures)))
        reached["passed pair"] += KeptStanding.objects.filter(pairs_passed__gt=0).count()
    wanted = {"clean", "miss", "neutral", "passed", "live", "live miss", "covered", "second window", "passed pair"}
    assert wanted <= {word for word, times in reached.items() if times}


def _reached(ledger: LedgerFigures) -> dict[str, int]:
    first, live = ledger.windows[0], ledger.live
    return {
        "clean": first.clean,
        "miss": first.misses,
        "neutral": first.neutral,
        "passed": int(ledger.passed),
        "covered": len(first.covered),
        "second window": len(ledger.windows) - 1,
        "live": live.clean if live else 0,
        "live miss": live.misses if live else 0,
    }
