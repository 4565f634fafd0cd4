"""A person's answers, made without sitting through papers: windows, and evidence in every medium."""

from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.utils import timezone

from assessments.models import Answer, Evidence, Paper, Period, Question, Seat, Sitting, Standard, Window
from species.models import Pair, Species, Specimen
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture

START = timezone.now().replace(microsecond=0) - timedelta(days=100)


def open_windows(person: User, *days: int) -> Period:
    """A period with windows that opened so many days after the start."""
    period = Period.objects.create(person=person, number=1, started_at=START, ends_at=START + timedelta(days=730))
    for number, day in enumerate(days or (0,), start=1):
        Window.objects.create(period=period, number=number, opened_at=START + timedelta(days=day), opened_by=person)
    return period


class PaperTrail:
    """One settled sitting of one person; `answer` adds a question with its evidence."""

    def __init__(self, person: User, standard: Standard, setter: User, day: int = 1) -> None:
        self.person, self.at = person, START + timedelta(days=day)
        paper = Paper.objects.create(
            title=f"Paper of day {day}",
            standard=standard,
            questions=40,
            opens_at=self.at,
            seed=day + 1000,
            set_by=setter,
            set_at=self.at,
        )
        seat = Seat.objects.create(paper=paper, person=person, opens_at=self.at)
        self.sitting = Sitting.objects.create(
            seat=seat, opened_at=self.at, handed_in_at=self.at, settled_at=self.at, result_shown_at=self.at
        )
        self.position = 0

    def answer(
        self,
        species: Species,
        decision: str,
        *,
        named: Species | None = None,
        specimen: Specimen | None = None,
        confidence: str = "sure",
        words: str = "",
    ) -> Evidence:
        """One photograph shown and answered; named rightly unless said otherwise. `words`: typed, and no plant."""
        self.position += 1
        shown = specimen or SpecimenFactory(species=species)
        if not shown.photos.exists():
            give_picture(shown)
        at = self.at + timedelta(minutes=self.position)
        question = Question.objects.create(
            sitting=self.sitting, position=self.position, specimen=shown, first_shown_at=at
        )
        name = None if words else named or species
        said = name.name if name else words
        if decision:
            Answer.objects.create(question=question, decision=decision, named=name, said=said, saved_at=at)
        row = Evidence(
            person=self.person,
            specimen=shown,
            sitting=self.sitting,
            medium="photo",
            decision=decision,
            named=name,
            said=said,
            confidence=confidence,
            opened_at=self.at,
            position=self.position,
            shown_at=at,
            recorded_at=at,
            recorded_by=self.person,
        )
        row.save()
        return row


def a_full_record(person: User, standard: Standard, pair: Pair, setter: User) -> None:
    """Everything that can happen to an answer to the plants of a pair."""
    bad, good = pair.mistaken, pair.gathered
    before = PaperTrail(person, standard, setter, -5)
    before.answer(bad, "refuse")
    trail = PaperTrail(person, standard, setter, 1)
    for decision in ("refuse", "refuse", "leave", "gather", "refuse", ""):
        trail.answer(bad, decision)
    trail.answer(bad, "refuse", named=good)
    for decision in ("gather", "gather", "refuse"):
        trail.answer(good, decision)
    again = PaperTrail(person, standard, setter, 40)
    again.answer(bad, "refuse", specimen=Specimen.objects.filter(evidence__decision="leave").first())
    third = SpecimenFactory(species=bad)
    for _each in range(3):
        again.answer(bad, "refuse", specimen=third if _each == 0 else neighbour(third))
    for day in (50, 60):
        make_live_evidence(person, SpecimenFactory(species=bad), "refuse", by=setter, at=START + timedelta(days=day))


def neighbour(specimen: Specimen) -> Specimen:
    """Another plant of the same species at the same place on the same day."""
    other = SpecimenFactory(species=specimen.species, seen_on=specimen.seen_on)
    other.individual.locality = specimen.individual.locality
    other.individual.save()
    return other


def moment(day: int) -> datetime:
    return START + timedelta(days=day)
