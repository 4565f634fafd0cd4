"""From opinions to what a specimen counts as."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.determination import DeterminationFacts, Ground, settled
from species.rules.vocabulary import Settlement

MORNING = datetime(2026, 4, 2, 9, tzinfo=UTC)
HEMLOCK = {"species": "conium-maculatum", "species_name": "Conium maculatum"}
PARSLEY = {"species": "anthriscus-sylvestris", "species_name": "Anthriscus sylvestris"}


def opinion(who: str, said: str, hours: int = 0, **species: str) -> DeterminationFacts:
    return DeterminationFacts(who, said, MORNING + timedelta(hours=hours), **species)


def test_nobody_has_said_anything() -> None:
    assert settled([]).ground == Ground.NOBODY_SAID
    assert settled([]).settlement == Settlement.UNDETERMINED


def test_one_person_is_not_enough_however_often() -> None:
    found = settled([opinion("ann", "hemlock", hours, **HEMLOCK) for hours in range(3)])
    assert (found.settlement, found.species) == (Settlement.SINGLE, "conium-maculatum")


def test_two_people_who_agree_confirm() -> None:
    found = settled([opinion("ann", "hemlock", **HEMLOCK), opinion("bob", "Conium maculatum L.", **HEMLOCK)])
    assert (found.settlement, found.species) == (Settlement.CONFIRMED, "conium-maculatum")
    assert found.determiners == 2


def stranger(who: str, said: str, **species: str) -> DeterminationFacts:
    return replace(opinion(who, said, **species), is_known=False)


def test_strangers_alone_confirm_nothing_however_many_agree() -> None:
    found = settled([stranger(f"id {n}", "hemlock", **HEMLOCK) for n in range(5)])
    assert (found.settlement, found.species) == (Settlement.SINGLE, "conium-maculatum")
    assert found.ground == Ground.ONLY_OUTSIDERS


def test_a_stranger_and_somebody_of_the_school_confirm() -> None:
    found = settled([stranger("id 1", "hemlock", **HEMLOCK), opinion("ann", "hemlock", **HEMLOCK)])
    assert found.settlement == Settlement.CONFIRMED


def test_a_stranger_who_sees_another_plant_disputes_like_anybody() -> None:
    found = settled([stranger("id 1", "cow parsley", **PARSLEY), *(opinion(n, "hemlock", **HEMLOCK) for n in "ab")])
    assert found.settlement == Settlement.DISPUTED


def test_two_people_who_differ_dispute_and_no_species_stands() -> None:
    found = settled([opinion("ann", "hemlock", **HEMLOCK), opinion("bob", "cow parsley", **PARSLEY)])
    assert (found.settlement, found.species) == (Settlement.DISPUTED, None)


def test_two_against_one_is_still_disputed() -> None:
    opinions = [opinion(who, "hemlock", **HEMLOCK) for who in ("ann", "bob")]
    assert settled([*opinions, opinion("eve", "cow parsley", **PARSLEY)]).settlement == Settlement.DISPUTED


def test_who_changes_their_mind_counts_once_with_the_latest() -> None:
    opinions = [
        opinion("bob", "cow parsley", 1, **PARSLEY),
        opinion("ann", "hemlock", 2, **HEMLOCK),
        opinion("bob", "hemlock", 3, **HEMLOCK),
    ]
    assert settled(opinions).settlement == Settlement.CONFIRMED


def test_of_two_opinions_at_one_moment_the_later_recorded_counts() -> None:
    first = DeterminationFacts("ann", "hemlock", MORNING, **HEMLOCK, order=1)
    second = DeterminationFacts("ann", "cow parsley", MORNING, **PARSLEY, order=2)
    assert settled([second, first]).species == "anthriscus-sylvestris"


@pytest.mark.parametrize("said", ["Conium", "cf. Conium maculatum", "Conium maculatum ?"])
def test_a_genus_or_a_reserve_never_confirms(said: str) -> None:
    found = settled([opinion("ann", "hemlock", **HEMLOCK), opinion("bob", said, **HEMLOCK)])
    assert found.settlement == Settlement.SINGLE


def test_two_names_of_a_genus_settle_nothing() -> None:
    found = settled([opinion("ann", "Conium"), opinion("bob", "Conium sp.")])
    assert (found.settlement, found.ground) == (Settlement.UNDETERMINED, Ground.NO_FULL_NAME)


def test_another_genus_disputes() -> None:
    found = settled([opinion("ann", "hemlock", **HEMLOCK), opinion("bob", "Chaerophyllum")])
    assert found.settlement == Settlement.DISPUTED


@pytest.mark.parametrize("said", ["Chaerophyllum temulum", "rough chervil", "something else"])
def test_a_plant_that_the_school_does_not_know_disputes_too(said: str) -> None:
    found = settled([opinion("ann", "hemlock", **HEMLOCK), opinion("bob", said)])
    assert found.settlement == Settlement.DISPUTED


def test_two_people_may_confirm_a_plant_that_the_school_does_not_know() -> None:
    found = settled([opinion("ann", "Chaerophyllum temulum L."), opinion("bob", "chaerophyllum temulum")])
    assert (found.settlement, found.species) == (Settlement.CONFIRMED, None)


people, plants = st.sampled_from(["ann", "bob", "eve"]), st.sampled_from([HEMLOCK, PARSLEY])


@given(st.lists(st.tuples(people, plants), max_size=6), st.randoms())
def test_the_order_of_reading_does_not_matter(said, random) -> None:
    opinions = [opinion(who, "?x", hours, **plant) for hours, (who, plant) in enumerate(said)]
    mixed = random.sample(opinions, len(opinions))
    assert settled(mixed) == settled(opinions)


@given(st.lists(st.tuples(people, plants), min_size=1, max_size=6))
def test_confirmed_means_two_people_and_no_other_plant(said) -> None:
    opinions = [opinion(who, "name", hours, **plant) for hours, (who, plant) in enumerate(said)]
    last = {who: plant["species"] for who, plant in said}
    found = settled(opinions)
    assert (found.settlement == Settlement.CONFIRMED) == (len(last) > 1 and len(set(last.values())) == 1)
