"""Whatever is done in whatever order: no certificate is current over a pair that is not passed without a review open.

What should be is worked out here from answers, voidings and steps as they lie in the database, apart from the
queries that the pages ask.
"""

from contextlib import contextmanager, suppress
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from assessments.actions.refusals import Refused
from assessments.actions.windows import open_window
from assessments.models import Evidence, Period, Standard, Voiding, Window
from assessments.queries.standings import standings_of
from courses.actions.certificates import (
    AlreadyApplied,
    NotPossibleNow,
    NotYet,
    apply_for,
    issue_certificate,
    record_event,
)
from courses.actions.renewals import begin_renewal
from courses.actions.reviews import notify_reviews
from courses.models import Certificate, Person, ReviewOpened
from courses.queries.certificates import certificate_lines
from species.actions.determinations import determine
from species.models import Pair, Specimen
from species.rules.vocabulary import Settlement
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.certificates import (
    answer_photographs,
    gather_dangerous,
    give_pass,
    make_application,
    sit_paper,
)
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, SpecimenFactory, make_species

EXAMPLES, STEPS = 40, 12
WHICH = st.integers(min_value=0, max_value=1)


class World:
    """A holder of one certificate over two dangerous pairs, and the people around them."""

    def __init__(self) -> None:
        make_school()
        self.tutor, self.second = make_person("Tilda Tutor", "tutor"), make_person("Sev Second", "tutor")
        self.organiser = make_person("Olga Organiser", "organiser")
        self.holder = make_person("Pat Participant", "participant")
        self.pairs = [
            PairFactory(gathered=make_species(good), mistaken=make_species(bad, deadly=True))
            for good, bad in (("goodleaf", "badleaf"), ("goodroot", "badroot"))
        ]
        self.standard = make_standard(*self.pairs, valid_months=2)  # so short that its renewal can begin at once
        give_pass(self.holder, self.standard, self.pairs[0], set_by=self.tutor, checked_by=self.second)
        self._pass_too(self.pairs[1], self.holder.user.evidence.earliest("opened_at").opened_at + timedelta(hours=5))
        application = make_application(self.holder, self.standard)
        self.certificate = issue_certificate(application, self.organiser, now=timezone.now())
        self.period_ends_at = Period.objects.get().ends_at

    def _pass_too(self, pair: Pair, at: datetime) -> None:
        sitting = sit_paper(self.holder, self.standard, self.tutor, at)
        answer_photographs(sitting, pair.mistaken, "refuse")
        answer_photographs(sitting, pair.gathered, "gather")
        for days in (0, 0, 1):
            moment, specimen = at + timedelta(days=days, minutes=1), SpecimenFactory(species=pair.mistaken)
            make_live_evidence(self.holder.user, specimen, "refuse", by=self.second.user, at=moment)


