"""Appealing and deciding: once, by somebody with no part in it, for the whole plant and for everybody."""

from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError
from django.utils import timezone

from assessments.actions.appeals import AlreadyAppealed, AlreadyEnded, AppealRefused, withdraw
from assessments.actions.deciding_appeals import ask_for_names, take_up
from assessments.actions.standings import rebuild_standings
from assessments.models import AppealStep, Evidence, KeptStanding, Notice, Voiding
from assessments.queries.assessors import assessors_of
from assessments.queries.bank import usable_specimens
from assessments.queries.standings import standing_of
from assessments.rules.appeals import Step
from tests.factories.species import determine

from .appeals import counts, decided, kinds, make_appeal
from .evidence import PaperTrail


def test_an_appeal_is_acknowledged_with_a_day_and_those_who_may_decide_hear_of_it(
    miss, participant, tutor, organiser, assessor
):
    made = make_appeal(miss)
    assert made.decide_by == timezone.localdate() + timedelta(days=28)
    assert Notice.objects.get(person=participant.user).facts["decide_by"] == made.decide_by.isoformat()
    assert kinds(organiser) == kinds(assessor) == ["appeal_to_decide"]
    assert kinds(tutor) == []


def test_an_answer_is_appealed_once(miss):
    make_appeal(miss)
    with pytest.raises(AlreadyAppealed, match="one appeal per answer"):
        make_appeal(miss)


def test_on_the_last_day_it_is_received_and_after_it_the_sentence_names_the_day(miss, standard):
    def seen_days_ago(days: int) -> None:
        miss.sitting.result_shown_at = timezone.now() - timedelta(days=days)

    seen_days_ago(standard.appeal_days + 1)
    with pytest.raises(AppealRefused, match="last day to appeal"):
        make_appeal(miss)
    seen_days_ago(standard.appeal_days)
    make_appeal(miss)


def test_a_plant_that_counts_for_nobody_leaves_nothing_to_appeal(miss, refused, assessor):
    decided(make_appeal(miss), assessor, Step.VOIDED)
    with pytest.raises(AppealRefused, match="counts for nobody already"):
        make_appeal(refused)


@pytest.mark.parametrize(
    ("who", "sentence"),
    [("tutor", "do not decide appeals"), ("participant", "do not decide appeals"), ("stranger", "do not decide")],
)
def test_whoever_holds_no_such_role_decides_nothing(request, miss, who, sentence):
    with pytest.raises(AppealRefused, match=sentence):
        decided(make_appeal(miss), request.getfixturevalue(who), Step.DISMISSED)


def test_whoever_set_the_test_named_the_plant_or_assessed_the_person_does_not_decide(
    miss, participant, standard, pair, organiser, assessor
):
    made = make_appeal(miss)
    determine(miss.specimen, pair.mistaken, organiser.user)
    with pytest.raises(AppealRefused, match="You named this plant"):
        decided(made, organiser, Step.VOIDED)
    PaperTrail(participant.user, standard, assessor.user, 3)
    with pytest.raises(AppealRefused, match="You assessed this person"):
        take_up(made, assessor.user, timezone.now())
    paper = miss.sitting.seat.paper
    paper.set_by = assessor.user
    paper.save()
    with pytest.raises(AppealRefused, match="You set this test"):
        ask_for_names(made, assessor.user, "Why not", timezone.now())
    assert not Voiding.objects.exists()


def test_upheld_the_plant_is_void_for_everybody_and_in_both_directions(
    miss, refused, participant, stranger, standard, pair, assessor
):
    assert counts(participant, standard, pair) == (0, 1)
    assert counts(stranger, standard, pair) == (1, 0)
    decided(make_appeal(miss), assessor, Step.VOIDED)
    assert counts(participant, standard, pair) == counts(stranger, standard, pair) == (0, 0)
    assert not usable_specimens().filter(pk=miss.specimen_id).exists()
    assert Evidence.objects.count() == 2


def test_what_is_kept_of_everybody_concerned_is_fresh_after_the_decision(
    miss, refused, participant, stranger, standard, pair, assessor
):
    decided(make_appeal(miss), assessor, Step.VOIDED)
    kept = KeptStanding.objects.filter(standard=standard)
    assert set(kept.values_list("person_id", flat=True)) == {participant.user.pk, stranger.user.pk}


