"""Upheld by another name: two people name the plant anew, and until they agree it counts for nobody."""

import pytest
from django.utils import timezone

from assessments.actions.appeals import AppealRefused, withdraw
from assessments.actions.deciding_appeals import ask_for_names, name_anew
from assessments.models import Voiding
from assessments.queries.standings import standing_of
from assessments.rules.appeals import Step
from assessments.rules.standard import Side
from species.actions.second_looks import ask_second_look
from species.models import SecondLook, Specimen
from tests.factories.people import make_person

from .appeals import counts, decided, kinds, make_appeal


def name(made, pair_side, *people):
    for person in people:
        name_anew(made, person.user, pair_side.name, pair_side, "", timezone.now())


def first_namers(miss):
    return [row.determiner.person for row in miss.specimen.determinations.order_by("pk")[:2]]


def test_while_it_is_named_anew_the_plant_counts_for_nobody_and_the_appeal_stays(
    miss, refused, participant, stranger, standard, pair, assessor
):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "Two of us see no blotches.", timezone.now())
    assert counts(participant, standard, pair) == counts(stranger, standard, pair) == (0, 0)
    assert kinds(stranger) == ["plant_waits"]
    assert kinds(assessor) == ["appeal_to_decide"]
    assert "names_wanted" in kinds(first_namers(miss)[0])
    with pytest.raises(AppealRefused, match="named anew for everybody"):
        withdraw(made, participant.user, timezone.now())
    with pytest.raises(AppealRefused, match="0 people have named it anew"):
        decided(made, assessor, Step.DISMISSED)


def test_named_anew_by_two_it_counts_under_its_new_name_for_everybody(
    miss, refused, participant, stranger, standard, pair, assessor
):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "No blotches.", timezone.now())
    name(made, pair.gathered, *first_namers(miss))
    decided(made, assessor, Step.NAMED_ANEW)
    assert Specimen.objects.get(pk=miss.specimen_id).species == pair.gathered
    assert counts(participant, standard, pair) == counts(stranger, standard, pair) == (0, 0)
    edible = standing_of(participant.user, standard, timezone.now()).ledger(pair.gathered.key, Side.EDIBLE)
    assert edible.windows[0].counts.clean == 1
    assert kinds(stranger) == ["plant_waits", "plant_renamed"]


def test_named_the_same_again_it_counts_as_it_did(miss, participant, standard, pair, assessor):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "Let us look.", timezone.now())
    name(made, pair.mistaken, *first_namers(miss))
    with pytest.raises(AppealRefused, match="the name that it had"):
        decided(made, assessor, Step.NAMED_ANEW)
    decided(made, assessor, Step.DISMISSED)
    assert counts(participant, standard, pair) == (0, 1)
    assert not Voiding.objects.standing().exists()


def test_while_the_names_differ_it_can_only_be_taken_out(miss, pair, assessor):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "Let us look.", timezone.now())
    others = [make_person(f"Newcomer {number}", "tutor") for number in (1, 2)]
    name(made, pair.gathered, *others)
    with pytest.raises(AppealRefused, match="do not all agree"):
        decided(made, assessor, Step.NAMED_ANEW)
    decided(made, assessor, Step.VOIDED)
    assert Voiding.objects.standing().count() == 1


def test_the_person_who_appealed_gives_none_of_the_new_names_and_nobody_gives_two(miss, participant, pair, assessor):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "Let us look.", timezone.now())
    with pytest.raises(AppealRefused, match="your own appeal"):
        name(made, pair.gathered, participant)
    one = first_namers(miss)[0]
    with pytest.raises(AppealRefused, match="already, thank you"):
        name(made, pair.gathered, one, one)


def test_the_plant_joins_those_that_somebody_who_is_not_told_is_to_name(miss, assessor, pair):
    made = make_appeal(miss)
    ask_for_names(made, assessor.user, "No blotches on the stem.", timezone.now())
    look = SecondLook.objects.get()
    assert (look.specimen, look.asked_by, look.answer) == (miss.specimen, assessor.user, None)
    assert "blotches" not in look.why
    namer = first_namers(miss)[0]
    name(made, pair.gathered, namer)
    look.refresh_from_db()
    assert look.answer.determiner == namer.user


def test_a_look_that_waits_already_is_the_one(miss, assessor, stranger):
    ask_second_look(miss.specimen, by=stranger.user, why="Answers differ.", now=timezone.now())
    ask_for_names(make_appeal(miss), assessor.user, "No blotches.", timezone.now())
    assert SecondLook.objects.get().asked_by == stranger.user


def test_a_plant_that_was_taken_out_is_named_in_the_appeal_alone(miss, assessor, pair):
    made = make_appeal(miss)
    Specimen.objects.filter(pk=miss.specimen_id).update(retired_on=timezone.localdate(), retired_why="blurred")
    ask_for_names(made, assessor.user, "No blotches.", timezone.now())
    assert not SecondLook.objects.exists()
    name(made, pair.gathered, *first_namers(miss))
    decided(made, assessor, Step.NAMED_ANEW)
    assert Specimen.objects.get(pk=miss.specimen_id).species == pair.gathered