class Lives(RuleBasedStateMachine):
    """Misses, voidings, new names, windows, renewals, and every step of a certificate."""

    world: World

    @rule(which=WHICH)
    def gathers_what_is_dangerous(self, which: int) -> None:
        gather_dangerous(self.world.holder, self.world.pairs[which], self.world.tutor)

    @rule(which=WHICH)
    def gathers_a_photograph_of_it(self, which: int) -> None:
        sitting = sit_paper(self.world.holder, self.world.standard, self.world.tutor, timezone.now())
        answer_photographs(sitting, self.world.pairs[which].mistaken, "gather", 1)

    @rule(which=WHICH, decision=st.sampled_from(["refuse", "gather"]), count=st.integers(min_value=1, max_value=12))
    def loses_answers(self, which: int, decision: str, count: int) -> None:
        for specimen in self._answered(which, decision)[:count]:
            by, now = self.world.tutor.user, timezone.now()
            specimen.voidings.create(voided_by=by, reason="Blurred", voided_at=now)

    @rule()
    def gets_them_back(self) -> None:
        Voiding.objects.standing().update(lifted_by=self.world.tutor.user, lifted_at=timezone.now())

    @rule(which=WHICH, decision=st.sampled_from(["refuse", "gather"]), people=st.integers(min_value=1, max_value=2))
    def a_plant_is_named_anew(self, which: int, decision: str, people: int) -> None:
        other = self.world.pairs[which].gathered
        for specimen in self._answered(which, decision)[-1:]:
            for person in (self.world.tutor, self.world.second)[:people]:
                determine(specimen, said=other.name, species=other, by=person.user, now=timezone.now())

    @rule()
    def another_window_opens(self) -> None:
        with suppress(Refused):
            open_window(self.world.holder.user, "Taught again", self.world.organiser.user, timezone.now())

    @rule()
    def a_renewal_begins(self) -> None:
        with suppress(NotPossibleNow):
            begin_renewal(self.world.certificate, self.world.organiser, timezone.now())

    @rule(
        kind=st.sampled_from(["suspended", "lifted", "narrowed", "withdrawn"]),
        kept=st.sets(WHICH),
        newest=st.booleans(),
    )
    def takes_a_step(self, kind: str, kept: set[int], newest: bool) -> None:
        certificate = Certificate.objects.order_by("pk")[Certificate.objects.count() - 1 if newest else 0]
        keeping = [self.world.pairs[each].key for each in kept]
        with suppress(NotPossibleNow):
            record_event(certificate, kind, self.world.organiser, "A reason", now=timezone.now(), keeping=keeping)

    @rule()
    def asks_for_another(self) -> None:
        now = timezone.now()
        with suppress(AlreadyApplied):
            apply_for(self.world.holder, self.world.standard, statement=True, agreed=True, now=now)
        for open_one in self.world.holder.applications.undecided():
            with suppress(NotYet):
                issue_certificate(open_one, self.world.organiser, now=now)

    @rule()
    def the_worker_comes_by(self) -> None:
        notify_reviews(timezone.now())

    @invariant()
    def none_is_current_over_a_pair_that_is_not_passed(self) -> None:
        now = timezone.now()
        rows = Certificate.objects.select_related("person__user", "standard").prefetch_related("events")
        lines, doubtful = certificate_lines(rows, now), set()
        for line in lines:
            if _is_current(line.certificate) and _is_doubtful(self.world, line.certificate, now):
                assert line.status == "review"
                doubtful.add(line.certificate.pk)
        if doubtful:
            notify_reviews(now)
            told = ReviewOpened.objects.filter(closed_at__isnull=True).values_list("certificate_id", flat=True)
            assert doubtful <= set(told)
            assert len(told) == len(set(told))
        assert Certificate.objects.get(pk=self.world.certificate.pk).valid_until == self.world.certificate.valid_until

    def _answered(self, which: int, decision: str) -> list[Specimen]:
        plant = self.world.pairs[which].mistaken
        rows = Evidence.objects.filter(decision=decision, specimen__species=plant).order_by("pk")
        void = Voiding.objects.standing().values("specimen")
        return [row.specimen for row in rows.exclude(specimen__in=void).select_related("specimen")]


def _is_current(certificate: Certificate) -> bool:
    kinds = [event.kind for event in certificate.events.all()]
    turns = [kind for kind in kinds if kind in ("suspended", "lifted")]
    return "withdrawn" not in kinds and turns[-1:] != ["suspended"]


def _is_doubtful(world: World, certificate: Certificate, now: datetime) -> bool:
    """Whether a pair that it still stands for is not passed on the evidence of its period, or was missed since."""
    left = {pair["key"] for pair in certificate.facts["pairs"]}
    for event in certificate.events.all():
        left &= set(event.facts["pairs"]) if event.kind == "narrowed" else left
    plants = [pair.mistaken for pair in world.pairs if pair.key in left]
    missed = Evidence.objects.filter(
        decision="gather",
        shown_at__gt=certificate.issued_at,
        specimen__species__in=plants,
        specimen__settlement=Settlement.CONFIRMED.value,
    )
    void = Voiding.objects.filter(lifted_at__isnull=True).values("specimen")
    if missed.exclude(specimen__in=void).exists():
        return True
    verdicts = _verdicts_without_renewal(world.holder, world.standard, world.period_ends_at, now)
    return any(not verdicts[key] for key in left)


def _verdicts_without_renewal(holder: Person, standard: Standard, ends_at: datetime, now: datetime) -> dict[str, bool]:
    """By pair whether it is passed in the first period, as if that had never been ended by a renewal."""
    with _undone():
        Window.objects.filter(period__number__gt=1).delete()
        Period.objects.filter(number__gt=1).delete()
        Period.objects.filter(number=1).update(ends_at=ends_at)
        found = standings_of([holder.user_id], standard, now)[holder.user_id]
        return {verdict.key: verdict.passed for verdict in found.pairs}


@contextmanager
def _undone():
    """Whatever happens inside never happened."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


class TestNoWayAround(TestCase):
    """Each example begins where the school was just made, and is undone."""

    def test_no_sequence_leaves_a_current_certificate_over_an_unpassed_pair_without_a_review(self) -> None:
        checks = settings(
            max_examples=EXAMPLES,
            stateful_step_count=STEPS,
            deadline=timedelta(minutes=1),
            suppress_health_check=list(HealthCheck),
            database=None,
        )
        run_state_machine_as_test(_each_undone(World()), settings=checks)


def _each_undone(made: World) -> type[Lives]:
    class Undone(Lives):
        world = made

        def __init__(self) -> None:
            super().__init__()
            self.block = transaction.atomic()
            self.block.__enter__()

        def teardown(self) -> None:
            transaction.set_rollback(True)
            self.block.__exit__(None, None, None)

    return Undone