def test_what_is_kept_after_a_decision_is_what_computing_from_nothing_gives(
    miss, refused, participant, stranger, standard, pair, assessor
):
    def kept() -> list[tuple[object, ...]]:
        return list(KeptStanding.objects.order_by("person", "standard").values_list("person", "pairs", "gaps", "stamp"))

    decided(make_appeal(miss), assessor, Step.VOIDED)
    before = kept()
    rebuild_standings(timezone.now())
    assert kept() == before


def test_everybody_concerned_is_told_what_changed_and_not_who_appealed(miss, refused, participant, stranger, assessor):
    made = decided(make_appeal(miss), assessor, Step.VOIDED)
    told = Notice.objects.get(person=stranger.user, kind="plant_void").facts
    change = told["standards"][0]["pairs"][0]
    assert told["answers"] == [{"title": "Paper of day 2", "position": 1}]
    assert change["after"]["dangerous_missing"] == change["before"]["dangerous_missing"] + 1
    assert made.key not in str(told)
    own = Notice.objects.get(person=participant.user, kind="plant_void").facts["standards"][0]["pairs"][0]
    assert (own["before"]["misses"], own["after"]["misses"]) == (1, 0)
    assert kinds(participant)[-2:] == ["plant_void", "appeal_decided"]


def test_dismissed_nothing_is_different_and_the_reasons_are_told(miss, participant, standard, pair, assessor):
    before = standing_of(participant.user, standard, timezone.now())
    with pytest.raises(AppealRefused, match="Write down your reasons"):
        decided(made := make_appeal(miss), assessor, Step.DISMISSED, reasons="  ")
    decided(made, assessor, Step.DISMISSED, reasons="The blotches show below the leaf.")
    assert standing_of(participant.user, standard, timezone.now()) == before
    told = Notice.objects.get(person=participant.user, kind="appeal_decided")
    assert told.facts["reasons"] == "The blotches show below the leaf."


def test_appealing_alone_changes_no_standing(miss, participant, standard):
    before = standing_of(participant.user, standard, timezone.now())
    make_appeal(miss)
    assert standing_of(participant.user, standard, timezone.now()) == before


def test_a_decision_is_made_once(miss, organiser, assessor):
    made = decided(make_appeal(miss), assessor, Step.DISMISSED)
    with pytest.raises(AlreadyEnded, match="decided already"):
        decided(made, organiser, Step.VOIDED)
    assert not Voiding.objects.exists()


def test_the_only_one_who_could_decide_says_why_and_that_is_kept(miss, pair, organiser, assessor):
    assessor.user.groups.clear()
    determine(miss.specimen, pair.mistaken, organiser.user)
    made = make_appeal(miss)
    with pytest.raises(AppealRefused, match="why nobody else can decide"):
        decided(made, organiser, Step.DISMISSED)
    decided(made, organiser, Step.DISMISSED, exception="I am the only one here.")
    assert made.steps.get(kind="dismissed").exception == "I am the only one here."


def test_a_withdrawn_appeal_is_decided_by_nobody(miss, participant, stranger, assessor):
    made = make_appeal(miss)
    with pytest.raises(AppealRefused, match="Only the person"):
        withdraw(made, stranger.user, timezone.now())
    withdraw(made, participant.user, timezone.now())
    with pytest.raises(AlreadyEnded, match="withdrawn"):
        decided(made, assessor, Step.VOIDED)


def test_whoever_decided_an_appeal_counts_as_having_assessed_but_may_decide_the_next(
    miss, participant, standard, pair, assessor, tutor
):
    decided(make_appeal(miss), assessor, Step.DISMISSED)
    assert assessor.user.pk in assessors_of([participant.user.pk])[participant.user.pk]
    row = PaperTrail(participant.user, standard, tutor.user, 99).answer(pair.mistaken, "gather")
    decided(make_appeal(row), assessor, Step.DISMISSED)
    assert AppealStep.objects.filter(kind="dismissed").count() == 2


def test_what_was_done_is_never_changed_nor_deleted(miss):
    step = make_appeal(miss).steps.get()
    step.words = "Something else"
    with pytest.raises(ValidationError, match="never changed"):
        step.save()
    with pytest.raises(ValidationError, match="never deleted"):
        step.delete()
